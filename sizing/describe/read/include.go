package read

import (
	"errors"
	"fmt"
	"path"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"example.com/loomfolio/sizing/folder"
	"example.com/loomfolio/sizing/source"
)

// Bounds of what is included.
const (
	mostFiles = 100     // files of one description
	mostDepth = 10      // files one in the other
	mostWhole = 8 << 20 // bytes in all of them
)

// loaded is one file of a description.
type loaded struct {
	path  string     // from the folder on
	root  *yaml.Node // nil where nothing of it can be read
	under []string   // the paths of those in which it is included, the description first
	at    source.Span
}

// whole joins the description with what it and the chosen variant include.
func (r *Reader) whole(root *yaml.Node, variant string) *yaml.Node {
	top := &loaded{path: base(r.file.Name), root: root}
	r.shared.loaded[top.path] = top
	r.shared.order = []*loaded{top}
	r.includes(top, true)
	r.options(top, variant)
	return r.join()
}

// base is the name of a file in its folder.
func base(name string) string { return name[strings.LastIndexAny(name, `/\`)+1:] }

// includes loads what a file includes, each file once; joined says that they belong to this loom.
func (r *Reader) includes(f *loaded, joined bool) {
	if key, value := under(f.root, "include"); key != nil {
		r.includeAll(f, Word{Text: key.Value, Span: r.span(key)}, value, joined)
	}
}

// under gives a key of a mapping and its value, nil where there is none.
func under(n *yaml.Node, name string) (key, value *yaml.Node) {
	if n == nil || n.Kind != yaml.MappingNode {
		return nil, nil
	}
	if i := indexOf(n.Content, name); i >= 0 {
		return n.Content[i], n.Content[i+1]
	}
	return nil, nil
}

const holdsInclude = "a list of files, such as [parts/shop.yaml]"

// includeAll loads the files of a list.
func (r *Reader) includeAll(f *loaded, key Word, value *yaml.Node, joined bool) {
	e := Entry{Key: key, value: value}
	if e.IsOne() {
		if w, ok := r.Line(e, holdsInclude); ok {
			r.include(f, w, joined)
		}
		return
	}
	for _, w := range r.Words(e, holdsInclude) {
		r.include(f, w, joined)
	}
}

// include loads one file, and what it includes.
func (r *Reader) include(f *loaded, w Word, joined bool) {
	name, ok := r.named(f, w)
	if !ok {
		return
	}
	under := append(slices.Clone(f.under), f.path)
	if slices.Contains(under, name) {
		r.Say(w.Span, "include-cycle", fmt.Sprintf("%s includes itself: %s", name, strings.Join(append(under[slices.Index(under, name):], name), " → ")),
			"Take one of these includes out.")
		return
	}
	if have := r.shared.loaded[name]; have != nil {
		if joined && !slices.Contains(r.shared.order, have) {
			r.shared.order = append(r.shared.order, have)
			r.includes(have, true)
		}
		return
	}
	if text, ok := r.bytesOf(f, name, w); ok {
		in := &loaded{path: name, under: under, at: w.Span}
		r.shared.loaded[name] = in
		if joined {
			r.shared.order = append(r.shared.order, in)
		}
		in.root = r.decodedAs(name, text)
		r.includes(in, joined)
	}
}

// named gives the path of a file from the folder on, as another names it.
func (r *Reader) named(f *loaded, w Word) (string, bool) {
	name, err := folder.Name(w.Text)
	if err == nil && slices.Contains(strings.Split(w.Text, "/"), "..") {
		err = &folder.Refused{Why: folder.Outside}
	}
	if err != nil {
		r.refuse(w, err)
		return "", false
	}
	return path.Join(path.Dir(f.path), name), true
}

// bytesOf reads a file, unless it is one too many.
func (r *Reader) bytesOf(f *loaded, name string, w Word) ([]byte, bool) {
	s := r.shared
	switch {
	case s.files == nil:
		r.Say(w.Span, "include-no-folder", fmt.Sprintf("%s cannot be included: a description from standard input has no folder", w.Text), "Give the description as a file, with the others beside it.")
		return nil, false
	case len(f.under)+1 >= mostDepth:
		r.Say(w.Span, "include-bounds", fmt.Sprintf("more than %d files are included one in the other", mostDepth), "Name the file in the description itself.")
		return nil, false
	case s.count >= mostFiles:
		r.Say(w.Span, "include-bounds", fmt.Sprintf("more than %d files are included", mostFiles), "Put several of them into one file.")
		return nil, false
	}
	text, err := folder.Read(s.files, name, MostBytes)
	if err != nil {
		r.refuse(w, err)
		return nil, false
	}
	if s.count, s.bytes = s.count+1, s.bytes+len(text); s.bytes > mostWhole {
		r.Say(w.Span, "include-bounds", fmt.Sprintf("with %s there are more than %d MB to be read", w.Text, mostWhole>>20), "Leave out what this loom does not need.")
		return nil, false
	}
	return text, true
}

// refuse says why a file cannot be included.
func (r *Reader) refuse(w Word, err error) {
	slug, what, detail := "include-unreadable", fmt.Sprintf("cannot be read: %v", err), "See who may read it."
	var no *folder.Refused
	if errors.As(err, &no) {
		switch no.Why {
		case folder.Spelt:
			slug, what, detail = "include-outside", "is not named within the description's folder", "Write folders with /, such as parts/shop.yaml."
		case folder.Outside:
			slug, what, detail = "include-outside", "is not named within the folder of the file that includes it", "Put the file into that folder, or a folder in it, and name it from there, such as parts/shop.yaml."
		case folder.Link:
			slug, what, detail = "include-outside", "leads out of the description's folder", "Put a copy of it into the folder: links out of it are not followed."
		case folder.Missing:
			slug, what, detail = "include-missing", "is not there", "Put it there, or take its name out."
			if no.Near != "" {
				detail = fmt.Sprintf("Did you mean %s? Otherwise put it there, or take its name out.", no.Near)
			}
		case folder.NoFile:
			what, detail = fmt.Sprintf("is %s, no file", no.Is), "Name a description."
		case folder.Large:
			slug, what, detail = "include-bounds", fmt.Sprintf("has %d bytes", no.Bytes), "A file may have up to 1 MB (1048576 bytes). Is this the right file?"
		case folder.Locked:
			what = fmt.Sprintf("cannot be read: %v", no.Cause)
		}
	}
	r.Say(w.Span, slug, fmt.Sprintf("the included file %s %s", w.Text, what), detail)
}

// decodedAs reads an included file; nil where nothing of it can be read.
func (r *Reader) decodedAs(name string, text []byte) *yaml.Node {
	in := source.NewFile(r.file.Name[:len(r.file.Name)-len(base(r.file.Name))]+name, text)
	in.Path = name
	r.file.Included = append(r.file.Included, in)
	sub := &Reader{file: r.file, number: len(r.file.Included), left: r.left, shared: r.shared}
	root := sub.decoded(text)
	for _, p := range sub.problems {
		p.Span.File = max(p.Span.File, sub.number) // of what concerns the whole file too
		r.problems = append(r.problems, p)
	}
	return root
}
