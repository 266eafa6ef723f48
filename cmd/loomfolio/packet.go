package main

import (
	"errors"
	"flag"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"example.com/loomfolio/cmd/loomfolio/work"
	"example.com/loomfolio/layout"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/render"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

// wish is what a call of packet asks for.
type wish struct {
	file, out, paper, svg string
	variant               string
	readers, sheets       []string
	board, fold, labels   bool
}

func (c *call) wish() (wish, error) {
	var w wish
	files, err := c.parse("packet", func(f *flag.FlagSet) {
		f.StringVar(&w.out, "o", "", "")
		f.Func("for", "", eachWord(&w.readers))
		f.Func("sheets", "", eachWord(&w.sheets))
		f.StringVar(&w.paper, "paper", "", "")
		f.StringVar(&w.svg, "svg", "", "")
		f.BoolVar(&w.board, "board", false, "")
		f.BoolVar(&w.fold, "fold", false, "")
		f.BoolVar(&w.labels, "labels", false, "")
		f.BoolVar(&c.force, "force", false, "")
		c.keeps(f)
	})
	if err != nil {
		return w, err
	}
	if len(w.readers) == 0 {
		w.readers = []string{layout.Archive}
	}
	if err := w.clash(len(files)); err != nil {
		return w, err
	}
	w.file, w.variant = files[0], c.variant
	if w.file == "-" && w.out == "" {
		return w, errors.New("a description from standard input has no place for its packet: say where with -o, or -o - for standard output")
	}
	return w, nil
}

// eachWord takes an option that may be given more than once, and each time several words with commas
// between them; a word counts once.
func eachWord(to *[]string) func(string) error {
	return func(given string) error {
		for _, word := range strings.Split(given, ",") {
			if word = strings.TrimSpace(word); word != "" && !slices.Contains(*to, word) {
				*to = append(*to, word)
			}
		}
		return nil
	}
}

// clash says which options do not go together.
func (w wish) clash(files int) error {
	several := len(w.readers) > 1
	switch {
	case files != 1:
		return errors.New("packet takes one file")
	case w.board && w.labels:
		return errors.New("--board and --labels are two files: ask for one at a time")
	case w.fold && !w.board:
		return errors.New("--fold is for the loom board: ask for --board too")
	case (w.board || w.labels) && len(w.sheets) > 0:
		return errors.New("--sheets chooses among the packet's sheets: leave --board or --labels out")
	case (w.board || w.labels) && several:
		return errors.New("the board and the labels are the same for every reader: leave --for out")
	case several && w.out == "-":
		return errors.New("several readers are several files, and standard output takes one: ask for one at a time")
	case several && w.svg != "":
		return errors.New("a folder takes the sheets of one reader: ask for one at a time")
	}
	return nil
}

// kind gives how the wished sheets are laid out, and how their file's name ends.
func (w wish) kind() (plan func(*harness.Harness, *result.Result, layout.Options) (*sheet.Packet, error), ending string) {
	switch {
	case w.board:
		return layout.Board, "-board.pdf"
	case w.labels:
		return layout.Labels, "-labels.pdf"
	}
	return layout.Plan, ".pdf"
}

// what says which sheets were written for a reader.
func (w wish) what(reader string) string {
	switch {
	case w.board:
		return "of the loom board"
	case w.labels:
		return "of labels"
	}
	return "for the " + reader
}

// places are where the packets go, one a reader; with several each name has its reader's behind it.
func (w wish) places() []string {
	_, ending := w.kind()
	out := w.out
	if out == "" {
		out = strings.TrimSuffix(w.file, filepath.Ext(w.file))
		if w.variant != "" {
			out += "-" + w.variant
		}
		out += ending
	}
	if len(w.readers) == 1 {
		return []string{out}
	}
	var all []string
	for _, r := range w.readers {
		ext := filepath.Ext(out)
		all = append(all, strings.TrimSuffix(out, ext)+"-"+r+ext)
	}
	return all
}

func packet(c *call) int {
	ask, err := c.wish()
	if err != nil {
		return c.wrong("packet", err)
	}
	for _, out := range ask.places() {
		if err := c.spares(ask.file, out); err != nil {
			return c.unusable(err, "name another place with -o, or replace it with --force")
		}
	}
	w, failed := c.proved(ask.file)
	if w == nil {
		return failed
	}
	c.print(w.File, w.Result.Findings, w.Result.Accepted)
	return c.putAll(ask, w)
}

// putAll lays out and draws all packets before the first is written, so that a wrong call writes none.
func (c *call) putAll(ask wish, w *work.Work) int {
	plan, _ := ask.kind()
	var packets []*sheet.Packet
	var drawn [][]byte
	for _, reader := range ask.readers {
		p, err := plan(w.Harness, w.Result, layout.Options{For: reader, Paper: ask.paper, Sheets: ask.sheets, Fold: ask.fold, FileName: filepath.Base(ask.file)})
		if err != nil {
			return c.wrong("packet", err)
		}
		pdf, err := render.PDF(*p)
		if err != nil {
			return c.unusable(err, "")
		}
		packets, drawn = append(packets, p), append(drawn, pdf)
	}
	for i, out := range ask.places() {
		if failed := c.put(ask, out, packets[i], drawn[i], ask.what(ask.readers[i])); failed != exitGood {
			return failed
		}
	}
	return code(w)
}

// put writes the sheets to where they are wished, and says so.
func (c *call) put(ask wish, out string, planned *sheet.Packet, pdf []byte, what string) int {
	if err := c.write(out, pdf); err != nil {
		return c.unusable(err, "name another place with -o")
	}
	said := c.out
	if streamed(out) {
		said = c.err // nothing but the document goes to standard output
	}
	fmt.Fprintf(said, "%s: %s %s\n", out, unit.Counted(len(planned.Sheets), "sheet"), what)
	if ask.svg == "" {
		return exitGood
	}
	if err := c.drawings(ask.svg, *planned); err != nil {
		return c.unusable(err, "name another folder with --svg, or replace what is there with --force")
	}
	fmt.Fprintf(said, "%s: the same sheets as SVG\n", ask.svg)
	return exitGood
}
