package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"

	"example.com/loomfolio/cmd/loomfolio/explain"
	"example.com/loomfolio/cmd/loomfolio/work"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/figures"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// read takes a description through reading, checking and sizing. What is wrong is
// printed; a nil work means that there is nothing to go on with.
func (c *call) read(path string) (*work.Work, int) {
	text, err := c.text(path)
	if err != nil {
		return nil, c.unusable(err, "")
	}
	files, done := beside(path)
	defer done()
	w, err := work.Do(work.Source{Name: path, Text: text, Files: files, Variant: c.variant, Record: func() (*source.File, error) { return c.record(path) }})
	if err != nil {
		return nil, c.stopped(err)
	}
	return w, exitGood
}

// proved is read, with how the wiring is proved and how faults in it are found.
func (c *call) proved(path string) (*work.Work, int) {
	w, failed := c.read(path)
	if w == nil {
		return nil, failed
	}
	if err := w.Prove(); err != nil {
		return nil, c.unusable(err, "")
	}
	return w, exitGood
}

// stopped says why a description cannot be worked from.
func (c *call) stopped(err error) int {
	var stop *work.Stop
	if errors.As(err, &stop) {
		c.found(stop.File, stop.Problems, nil)
		return exitUnusable
	}
	var no *noRecord
	if errors.As(err, &no) {
		return c.unusable(err, "loomfolio freeze writes one; --no-record goes without")
	}
	return c.unusable(err, "")
}

// print shows the findings and counts them.
func (c *call) print(f *source.File, ps source.Problems, accepted []source.Accepted) {
	source.Print(c.err, f, ps)
	if len(ps) > 0 {
		fmt.Fprintln(c.err, source.Counted(ps, accepted))
	}
}

// code is the exit code of what was worked out.
func code(w *work.Work) int {
	if w.Result.Findings.HasErrors() {
		return exitFinding
	}
	return exitGood
}

func check(c *call) int {
	files, err := c.parse("check", func(f *flag.FlagSet) {
		f.BoolVar(&c.json, "json", false, "")
		c.keeps(f)
	})
	if err == nil && len(files) != 1 {
		err = errors.New("check takes one file")
	}
	if err != nil {
		return c.wrong("check", err)
	}
	w, failed := c.read(files[0])
	if w == nil {
		return failed
	}
	c.found(w.File, w.Result.Findings, w.Result.Accepted)
	if !c.json {
		fmt.Fprintln(c.out, summary(w))
	}
	return code(w)
}

// found shows the findings: for people to standard error, or as JSON to standard output.
func (c *call) found(f *source.File, ps source.Problems, accepted []source.Accepted) {
	if c.json {
		_ = source.ListOf(f, ps, accepted).JSON(c.out) // what cannot be written out is seen by run
		return
	}
	c.print(f, ps, accepted)
}

// summary is the one line that says what was read, behind one that says so where nothing was found.
func summary(w *work.Work) string {
	var mm unit.Millimetre
	own := 0
	for i, way := range w.Result.Ways {
		if w.Harness.Wires[i].Existing {
			own++
			continue
		}
		mm += way.Length
	}
	existing := ""
	if own > 0 {
		existing = fmt.Sprintf(" and %d existing", own)
	}
	found := ""
	if len(w.Result.Findings) == 0 {
		found = source.Counted(nil, w.Result.Accepted) + "\n"
	}
	if out := w.Harness.Info.LeftOut; len(out) > 0 {
		found += fmt.Sprintf("parts left out in this variant: %s\n", strings.Join(out, ", "))
	}
	return found + fmt.Sprintf("%s: %s, %s, %s of wire, %s, %s, %s", w.Harness.Info.Title,
		unit.Counted(len(w.Harness.Circuits), "circuit"), unit.Counted(len(w.Harness.Wires)-own, "wire")+existing, unit.FarText(mm, w.Harness.Sheet.Imperial),
		unit.Counted(len(w.Result.Fuses), "fuse"), unit.Counted(len(w.Result.Loads), "load"), unit.Counted(len(w.Harness.States), "state"))
}

func explainOne(c *call) int {
	args, err := c.parse("explain", c.keeps)
	if err == nil && len(args) != 1 && len(args) != 2 {
		err = errors.New("explain takes a file, and the name of a wire or part; the file alone lists the names")
	}
	if err != nil {
		return c.wrong("explain", err)
	}
	w, failed := c.read(args[0])
	if w == nil {
		return failed
	}
	if len(args) == 1 {
		explain.List(c.out, w.Harness)
		return code(w)
	}
	if err := explain.Explain(c.out, w.Harness, w.Result, args[1]); err != nil {
		return c.unusable(err, "")
	}
	return code(w)
}

// figured is what a call of figures asks for.
type figured struct {
	json, stock bool
	csv         string
	state       string // whose netlist is asked for
	broken      string
	beside      []string // variants side by side
}

func (c *call) figured() (figured, []string, error) {
	var ask figured
	files, err := c.parse("figures", func(f *flag.FlagSet) {
		f.BoolVar(&ask.stock, "stock", false, "")
		f.BoolVar(&ask.json, "json", false, "")
		f.StringVar(&ask.csv, "csv", "", "")
		f.StringVar(&ask.state, "netlist", "", "")
		f.StringVar(&ask.broken, "fault", "", "")
		f.Func("beside", "", eachWord(&ask.beside))
		c.keeps(f)
	})
	switch {
	case err != nil:
	case len(files) != 1:
		err = errors.New("figures takes one file")
	case countTrue(ask.json, ask.stock, ask.csv != "", ask.state != "") != 1:
		err = errors.New("say what to print: --json, --csv TABLE, --stock or --netlist STATE")
	case ask.broken != "" && ask.state == "":
		err = errors.New("--fault goes with --netlist STATE")
	case ask.beside != nil && ask.csv != "shopping":
		err = errors.New("--beside goes with --csv shopping")
	case ask.beside != nil && (c.variant != "" || c.kept.path != ""):
		err = errors.New("--beside names the variants itself, each with its own record: leave --variant and --record out")
	}
	return ask, files, err
}

func printFigures(c *call) int {
	ask, files, err := c.figured()
	if err != nil {
		return c.wrong("figures", err)
	}
	if ask.beside != nil {
		return c.beside(files[0], ask.beside)
	}
	w, failed := c.proved(files[0])
	if w == nil {
		return failed
	}
	switch {
	case ask.json:
		err = figures.JSON(c.out, w.Harness, w.Result)
	case ask.csv != "":
		err = figures.CSV(c.out, figures.Of(w.Harness, w.Result), ask.csv)
	case ask.stock:
		err = figures.Stock(c.out, w.Harness, w.Result)
	default:
		err = netlist(c.out, w, ask.state, ask.broken)
	}
	if err != nil {
		return c.unusable(err, "")
	}
	return code(w)
}

// beside prints the shopping lists of several variants.
func (c *call) beside(file string, variants []string) int {
	var builds []figures.Built
	worst := exitGood
	for _, name := range variants {
		if err := c.varies(name); err != nil {
			return c.wrong("figures", err)
		}
		w, failed := c.proved(file)
		if w == nil {
			return failed
		}
		worst = max(worst, code(w))
		builds = append(builds, figures.Built{Variant: name, Document: figures.Of(w.Harness, w.Result)})
	}
	if err := figures.Builds(c.out, builds); err != nil {
		return c.unusable(err, "")
	}
	return worst
}

func countTrue(flags ...bool) int {
	n := 0
	for _, f := range flags {
		if f {
			n++
		}
	}
	return n
}

// netlist prints a solved state, with a fault where one is named.
func netlist(out io.Writer, w *work.Work, state, broken string) error {
	var names []string
	for i, s := range w.Result.States {
		if s.Name == state && broken == "" {
			return network.Netlist(out, w.Harness, s)
		}
		if s.Name == state {
			s, err := fault.Network(w.Harness, w.Result, i, broken)
			if err != nil {
				return err
			}
			return network.Netlist(out, w.Harness, s)
		}
		names = append(names, s.Name)
	}
	return fmt.Errorf("there is no state %q; states: %s", state, strings.Join(names, ", "))
}

func sample(c *call) int {
	args, err := c.parse("sample", func(*flag.FlagSet) {})
	if err == nil && len(args) > 1 {
		err = errors.New("sample takes one name")
	}
	if err != nil {
		return c.wrong("sample", err)
	}
	if len(args) == 0 {
		headed(c.out, "Whole looms", samples.List())
		headed(c.out, "Patterns, a circuit each", samples.Patterns())
		return exitGood
	}
	var names []string
	for _, s := range append(samples.List(), samples.Patterns()...) {
		if s.Name == strings.TrimSuffix(args[0], ".yaml") {
			_, _ = c.out.Write(s.Text)
			return exitGood
		}
		names = append(names, s.Name)
	}
	return c.unusable(fmt.Errorf("there is no sample %q", args[0]), "samples: "+strings.Join(names, ", "))
}

// headed prints samples under a heading, each with who it is for.
func headed(out io.Writer, heading string, list []samples.Sample) {
	fmt.Fprintf(out, "%s:\n", heading)
	for _, s := range list {
		fmt.Fprintf(out, "  %-20s %s\n", s.Name, s.For)
	}
}
