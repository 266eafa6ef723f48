// Package picture reads the photographs and marks that a description names and makes
// of each what sheets can print.
//
// In: the model with the files' names, and the description's folder as a file system.
// Out: in the model each picture's bytes, and the problems found. It holds that nothing
// outside the folder is read, that no file and no picture takes more memory than its bounds
// allow, and that the same file gives the same bytes: upright (as its Exif orientation says),
// eight bits a channel, red, green and blue on white, no larger than sheets need, without
// whatever else the file held, such as where a photograph was taken.
package picture

import (
	_ "embed" // for the list
	"errors"
	"fmt"
	"io/fs"

	"example.com/loomfolio/sizing/folder"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

//go:embed rules.txt
var ruleList string

// Rules lists what this package finds. The error tells of a list that cannot be read.
func Rules() ([]source.Rule, error) { return source.ParseRules(ruleList) }

// Bounds of a file.
const (
	MostBytes  = 8 << 20
	MostPixels = 24_000_000
)

// Longest sides, in pixels: of the cover's picture, and of one beside what it shows.
const (
	coverSide = 1200
	smallSide = 640
)

// Load reads the pictures that the model names. Files is the description's folder, nil
// where it has none; it has Stat, and says fs.ErrInvalid of what leads out of it.
func Load(h *harness.Harness, files fs.FS) source.Problems {
	var found source.Problems
	for _, p := range h.Pictures {
		side := smallSide
		if p == h.Sheet.Picture {
			side = coverSide
		}
		if err := load(p, files, side); err != nil {
			found = append(found, problem(p, err))
		}
	}
	return gathered(found)
}

// gathered makes one problem of all pictures that have no folder.
func gathered(all source.Problems) source.Problems {
	var out source.Problems
	first := -1
	for _, p := range all {
		switch {
		case p.Slug != noFolder:
			out = append(out, p)
		case first < 0:
			first = len(out)
			out = append(out, p)
		default:
			out[first].Others = append(out[first].Others, source.Note{Span: p.Span, Text: "this one too"})
		}
	}
	return out
}

// fault is what is wrong with a picture.
type fault struct {
	slug         string
	level        source.Level
	what, detail string
}

func (f *fault) Error() string { return f.what }

func say(level source.Level, slug, detail, format string, args ...any) *fault {
	return &fault{slug, level, fmt.Sprintf(format, args...), detail}
}

func refuse(slug, detail, format string, args ...any) *fault {
	return say(source.Error, slug, detail, format, args...)
}

func problem(p *harness.Picture, err error) source.Problem {
	var f *fault
	if !errors.As(err, &f) {
		f = refuse(unreadable, "open it in a picture program and save it anew as JPEG or PNG", "cannot be read: %v", err)
	}
	return source.Problem{Slug: f.slug, Level: f.level, Span: p.Span, Summary: fmt.Sprintf("the picture %s %s", p.File, f.what), Detail: f.detail}
}

const (
	unreadable = "picture-unreadable"
	noFolder   = "picture-no-folder"
)

func load(p *harness.Picture, files fs.FS, side int) error {
	name, err := inside(p.File)
	if err != nil {
		return err
	}
	if files == nil {
		return say(source.Warning, noFolder, "give the description as a file, with its pictures beside it",
			"is left out: a description from standard input has no folder")
	}
	data, err := read(files, name)
	if err != nil {
		return err
	}
	made, err := settle(data, side)
	if err != nil {
		return err
	}
	p.Form, p.Data, p.Wide, p.High = made.form, made.data, made.wide, made.high
	return nil
}

// inside gives a name as file systems have it; those that lead out of the folder are refused.
func inside(file string) (string, error) {
	name, err := folder.Name(file)
	if err != nil {
		return "", refused(err)
	}
	return name, nil
}

// read gives a file's bytes, no more than MostBytes.
func read(files fs.FS, name string) ([]byte, error) {
	data, err := folder.Read(files, name, MostBytes)
	return data, refused(err)
}

// refused words why a file is not read.
func refused(err error) error {
	var r *folder.Refused
	if !errors.As(err, &r) {
		return err
	}
	switch r.Why {
	case folder.Spelt:
		return outside("write folders with /, from the description's folder on, such as photos/fan.jpg")
	case folder.Outside:
		return outside("put the file into the description's folder, or a folder in it, and name it from there, such as photos/fan.jpg")
	case folder.Link:
		return refuse("picture-outside", "put a copy of it into the description's folder: links out of it are not followed", "leads out of the description's folder")
	case folder.Missing:
		return missing(r.Near)
	case folder.NoFile:
		return refuse(unreadable, "name a JPEG or PNG file", "is %s, no file", r.Is)
	case folder.Large:
		return tooMany(r.Bytes)
	}
	return refuse(unreadable, "see who may read it", "cannot be read: %v", r.Cause)
}

func outside(detail string) *fault {
	return refuse("picture-outside", detail, "is not named within the description's folder")
}

func tooMany(bytes int64) *fault {
	return refuse("picture-too-large", fmt.Sprintf("save it smaller: %d pixels along its longer side are all that is printed", coverSide),
		"has %.1f MB, and may have %d", float64(bytes)/(1<<20), MostBytes>>20)
}

// missing says that there is no such file, and which one may be meant.
func missing(near string) *fault {
	detail := "put it there, or take the key picture: out"
	if near != "" {
		detail = fmt.Sprintf("did you mean %s? Otherwise %s", near, detail)
	}
	return refuse("picture-missing", detail, "is not in the description's folder")
}
