package main

import (
	"errors"
	"flag"
	"strings"

	"example.com/loomfolio/cmd/loomfolio/diagnose"
	"example.com/loomfolio/cmd/loomfolio/work"
	"example.com/loomfolio/sizing/fault/diagnosis"
)

// lists gathers an option that may be given more than once, with commas between.
type lists []string

func (l *lists) add(text string) error {
	*l = append(*l, text)
	return nil
}

func diagnoseOne(c *call) int {
	var dead, weak, live, reads lists
	var seen diagnose.Seen
	files, err := c.parse("diagnose", func(f *flag.FlagSet) {
		f.Func("dead", "", dead.add)
		f.Func("weak", "", weak.add)
		f.Func("live", "", live.add)
		f.Func("reads", "", reads.add)
		f.StringVar(&seen.State, "state", "", "")
		f.BoolVar(&seen.Sometimes, "comes-and-goes", false, "")
		f.BoolVar(&c.json, "json", false, "")
		c.keeps(f)
	})
	if err == nil && len(files) != 1 {
		err = errors.New("diagnose takes one file")
	}
	if err != nil {
		return c.wrong("diagnose", err)
	}
	seen.Dead, seen.Weak, seen.Live, seen.Reads = inOne(dead), inOne(weak), inOne(live), inOne(reads)
	if seen.Dead == "" && seen.Weak == "" && seen.Live == "" && seen.Reads == "" {
		return c.unusable(errors.New("say what is seen or measured"), "for example --dead HORN, or --reads FAN.+=10.8; loomfolio explain "+files[0]+" lists the names")
	}
	w, failed := c.read(files[0])
	if w == nil {
		return failed
	}
	return c.diagnosed(w, seen)
}

// inOne is what was given in one or more pieces, with commas between.
func inOne(l lists) string { return strings.Join(l, ",") }

// diagnosed prints what is made of what was seen.
func (c *call) diagnosed(w *work.Work, seen diagnose.Seen) int {
	book := w.Dictionary()
	told, err := diagnose.Read(w.Harness, w.Result, seen)
	if err != nil {
		var no *diagnose.Unknown
		_ = errors.As(err, &no)
		return c.unusable(err, no.Hint)
	}
	standing := diagnosis.Of(diagnosis.Case{Harness: w.Harness, Points: w.Result.Proof.Points, Book: book, On: told.On}, told.Told, told.State)
	if c.json {
		_ = diagnose.JSON(c.out, w.Harness, w.Result, told, standing) // what cannot be written out is seen by run
	} else {
		diagnose.Print(c.out, w.Harness, w.Result, told, standing)
	}
	return code(w)
}
