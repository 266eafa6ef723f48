package main

import (
	"fmt"
	"io"
	"strings"

	"example.com/loomfolio/layout"
	"example.com/loomfolio/sizing/handed/column"
)

const opening = `loomfolio reads a YAML description of a vehicle's wiring and prints the packet to
build it from: circuit diagrams, cut list, terminals, fuse map, grounds and more.

`

const closing = `
Start with a sample:   loomfolio sample first > my.yaml
then                   loomfolio check my.yaml
and                    loomfolio packet my.yaml        (writes my.pdf)

Commands that read a FILE also read its as-built record; --record PATH names another,
--no-record goes without. FILE is - for standard input. --variant NAME takes the vehicle
as one of its variants is built, all with everything that any of them adds.

Exit codes: 0 good; 1 a finding of level error; 2 bad input or command line,
or something could not be written.
Sizes are computed from the description and a stated practice. Check them against the
maker's data and local codes; safety-related work must be done by a qualified, licensed person.
`

var details = map[string]string{
	"packet": `Writes the packet as PDF, beside the description unless -o says where.

  -o OUT.pdf     where to write; - is standard output
  --variant NAME one of the description's variants, or all; the file is then NAME-towing.pdf
  --for READER   bench (who builds it), customer (who gets the car), archive (every
                 sheet, and the description inside the PDF; the default). Given more
                 than once it writes one file a reader: my-bench.pdf, my-customer.pdf
  --sheets LIST  only these, with commas between: circuits by number or name, and groups:
GROUPS
                 Sheets keep their numbers, so that they can replace older ones in the binder
  --paper SIZE   A4, A3, letter or tabloid; otherwise as the description says. A2, A1, A0 or
                 roll (of a 36 in plotter) is for the loom board and the wiring at a glance
                 alone, which is else an A3 (or tabloid) sheet to fold; the other sheets stay as
                 the description says: --sheets glance --paper A2 prints the large one for the wall
  --svg DIR      writes each sheet as an SVG file too, for the web and for editing;
                 sheets that an earlier run left there, listed in sheets.txt, are
                 replaced unless somebody has changed them since
  --board        writes the loom board instead, beside the description as NAME-board.pdf:
                 the loom at full size, on sheets to be glued together, or with --paper
                 roll (36 in), A2, A1 or A0 on one large page where it fits
  --fold         leaves the middle of long bare stretches out of the loom board; at each
                 break stands the actual length
  --labels       writes what is stuck on instead, beside the description as NAME-labels.pdf:
                 wire markers, on the label sheets or the roll that the practice describes
                 or to be cut out, fuse cards for the panels' lids, warning labels

  --force        replaces whatever is at that place, also what is not a packet

Nothing is written when the description has errors; a packet that is there already is
replaced only when the new one is complete, and any other file not at all. Findings go
to standard error.
`,
	"freeze": `Keeps what was chosen, so that what is built stays as it is built: writes wire names,
gauges, insulation, colours and lengths, and fuses, to a text beside the description
(kestrel.built.txt beside kestrel.yaml). Every later run reads it and keeps to it, and
check says what a change of the description requires.

  --built LIST    marks as built: wires, circuits, fuses, panels (12A,fan,FP), or all
  --planned LIST  marks as not built
  --variant NAME  of this variant, which has a record of its own (kestrel.towing.built.txt)
  --record PATH   another place for the record

The text is made for reading and changing by hand; run freeze again after each stage of
the build. Before anything built leaves it, the record is copied beside itself with its
date. Its last line counts its lines, so that one that was cut off is not taken as whole. Other commands take --record PATH too, and --no-record to choose all anew.
`,
	"check": `Prints every finding with its place, and what would be right, to standard error: errors
first, then warnings, then advice, each in the order of the file; then, to standard
output, one line of what was read. Writes nothing. An advice that you have looked at is
taken off the list in the description itself: accept: [{finding: …, at: …, because: …}].

  --json         prints the findings as one object to standard output instead, also
                 those of a description that cannot be read; exit codes are the same
`,
	"explain": `Prints the figures behind one wire (12A), part (FAN, MF1, K1, SW1, G1) or panel position
(FP.3): the rule that decided, what each rule alone would require, why the next size or
rating was not taken, currents and volts in every state, and the sources. With the file
alone it lists every name that can be asked for.
`,
	"diagnose": `From what is seen and measured, prints the faults that remain, the likeliest first, and
the next measurement: where the probes go, what must be on, and what each reading means.
Writes nothing. Read a point, run it again with the reading added, until it says where to look.

  --dead LOADS     do not work though they are switched on: names with commas between
                   (HORN,FAN1); a part's name stands for all of its loads
  --weak LOADS     work, but dim or slow
  --live LOADS     work; also loads that work though they should be off
  --reads PT=V     a meter's reading against battery negative (the grounded post), load
                   connected and on: FAN.+=10.8; with two points it is red on the first,
                   black on the second: FAN.+/FAN.-=9,6V. More than one with commas
                   between, or the option given again
  --state NAME     the state in which all this was seen, as the description declares it;
                   otherwise the one in which the loads are measured is taken, and named
  --comes-and-goes the fault is not always there: a good reading then clears little
  --json           the same as one object to standard output

A reading may be wrong and a fault may come and go, so nothing is struck out for good.
What no meter can tell apart is listed together. A blown fuse is an effect: find the
short or overload behind it. After a repair, test again: there may be a second fault.
`,
	"figures": `  --json             everything, one object
  --csv TABLE        one table, to open in a spreadsheet as UTF-8: wires, parts, cuts (in cutting
                     order), ends, labels, shopping, loads, fuses, grounds, runs, reels …
  --stock            what is left of each reel after the build, to paste as practice: stock:
  --beside VARIANTS  with --csv shopping: the lists of several variants side by side, and of
                     one vehicle of each together: none,towing,basic (none: as it stands)
  --netlist STATE    the solved network of one state as a plain SPICE netlist
  --fault ID         with it: the same with one fault of the dictionary (12A:open), the
                     fuses open that it opens there; --csv faults lists them all
`,
	"tidy": `Writes the same description in one form over itself: keys in the order of the format, a
line for each place, run, part, leg and state, what is too long for a line wrapped in one
way, quotes of one kind, an empty line between sections. Names, numbers and units stay as
you wrote them; every comment stays beside what it stood beside.

  -o OUT.yaml    writes to another place; - is standard output
  --check        writes nothing and exits with 1 where the description is not tidy
  --force        replaces what is at the other place

What is tidy stays as it is, byte by byte. Before anything is written, both texts are
read and compared: the same description and the same comments, or nothing is done. A
description with errors of form is left as it is, and they are printed. Lines end as on
Linux (LF), and a byte order mark at the beginning goes.
`,
	"import": `Makes a description, to be completed, out of a table as a spreadsheet saves it (CSV): a row
a wire, with where it comes from and where it goes. Which column is which is guessed by
its title in English, German, French, Spanish, Italian and Dutch, and so are the letters,
the sign between the cells, decimal commas and colours; sizes and lengths are taken as
people write them. All that was guessed is said, one line each. What could not be
understood is listed by row and column, and stands at the head of the description: every
row is a wire there, or in that list.

  -o OUT.yaml    where to write; otherwise beside the table; - is standard output
  --parts FILE   a second table, a row a part: what it is called, its kind, place, draws …;
                 also without a table of wires. figures --csv wires and --csv parts of a
                 description give tables of which the same wires and parts are made
  --map COLUMNS  which column is which: "from=Von,to=Nach,gauge=Querschnitt", by title or
                 number, or a file with a line for each: from;Von
  --force        replaces what is at that place

Our names of the columns of wires:
WIRES
and of parts:
PARTS

An end is written as X1:4, X1.4, X1/4, K1 pin 87, Fan + or GND, or has its terminal in a
column of its own. Wires of one circuit that go plainly through a fuse, relay, switch or
load are joined to one leg. What the table does not tell is marked "complete"; loomfolio
check then says what is missing.
`,
	"sample": `Without a name: lists the samples and who each is for: whole looms, and patterns, which are
one circuit each with what goes wrong otherwise. With a name: prints it.
`,
	"version": `Prints version, commit and the Go that built it.

  --licences     prints the fonts and libraries in the program with their licences
`,
	"help": `Prints help.
`,
}

func help(c *call) int {
	if len(c.args) > 0 && !strings.HasPrefix(c.args[0], "-") {
		if _, ok := details[c.args[0]]; !ok {
			return c.unknown(c.args[0])
		}
		printHelp(c.out, c.args[0])
		return exitGood
	}
	fmt.Fprint(c.out, opening)
	for _, v := range verbs() {
		fmt.Fprintf(c.out, "  %-8s %s\n", v.name, v.says)
	}
	fmt.Fprint(c.out, closing)
	return exitGood
}

func printHelp(w io.Writer, name string) {
	text := strings.Replace(details[name], "GROUPS\n", inLines("                 ", layout.Groups()), 1)
	text = strings.Replace(text, "WIRES\n", inLines("  ", column.Keys("wires")), 1)
	text = strings.Replace(text, "PARTS\n", inLines("  ", column.Keys("parts")), 1)
	fmt.Fprintf(w, "usage: loomfolio %s\n\n%s", usage(name), text)
}

// inLines lists names in lines that are set in.
func inLines(in string, names []string) string {
	const wide = 88
	var lines []string
	line := in
	for i, name := range names {
		if i > 0 {
			line += ", "
		}
		if len(line)+len(name) > wide {
			lines = append(lines, strings.TrimRight(line, " "))
			line = in
		}
		line += name
	}
	return strings.Join(append(lines, line), "\n") + "\n"
}
