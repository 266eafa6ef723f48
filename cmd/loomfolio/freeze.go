package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"example.com/loomfolio/cmd/loomfolio/disk"
	"example.com/loomfolio/cmd/loomfolio/work"
	"example.com/loomfolio/sizing/change"
	reading "example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/record"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// keeps defines the options that say which variant and which as-built record are read.
func (c *call) keeps(f *flag.FlagSet) {
	f.Func("variant", "", c.varies)
	f.StringVar(&c.kept.path, "record", "", "")
	f.BoolVar(&c.kept.none, "no-record", false, "")
}

// varies takes the name of a variant, "none" for the description as it stands; files are
// named after it.
func (c *call) varies(name string) error {
	if strings.Trim(name, variantLetters) != "" {
		return fmt.Errorf("%q is no variant's name: letters, digits and dashes", name)
	}
	if c.variant = name; name == reading.None {
		c.variant = ""
	}
	return nil
}

const variantLetters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-"

// recordPath gives the record that belongs to a description: kestrel.built.txt
// beside kestrel.yaml, kestrel.towing.built.txt for its variant. Standard input has none.
func (c *call) recordPath(file string) string {
	if c.kept.path != "" || file == "-" {
		return c.kept.path
	}
	stem := strings.TrimSuffix(file, filepath.Ext(file))
	if c.variant != "" {
		stem += "." + c.variant
	}
	return stem + ".built.txt"
}

// noRecord says that a record cannot be read.
type noRecord struct{ text string }

func (e *noRecord) Error() string { return e.text }

// record reads the record of a description; nil where there is none.
func (c *call) record(file string) (*source.File, error) {
	path := c.recordPath(file)
	if path == "" || c.kept.none {
		return nil, nil
	}
	text, err := recordText(path)
	if errors.Is(err, os.ErrNotExist) && c.kept.path == "" {
		return nil, nil
	}
	if errors.Is(err, os.ErrNotExist) {
		return nil, &noRecord{"there is no record " + path}
	}
	if err != nil {
		return nil, &noRecord{fmt.Sprintf("the record %s: %v", path, err)}
	}
	return source.NewFile(path, text), nil
}

func freeze(c *call) int {
	var built, planned string
	files, err := c.parse("freeze", func(f *flag.FlagSet) {
		f.StringVar(&built, "built", "", "")
		f.StringVar(&planned, "planned", "", "")
		f.StringVar(&c.kept.path, "record", "", "")
		f.Func("variant", "", c.varies)
	})
	if err == nil && len(files) != 1 {
		err = errors.New("freeze takes one file")
	}
	if err == nil && c.recordPath(files[0]) == "" {
		err = errors.New("a description from standard input has no place for its record: name one with --record")
	}
	if err != nil {
		return c.wrong("freeze", err)
	}
	release, err := c.alone(files[0])
	if err != nil {
		return c.unusable(err, "name another place with --record, or try again")
	}
	defer release()
	w, failed := c.read(files[0])
	if w == nil {
		return failed
	}
	marks := change.Marks{}
	for _, list := range []struct {
		names string
		state harness.KeptState
	}{{built, harness.Built}, {planned, harness.Planned}} {
		if err := mark(marks, w, list.names, list.state); err != nil {
			return c.unusable(err, "name wires, circuits, fuses or fuse panels, with commas between, or say all")
		}
	}
	c.print(w.File, w.Result.Findings, w.Result.Accepted)
	return c.keep(c.recordPath(files[0]), w, change.Freeze(w.Harness, w.Result, w.Record, marks))
}

// alone keeps other runs from the record of a description until it is released, and
// finds out whether there is one.
func (c *call) alone(file string) (release func(), err error) {
	path := c.recordPath(file)
	if _, err := os.Stat(file); file != "-" && errors.Is(err, os.ErrNotExist) {
		return nil, fmt.Errorf("there is no file %s", file)
	}
	if file != "-" && disk.Same(path, file) {
		return nil, fmt.Errorf("%s is the description itself", path)
	}
	release, err = disk.Lock(path, patience)
	if err != nil {
		return nil, err
	}
	if _, err := os.Stat(path); errors.Is(err, os.ErrNotExist) {
		c.kept.none = true
	}
	return release, nil
}

// keep writes the new record over the old, a copy of which stays where it is wanted.
func (c *call) keep(path string, w *work.Work, now record.Record) int {
	if err := c.copied(path, w.Record, now); err != nil {
		return c.unusable(err, "nothing was changed")
	}
	if err := c.disk.Save(path, record.Text(now)); err != nil {
		return c.unusable(err, "name another place with --record")
	}
	fmt.Fprintf(c.out, "%s: %s\n", path, keptSummary(now))
	return code(w)
}

// patience is how long one freeze waits for another to end.
const patience = 60 * time.Second

// copied keeps the old record beside the new one, under the date on which it was
// written, where something built would no longer stand in it.
func (c *call) copied(path string, old *record.Record, now record.Record) error {
	if old == nil || !record.Lost(*old, now) {
		return nil
	}
	info, err := os.Stat(path)
	if err != nil {
		return fmt.Errorf("cannot keep a copy of %s: %w", path, err)
	}
	ending := filepath.Ext(path)
	stem := strings.TrimSuffix(path, ending) + "." + info.ModTime().UTC().Format("2006-01-02")
	for n := 1; ; n++ {
		place := stem + ending
		if n > 1 {
			place = fmt.Sprintf("%s-%d%s", stem, n, ending)
		}
		have, err := recordText(place)
		if err == nil && bytes.Equal(have, old.File.Text) {
			return nil
		}
		if errors.Is(err, os.ErrNotExist) {
			fmt.Fprintf(c.out, "%s: a copy of the record before this change\n", place)
			return c.disk.Save(place, old.File.Text)
		}
	}
}

// mark sets the state of everything that a list names.
func mark(marks change.Marks, w *work.Work, list string, state harness.KeptState) error {
	named := groups(w)
	for _, name := range strings.FieldsFunc(list, func(r rune) bool { return r == ',' }) {
		name = strings.TrimSpace(name)
		members, ok := named[name]
		if !ok {
			var known []string
			for k := range named {
				known = append(known, k)
			}
			if near := source.Nearest(name, known); near != "" {
				return fmt.Errorf("nothing is called %q: did you mean %s?", name, near)
			}
			return fmt.Errorf("nothing is called %q", name)
		}
		for _, m := range members {
			marks[m] = state
		}
	}
	return nil
}

// groups gives the wires and fuses that a name on the command line stands for:
// its own, those of a circuit, those of a panel, all.
func groups(w *work.Work) map[string][]string {
	out := map[string][]string{}
	add := func(name string, groups ...string) {
		for _, g := range append(groups, name, "all") {
			out[g] = append(out[g], name)
		}
	}
	for i := range w.Harness.Wires {
		wire := &w.Harness.Wires[i]
		add(wire.Name, w.Harness.Circuits[wire.Circuit].Key)
	}
	for i := range w.Result.Fuses {
		f := &w.Result.Fuses[i]
		add(f.Name, w.Harness.Parts[f.Part].Ref)
	}
	return out
}

func keptSummary(r record.Record) string {
	count := map[harness.KeptState]int{}
	for i := range r.Wires {
		count[r.Wires[i].State]++
	}
	fitted := 0
	for i := range r.Fuses {
		if r.Fuses[i].State == harness.Built {
			fitted++
		}
	}
	out := fmt.Sprintf("%s planned, %d built; %s, %d fitted", unit.Counted(count[harness.Planned], "wire"), count[harness.Built], unit.Counted(len(r.Fuses), "fuse"), fitted)
	if n := count[harness.Retired]; n > 0 {
		out += fmt.Sprintf("; %d retired", n)
	}
	return out
}
