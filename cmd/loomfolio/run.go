package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"

	"example.com/loomfolio/cmd/loomfolio/disk"
	"example.com/loomfolio/sizing/source"
)

// Exit codes: 0 good, 1 a finding of level error, 2 input or call unusable.
const (
	exitGood     = 0
	exitFinding  = 1
	exitUnusable = 2
)

// verb is one command.
type verb struct {
	name  string
	usage string
	says  string
	run   func(c *call) int
}

func verbs() []verb {
	return []verb{
		{"packet", "packet FILE [-o OUT.pdf] [--for bench|customer|archive]… [--sheets GROUPS|CIRCUIT] [--paper A4|A3|letter|tabloid|A2|A1|A0|roll] [--svg DIR] [--board [--fold] | --labels] [--force]", "write the packet: diagrams, cut list, fuse map, grounds …", packet},
		{"check", "check FILE [--json]", "read the description and print every finding, without writing anything", check},
		{"explain", "explain FILE [WIRE|PART]", "say why a wire, fuse, load, relay or switch is as it is, and what the next size does wrong", explainOne},
		{"diagnose", "diagnose FILE [--dead LOADS] [--weak LOADS] [--live LOADS] [--reads POINT=VOLTS]… [--state NAME] [--comes-and-goes] [--json]", "from what is dead and what a meter reads: the faults that remain, and where to measure next", diagnoseOne},
		{"freeze", "freeze FILE [--built all|NAMES] [--planned NAMES] [--record PATH]", "keep the choices: write the as-built record beside the description", freeze},
		{"figures", "figures FILE --json | --csv TABLE | --stock | --netlist STATE [--fault ID] | --csv shopping --beside VARIANTS", "print every computed figure, one table, what is left, or a state as a SPICE netlist", printFigures},
		{"tidy", "tidy FILE [-o OUT.yaml] [--check] [--force]", "write the same description in one form, with all its comments", tidyOne},
		{"import", "import WIRES.csv|--parts PARTS.csv [-o OUT.yaml] [--parts PARTS.csv] [--map TABLE.csv|\"from=Von,to=Nach\"] [--force]", "make a description out of a from-to list of a spreadsheet, to be completed", importTables},
		{"sample", "sample [NAME]", "list the samples, or print one to start from", sample},
		{"version", "version [--licences]", "say which version this is; with --licences, whose work is in it and on what terms", version},
		{"help", "help [COMMAND]", "this page, or one command's", help},
	}
}

// call is one invocation: its arguments and its streams.
type call struct {
	args []string
	kept struct { // which as-built record is read
		path string // "": the one beside the description
		none bool
	}
	variant string // of the description, "" for none
	force   bool   // what is there already may go
	json    bool   // findings are for scripts
	disk    disk.Disk
	in      io.Reader
	out     io.Writer
	err     io.Writer
}

// stream remembers the first error of what is written to it.
type stream struct {
	to  io.Writer
	err error
}

func (s *stream) Write(data []byte) (int, error) {
	n, err := s.to.Write(data)
	if s.err == nil {
		s.err = err
	}
	return n, err
}

// run is the whole command; it never exits or panics, so that scripts can test it.
// What could not be written out makes the call unusable, whatever it was.
func run(args []string, in io.Reader, out, errs io.Writer) int {
	o, e := &stream{to: out}, &stream{to: errs}
	c := &call{in: in, out: o, err: e}
	code := c.run(args)
	if o.err != nil {
		return c.unusable(fmt.Errorf("cannot write standard output: %w", o.err), "")
	}
	if e.err != nil {
		return exitUnusable
	}
	return code
}

func (c *call) run(args []string) int {
	if len(args) == 0 {
		return help(c)
	}
	name := args[0]
	switch name {
	case "-h", "--help", "-help":
		name = "help"
	case "-v", "--version", "-version":
		name = "version"
	}
	for _, v := range verbs() {
		if v.name == name {
			c.args = args[1:]
			return v.run(c)
		}
	}
	return c.unknown(name)
}

// unknown says that there is no such command.
func (c *call) unknown(name string) int {
	var names []string
	for _, v := range verbs() {
		names = append(names, v.name)
	}
	hint := "commands: " + strings.Join(names, ", ")
	if near := source.Nearest(name, names); near != "" {
		hint = "did you mean " + near + "?"
	}
	return c.unusable(fmt.Errorf("there is no command %q", name), hint)
}

// unusable prints an error and a hint.
func (c *call) unusable(err error, hint string) int {
	fmt.Fprintf(c.err, "loomfolio: %v\n", err)
	if hint != "" {
		fmt.Fprintf(c.err, "  hint: %s\n", hint)
	}
	return exitUnusable
}

// errHelp says that the help was asked for and printed.
var errHelp = errors.New("help")

// parse reads flags wherever they stand among the arguments, and gives the rest.
func (c *call) parse(name string, define func(*flag.FlagSet)) ([]string, error) {
	flags := flag.NewFlagSet(name, flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	define(flags)
	var plain []string
	for rest := c.args; len(rest) > 0; {
		if err := flags.Parse(rest); err != nil {
			if errors.Is(err, flag.ErrHelp) {
				printHelp(c.out, name)
				return nil, errHelp
			}
			return nil, plainly(err)
		}
		rest = flags.Args()
		if len(rest) > 0 {
			plain = append(plain, rest[0])
			rest = rest[1:]
		}
	}
	return plain, nil
}

// plainly says in our words what the flag reader found wrong.
func plainly(err error) error {
	if name, ok := strings.CutPrefix(err.Error(), "flag provided but not defined: "); ok {
		return fmt.Errorf("there is no option -%s", name)
	}
	if name, ok := strings.CutPrefix(err.Error(), "flag needs an argument: "); ok {
		return fmt.Errorf("option -%s needs a word after it", name)
	}
	return err
}

// wrong prints what is wrong with a call, and how the command is called.
func (c *call) wrong(name string, err error) int {
	if errors.Is(err, errHelp) {
		return exitGood
	}
	return c.unusable(err, "usage: loomfolio "+usage(name))
}

func usage(name string) string {
	for _, v := range verbs() {
		if v.name == name {
			return v.usage
		}
	}
	return name
}
