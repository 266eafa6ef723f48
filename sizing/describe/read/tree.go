package read

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"example.com/loomfolio/sizing/source"
)

// tree decodes the text to the nodes of its top mapping, or nil. Where YAML's
// own rules are broken, or a line holds a faulty character, each top-level
// section is decoded alone, so that one slip does not hide the other sections'
// problems; the keys of the sections that were left out are noted in r.left.
func (r *Reader) tree(bad map[int]bool) *yaml.Node {
	if len(bad) > 0 {
		return r.sections(bad)
	}
	root, err := decode(strings.Join(r.lines, "\n"))
	if err == nil {
		return r.top(root)
	}
	if s, ok := r.secondDocument(err); ok {
		r.Say(s, "second-document", "a second document begins here",
			"One file describes one loom: delete the --- line, or move what follows to a file of its own.")
		return nil
	}
	before := len(r.problems)
	if m := unknownMark.FindStringSubmatch(err.Error()); m != nil {
		f := r.noMark(m[1])
		r.Say(f.span, "yaml-syntax", f.summary, f.detail)
	}
	out := r.sections(bad)
	if len(r.problems) == before {
		r.syntax(stretch{1, len(r.lines)}, err) // no section shows it by itself
	}
	return out
}

// errSecond says that the text holds more than one document.
var errSecond = errors.New("a second document")

// decode reads one document; a panic of the decoder becomes an error.
func decode(text string) (root *yaml.Node, err error) {
	defer func() {
		if p := recover(); p != nil {
			root, err = nil, fmt.Errorf("yaml: the text cannot be read (%v)", p)
		}
	}()
	shown := hideQuestions(text)
	d := yaml.NewDecoder(bytes.NewReader([]byte(shown)))
	var first, second yaml.Node
	if err := d.Decode(&first); err != nil && !errors.Is(err, io.EOF) {
		return nil, err
	}
	if err := d.Decode(&second); err == nil || second.Line > 0 {
		return nil, errSecond
	} else if !errors.Is(err, io.EOF) {
		return nil, err
	}
	if len(first.Content) == 0 {
		return nil, nil
	}
	if shown != text {
		showQuestions(first.Content[0])
	}
	return first.Content[0], nil
}

// secondDocument finds the --- line that begins a second document.
func (r *Reader) secondDocument(err error) (source.Span, bool) {
	if !errors.Is(err, errSecond) {
		return source.Span{}, false
	}
	begun := false
	for i, line := range r.lines {
		marker := strings.HasPrefix(line, "---") || strings.HasPrefix(line, "...")
		if marker && begun {
			return source.At(i+1, 1, 3), true
		}
		begun = begun || strings.TrimSpace(line) != "" && line[0] != '#' && line[0] != '%' && !marker
	}
	return source.At(1, 1, 1), true
}

// top checks that the document is a mapping.
func (r *Reader) top(root *yaml.Node) *yaml.Node {
	switch {
	case root == nil:
		r.Say(source.Span{}, "empty-file", "the file holds only comments", "A description begins with the line: loomfolio: 1")
		return nil
	case root.Kind != yaml.MappingNode:
		r.Say(r.span(root), "wrong-shape", "the file is not a list of keys with their values",
			"A description is written as keys at the left edge: loomfolio: 1, then title:, system:, parts:, circuits: and the others.")
		return nil
	}
	return root
}

// stretch is a run of lines, first and last counted from 1.
type stretch struct{ first, last int }

// sections decodes each top-level section alone and joins what could be read.
func (r *Reader) sections(bad map[int]bool) *yaml.Node {
	joined := &yaml.Node{Kind: yaml.MappingNode, Line: 1, Column: 1}
	for _, s := range r.stretches() {
		if s.holds(bad) || len(r.problems) > mostSaid {
			r.skip(s)
			continue
		}
		root, err := decode(r.text(s))
		switch {
		case err != nil && unknownMark.MatchString(err.Error()):
			r.skip(s) // what it names may stand in another section; where it does not, that is said of the whole file
		case err != nil:
			r.syntax(s, err)
			r.skip(s)
		case root != nil && root.Kind == yaml.MappingNode:
			shift(root, s.first-1)
			joined.Content = append(joined.Content, root.Content...)
		case root != nil:
			r.syntax(s, errors.New("yaml: this is not a key with its value"))
		}
	}
	return joined
}

// stretches cuts the file before each line that begins at the left edge with
// something that can be a key.
func (r *Reader) stretches() []stretch {
	var out []stretch
	for i, line := range r.lines {
		if strings.HasPrefix(line, "---") && len(out) == 0 {
			continue
		}
		first, _ := utf8.DecodeRuneInString(line)
		begins := line != "" && !unicode.IsSpace(first) && !strings.ContainsRune("#-]}", first)
		if begins || len(out) == 0 {
			out = append(out, stretch{i + 1, i + 1})
			continue
		}
		out[len(out)-1].last = i + 1
	}
	return out
}

func (s stretch) holds(bad map[int]bool) bool {
	for n := s.first; n <= s.last && len(bad) > 0; n++ {
		if bad[n] {
			return true
		}
	}
	return false
}

func (r *Reader) text(s stretch) string { return strings.Join(r.lines[s.first-1:s.last], "\n") }

// skip notes that a section could not be read, so that it is not called missing.
func (r *Reader) skip(s stretch) {
	name, _, _ := strings.Cut(r.lines[s.first-1], ":")
	r.left[strings.Trim(strings.TrimSpace(name), `"'`)] = true
}

// shift moves nodes down by a number of lines.
func shift(n *yaml.Node, lines int) {
	n.Line += lines
	for _, c := range n.Content {
		shift(c, lines)
	}
}

// checkNodes refuses what YAML offers and a description does not need: type tags,
// anywhere in the file.
func (r *Reader) checkNodes(n *yaml.Node) {
	if n.Style&yaml.TaggedStyle != 0 {
		r.Say(r.token(n), "yaml-tag", fmt.Sprintf("%q sets a type", n.Tag),
			"Delete it: every value here is read by what its key needs. Where a text begins with ! put it in quotes.")
	}
	for _, c := range n.Content {
		r.checkNodes(c)
	}
}
