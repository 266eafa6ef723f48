package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"

	"example.com/loomfolio/cmd/loomfolio/disk"
	"example.com/loomfolio/sizing/describe/tidy"
)

// tidyOne writes a description in its one form.
func tidyOne(c *call) int {
	var out string
	var look bool
	files, err := c.parse("tidy", func(f *flag.FlagSet) {
		f.StringVar(&out, "o", "", "")
		f.BoolVar(&look, "check", false, "")
		f.BoolVar(&c.force, "force", false, "")
	})
	switch {
	case err == nil && len(files) != 1:
		err = errors.New("tidy takes one file")
	case err == nil && look && out != "":
		err = errors.New("--check writes nothing: leave -o out")
	}
	if err != nil {
		return c.wrong("tidy", err)
	}
	text, err := c.text(files[0])
	if err != nil {
		return c.unusable(err, "")
	}
	tidied, err := tidy.Text(files[0], text)
	var refused *tidy.Refused
	if errors.As(err, &refused) {
		c.print(refused.File, refused.Problems, nil)
		return exitUnusable
	}
	if err != nil {
		return c.unusable(fmt.Errorf("%s: %w", files[0], err), "")
	}
	if look {
		return c.looked(files[0], text, tidied)
	}
	return c.place(files[0], out, text, tidied)
}

// looked says whether a description is tidy.
func (c *call) looked(file string, text, tidied []byte) int {
	if bytes.Equal(text, tidied) {
		fmt.Fprintf(c.out, "%s is tidy\n", file)
		return exitGood
	}
	fmt.Fprintf(c.out, "%s is not tidy: line %d is the first to change\n", file, differs(text, tidied))
	return exitFinding
}

// differs gives the first line in which two texts differ.
func differs(a, b []byte) int {
	line := 1
	for i := 0; i < len(a) && i < len(b) && a[i] == b[i]; i++ {
		if a[i] == '\n' {
			line++
		}
	}
	return line
}

// place writes a tidied description over itself, or to another place.
func (c *call) place(file, out string, text, tidied []byte) int {
	switch {
	case out == "" && streamed(file):
		out = "-" // what comes through a pipe cannot be replaced
	case out == "":
		out = file
	}
	if over := out != "-" && file != "-" && disk.Same(out, file); over {
		if bytes.Equal(text, tidied) {
			fmt.Fprintf(c.err, "%s is tidy already\n", file)
			return exitGood
		}
		if now, err := c.text(file); err != nil || !bytes.Equal(now, text) {
			return c.unusable(fmt.Errorf("%s has changed meanwhile", file), "run it again")
		}
	} else if err := c.free(out); err != nil {
		return c.unusable(err, "name another place with -o, or replace it with --force")
	}
	if err := c.write(out, tidied); err != nil {
		return c.unusable(err, "")
	}
	if out != "-" {
		fmt.Fprintf(c.err, "%s written\n", out)
	}
	return exitGood
}

// free refuses a place at which something is.
func (c *call) free(out string) error {
	info, err := os.Stat(out)
	if out == "-" || c.force || err != nil || !info.Mode().IsRegular() || info.Size() == 0 {
		return nil
	}
	return fmt.Errorf("%s is there already", out)
}
