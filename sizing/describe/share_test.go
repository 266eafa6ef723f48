package describe

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/source"
)

// watched is a folder that remembers what was asked of it.
type watched struct {
	fstest.MapFS
	asked []string
}

func (w *watched) Open(name string) (fs.File, error) {
	w.asked = append(w.asked, name)
	return w.MapFS.Open(name)
}

func (w *watched) Stat(name string) (fs.FileInfo, error) {
	w.asked = append(w.asked, name)
	if strings.HasPrefix(name, "link") {
		return nil, &fs.PathError{Op: "stat", Path: name, Err: fs.ErrInvalid}
	}
	return fs.Stat(w.MapFS, name)
}

// folderOf gives a folder of files.
func folderOf(files map[string]string) *watched {
	w := &watched{MapFS: fstest.MapFS{}}
	for name, text := range files {
		w.MapFS[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return w
}

const front = "loomfolio: 1\ntitle: Fan\nsystem: {volts: 12}\n"

func readWith(text, variant string, files map[string]string) (*Description, source.Problems) {
	return Read(read.Given{Name: "cars/kestrel.yaml", Text: []byte(text), Files: folderOf(files), Variant: variant})
}

func slugList(ps source.Problems) string {
	var out []string
	for _, p := range ps {
		out = append(out, p.Slug)
	}
	return strings.Join(out, " ")
}

func names(d *Description) (places, parts, circuits string) {
	var all [3][]string
	for _, p := range d.Places {
		all[0] = append(all[0], p.Key.Text)
	}
	for _, p := range d.Parts {
		all[1] = append(all[1], p.Key.Text)
	}
	for _, c := range d.Circuits {
		all[2] = append(all[2], c.Key.Text)
	}
	return strings.Join(all[0], " "), strings.Join(all[1], " "), strings.Join(all[2], " ")
}

// TestIncludedSectionsAreJoined: the description first, then its files in the order of inclusion, each once.
func TestIncludedSectionsAreJoined(t *testing.T) {
	d, ps := readWith(front+"include: [parts/shop.yaml, rear.yaml, parts/more.yaml]\nplaces: {tray: {}}\nparts: {A: {kind: splice}}\n"+
		"circuits: {a: {legs: [[A, B]]}}\npractice: {slack: {each-end: 50 mm}, spare: 5 %}\nstates: {on: {SW: on}}\n", "", map[string]string{
		"parts/shop.yaml": "loomfolio: 1\ntitle: The shop\ninclude: more.yaml\npractice:\n  slack: {each-end: 80 mm, dress: 4 %}\n  spare: 10 %\n  mixed: true\nparts: {B: {kind: splice}}\n",
		"parts/more.yaml": "practice: {mixed: false}\nparts:\n  C: {kind: splice}\nruns: [{from: tray, to: rear, length: 1 m}]\n",
		"rear.yaml":       "places: {rear: {}}\nruns: [{from: rear, to: tail, length: 2 m}]\ncircuits: {r: {legs: [[B, C]]}}\nstates: {on: {SR: on}, off: {}}\n",
	})
	require.Empty(t, ps, printed(d, ps))
	places, parts, circuits := names(d)
	require.Equal(t, []string{"tray rear", "A B C", "a r"}, []string{places, parts, circuits})
	require.Equal(t, "Fan", d.Title.Text, "what the including file says counts")
	require.Equal(t, []string{"50 mm", "4 %", "5 %", "true"}, []string{d.Practice.Slack.EachEnd.Written, d.Practice.Slack.Dress.Written, d.Practice.Spare.Written, d.Practice.Mixed.Written})
	require.Equal(t, "rear", d.Runs[1].From.Text, "lists stand one behind the other")
	require.Len(t, d.States, 2)
	require.Len(t, d.States[0].Settings, 2, "a state takes settings from several files")
	require.Equal(t, []string{"cars/parts/shop.yaml", "cars/parts/more.yaml", "cars/rear.yaml"}, []string{d.File.Included[0].Name, d.File.Included[1].Name, d.File.Included[2].Name})
	require.Equal(t, source.Span{Start: source.Pos{Line: 3, Column: 3}, Width: 1, File: 2}, d.Parts[2].Key.Span)
	require.Equal(t, "C", d.File.At(d.Parts[2].Key.Span))
}

// TestIncludeIsRefused: each where it is written, with what to do, and nothing outside the folder is asked for.
func TestIncludeIsRefused(t *testing.T) {
	rest := "parts: {}\ncircuits: {}\n"
	deep := map[string]string{}
	for i := range 20 {
		deep[fmt.Sprintf("d%d.yaml", i)] = fmt.Sprintf("include: d%d.yaml\n", i+1)
	}
	deep["d20.yaml"] = "parts: {}\n"
	many, list := map[string]string{}, ""
	for i := range 120 {
		many[fmt.Sprintf("m%d.yaml", i)], list = "runs: []\n", list+fmt.Sprintf("  - m%d.yaml\n", i)
	}
	for _, c := range []struct {
		name, include, want, words string
		files                      map[string]string
	}{
		{"up", "[../x.yaml]", "include-outside", "cars/kestrel.yaml:4:11: error", nil},
		{"up from within", "[a/../../x.yaml]", "include-outside", "a folder in it", nil},
		{"up and down", "[a/../x.yaml]", "include-outside", "a folder in it", map[string]string{"x.yaml": ""}},
		{"absolute", "[/etc/passwd]", "include-outside", "name it from there", nil},
		{"backslash", `['parts\x.yaml']`, "include-outside", "Write folders with /", nil},
		{"drive", "['C:x.yaml']", "include-outside", "Write folders with /", nil},
		{"link", "[link.yaml]", "include-outside", "links out of it are not followed", nil},
		{"itself", "[kestrel.yaml]", "include-cycle", "kestrel.yaml → kestrel.yaml", nil},
		{"round", "[a.yaml]", "include-cycle", "cars/b.yaml:1:10: error: a.yaml includes itself: a.yaml → b.yaml → a.yaml", map[string]string{"a.yaml": "include: b.yaml\n", "b.yaml": "include: a.yaml\n"}},
		{"missing", "[shpo.yaml]", "include-missing", "Did you mean shop.yaml?", map[string]string{"shop.yaml": "parts: {}\n"}},
		{"missing below", "[a/b.yaml]", "include-missing", "cars/a/b.yaml:2:3: error: the included file c.yaml is not there", map[string]string{"a/b.yaml": "include:\n- c.yaml\n"}},
		{"folder", "[parts]", "include-unreadable", "is a folder, no file", map[string]string{"parts/a.yaml": ""}},
		{"large", "[a.yaml]", "include-bounds", "1 MB", map[string]string{"a.yaml": strings.Repeat("#", 1<<20+1)}},
		{"deep", "[d0.yaml]", "include-bounds", "one in the other", deep},
		{"many", "\n" + list, "include-bounds", "more than 100 files", many},
		{"version", "[a.yaml]", "include-clash", "says something else", map[string]string{"a.yaml": "loomfolio: 2\n"}},
		{"volts", "[a.yaml]", "include-clash", "cars/kestrel.yaml:3:10: note: it was given here first", map[string]string{"a.yaml": "system: {volts: 24}\n"}},
		{"two shops", "[a.yaml, b.yaml]", "include-clash", "into the file that includes both", map[string]string{"a.yaml": "practice: {spare: 5 %}\n", "b.yaml": "practice: {spare: 6 %}\n"}},
		{"a name twice", "[a.yaml]", "duplicate-name", "cars/a.yaml:1:10: note: it was given here first", map[string]string{"a.yaml": "places: {tray: {}}\ninclude: [b.yaml]\n", "b.yaml": "places: {tray: {}}\n"}},
		{"a setting twice", "[a.yaml, b.yaml]", "include-clash", "is given in two files", map[string]string{"a.yaml": "states: {on: {SW: on}}\n", "b.yaml": "states: {on: {SW: off}}\n"}},
		{"variants below", "[a.yaml]", "include-clash", "Write it into the description itself", map[string]string{"a.yaml": "variants: {a: {without: [b]}}\n"}},
		{"no text", "[a.yaml]", "not-utf8", "cars/a.yaml:1:1: error", map[string]string{"a.yaml": "\xff\xfep\x00"}},
		{"empty", "[a.yaml]", "empty-file", "cars/a.yaml: error: the file is empty", map[string]string{"a.yaml": ""}},
		{"no YAML", "[a.yaml]", "yaml-syntax", "cars/a.yaml:2:6: error", map[string]string{"a.yaml": "places:\n  a: [b\n"}},
		{"no list", "{a: b}", "wrong-shape", "a list of files", nil},
		{"shape", "[a.yaml, b.yaml]", "include-clash", "says something else", map[string]string{"a.yaml": "runs: []\n", "b.yaml": "runs: {}\n"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := folderOf(c.files)
			d, ps := Read(read.Given{Name: "cars/kestrel.yaml", Text: []byte(front + "include: " + c.include + "\n" + rest), Files: w})
			said := printed(d, ps)
			require.Contains(t, slugList(ps), c.want, said)
			require.Contains(t, strings.Join(strings.Fields(said), " "), c.words)
			for _, name := range w.asked {
				require.True(t, fs.ValidPath(name), name)
			}
		})
	}
	d, ps := Parse("-", []byte(front+"include: [a.yaml]\n"+rest))
	require.Equal(t, "include-no-folder", slugList(ps), printed(d, ps))
	_, ps = Parse("x", []byte(front+"include: [a.yaml, b.yaml]\n"+rest))
	require.Len(t, ps, 2)
}

// TestMarksOfYAML: what is named again is read as if it were written there, and points at where it is written.
func TestMarksOfYAML(t *testing.T) {
	d, ps := Parse("x.yaml", []byte(front+`parts:
  L1: &lamp {kind: lamp, at: front, draws: &w 55 W}
  L2: *lamp
  L3:
    <<: *lamp
    draws: 21 W
  L4: {kind: motor, draws: *w}
  L5: {<<: [{at: rear, name: Five}, *lamp], kind: lamp}
circuits: {c: {legs: [[L1.+, L2.+]]}}
`))
	require.Empty(t, ps, printed(d, ps))
	var got []string
	for _, p := range d.Parts {
		got = append(got, fmt.Sprintf("%s %s %s %s %s %d:%d", p.Key.Text, p.Kind.Text, p.At.Text, p.Draws.Written, p.Name.Text, p.Draws.Span.Start.Line, p.Draws.Span.Start.Column))
	}
	require.Equal(t, []string{"L1 lamp front 55 W  5:47", "L2 lamp front 55 W  5:47", "L3 lamp front 21 W  9:12", "L4 motor  55 W  5:47", "L5 lamp rear 55 W Five 5:47"}, got)
	require.NotEqual(t, d.Parts[0].At.Span, d.Parts[1].At.Span, "a place is read in two uses, and each is one of its own")
	require.Equal(t, "55 W", d.File.At(d.Parts[1].Draws.Span))
}

// TestNothingIsLostSilently: a section that cannot be read by itself, since it names what
// another one holds, is either read or said.
func TestNothingIsLostSilently(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"parts: {A: *x}\nplaces: {tray: &x {}}\ncircuits: {}\n", `4:12 "*x" names a value again`},
		{"# the mark &x is not here\nparts: {A: *x} # *x\ncircuits: {}\n", `5:12 "*x" names a value again`},
		{"places: {tray: &x {}}\nparts:\n  A: *x\n  B: *y\n  C: *z\ncircuits: {}\n", `7:6 "*y" names a value again`},
		{"places: {tray: &x {name: a}}\nparts:\n  A: *x\n  B: {kind: [fuse}\ncircuits: {}\n", `7:18 "}" does not close the "["`},
		{"places: {tray: &x {name: a}}\nparts:\n  A: *x\n  B: {kind: fuse\ncircuits: {}\n", `"{" is never closed`},
		{"places: {tray: &x {name: a}}\nparts: {A: *x}\ncircuits: {}\ntitle: Fan: two\n", "a second colon"},
	} {
		d, ps := Parse("x.yaml", []byte(front+c.text))
		require.True(t, ps.HasErrors(), c.text)
		var said []string
		for _, p := range ps {
			said = append(said, fmt.Sprintf("%d:%d %s", p.Span.Start.Line, p.Span.Start.Column, p.Summary))
		}
		require.Contains(t, strings.Join(said, "\n"), c.want, printed(d, ps))
	}
}

func TestProblemsSayWhereTheyAreUsed(t *testing.T) {
	d, ps := Parse("x.yaml", []byte(front+"parts:\n  L1: &lamp {kind: lamp, draws: 55}\n  L2: *lamp\ncircuits: {}\n"))
	said := printed(d, ps)
	require.Equal(t, "bad-quantity", slugList(ps), "one fault is said once: %s", said)
	require.Contains(t, said, "x.yaml:5:33: error")
	list := source.ListOf(d.File, ps, nil)
	require.Empty(t, list.Findings[0].Places)

	d, ps = readWith(front+"include: [lib.yaml]\nuse:\n- {template: head, each: {side: [left, right]}}\nparts: {}\ncircuits: {}\n", "", map[string]string{
		"lib.yaml": "templates:\n  head:\n    with: [side]\n    parts:\n      H-<side>: {kind: lmap}\n"})
	require.Equal(t, "unknown-kind", slugList(ps))
	one := source.ListOf(d.File, ps, nil).Findings[0]
	require.Equal(t, "cars/lib.yaml:5", fmt.Sprintf("%s:%d", one.File, one.Line))
	require.Equal(t, "cars/kestrel.yaml:6", fmt.Sprintf("%s:%d", one.Places[0].File, one.Places[0].Line))
	require.Contains(t, one.Places[0].Message, `template "head": <side> is left`)

	d, ps = readWith(front+"include: [lib.yaml]\nuse: [{template: head, what: TL}]\nparts: {}\ncircuits: {c: {legs: [[A, F-<n>]]}}\n", "", map[string]string{
		"lib.yaml": "templates:\n  head:\n    with: [what]\n    parts:\n      <what>-<side>: {each: {side: [left, right]}, draws: 5 W}\n    circuits: {a: {legs: [{each: {n: [1]}, stops: [A, B]}, {each: {n: [1]}}]}}\nparts: {X<n>: {each: {n: [7]}, name: x}}\n"})
	require.Equal(t, "mark-left missing-key missing-key unknown-key bad-each missing-key", slugList(ps), printed(d, ps))
	two := source.ListOf(d.File, ps, nil).Findings
	var at []string
	for _, p := range two[1].Places {
		at = append(at, fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column))
	}
	require.Equal(t, []string{"cars/lib.yaml:5:37", "cars/kestrel.yaml:5:18"}, at, "the entry's own, then that of the template, each once")
	require.Equal(t, "cars/lib.yaml:7", fmt.Sprintf("%s:%d", two[5].File, two[5].Line), "of an included file")
}

// TestBombsAreRefused quickly, whatever they are made of, and plainly.
func TestBombsAreRefused(t *testing.T) {
	laughs := "a0: &a0 [x, x, x, x, x, x, x, x, x]\n"
	for i := range 12 {
		laughs += fmt.Sprintf("a%d: &a%d [*a%d, *a%d, *a%d, *a%d, *a%d, *a%d, *a%d, *a%d, *a%d]\n", i+1, i+1, i, i, i, i, i, i, i, i, i)
	}
	merges := "parts:\n  p0: &p0 {kind: splice}\n"
	for i := range 3000 {
		merges += fmt.Sprintf("  p%d: &p%d {<<: *p%d, x%d: 1}\n", i+1, i+1, i, i)
	}
	long := "notes: &n |\n" + strings.Repeat("  "+strings.Repeat("text ", 300)+"\n", 500) + "places:\n"
	for i := range 5000 {
		long += fmt.Sprintf("  p%d: {name: *n}\n", i)
	}
	each := "parts:\n"
	for i := range 500 {
		each += fmt.Sprintf("  L%d-<n>: {kind: lamp, draws: 5 W, each: {n: [%s0]}}\n", i, strings.Repeat("1, ", 199))
	}
	template := "templates: {t: {with: [n], parts: {" + strings.Repeat("\"P<n><n><n><n>\": {kind: splice},\n  ", 2000) + "Q: {kind: splice}}}}\nuse:\n" + strings.Repeat("- {template: t, n: 1}\n", 5000)
	for name, text := range map[string]string{"laughs": laughs, "merges": merges, "long": long, "each": each, "template": template} {
		t.Run(name, func(t *testing.T) {
			begun := time.Now()
			d, ps := Parse("x.yaml", []byte("loomfolio: 1\n"+text))
			require.Contains(t, slugList(ps), "too-much", "%.2000s", printed(d, ps))
			require.Less(t, time.Since(begun), 30*time.Second) // a second of one core, on cores that are shared
		})
	}
}

// TestTemplatesAndEach write out what a person would have written.
func TestTemplatesAndEach(t *testing.T) {
	d, ps := Parse("x.yaml", []byte(front+`templates:
  headlamp:
    with: [side, {at: front}, {watts: 55 W}]
    parts:
      HL-<side>: {kind: lamp, name: Headlamp <side>, at: <at>-<side>, draws: <watts>}
    circuits:
      head-<side>:
        legs:
          - {each: {n: [1, 2]}, leg: [SW.<n>, HL-<side>.+]}
          - [HL-<side>.-, G1]
use:
  - {template: headlamp, each: {side: [left, right]}}
  - {template: headlamp, side: top, at: bar, watts: 100 W}
places:
  front-<side>: {each: {side: [left, right], m: [L, R]}, name: Front <m>}
runs:
  - {each: {a: [x, y]}, from: tray, to: <a>, length: 1 m}
parts:
  G1: {kind: ground}
circuits: {}
`))
	require.Empty(t, ps, printed(d, ps))
	places, parts, circuits := names(d)
	require.Equal(t, []string{"front-left front-right", "G1 HL-left HL-right HL-top", "head-left head-right head-top"}, []string{places, parts, circuits})
	require.Equal(t, []string{"Headlamp left", "front-left", "55 W", "bar-top", "100 W", "Front R", "y"},
		[]string{d.Parts[1].Name.Text, d.Parts[1].At.Text, d.Parts[1].Draws.Written, d.Parts[3].At.Text, d.Parts[3].Draws.Written, d.Places[1].Name.Text, d.Runs[1].To.Text})
	var legs []string
	for _, l := range d.Circuits[2].Legs {
		legs = append(legs, l.Stops[0].To.Text+" "+l.Stops[1].To.Text)
	}
	require.Equal(t, []string{"SW.1 HL-top.+", "SW.2 HL-top.+", "HL-top.- G1"}, legs)
	require.Equal(t, "HL-left", d.File.At(d.Parts[1].Key.Span), "as it is read")
	require.Equal(t, 8, d.Parts[1].Key.Span.Start.Line)
	require.Equal(t, "HL-top.-", d.File.At(d.Circuits[2].Legs[2].Stops[0].To.Span))
}

// TestVariants: what the chosen one includes belongs to the loom, the others' files are looked at.
func TestVariants(t *testing.T) {
	files := map[string]string{"tow.yaml": "parts: {TS: {kind: splice}}\n", "snow.yaml": "parts: {PL: {kind: splice}}\n"}
	text := front + "parts: {A: {kind: splice}}\ncircuits: {}\nvariants:\n  towing: {with: [tow.yaml]}\n  winter: {with: [snow.yaml, tow.yaml], without: [A]}\n"
	for variant, want := range map[string]string{"": "A", "towing": "A TS", "winter": "A PL TS", read.All: "A TS PL"} {
		d, ps := readWith(text, variant, files)
		require.Empty(t, ps, printed(d, ps))
		_, parts, _ := names(d)
		require.Equal(t, want, parts, variant)
		require.Len(t, d.File.Included, 2, "both are read, whatever is chosen")
	}
	_, ps := readWith(text, "towin", files)
	require.Equal(t, "unknown-variant", slugList(ps))
	require.Contains(t, ps[0].Detail, `Did you mean "towing"? The variants are: towing, winter.`)
	_, ps = readWith(front+"parts: {}\ncircuits: {}\n", "all", nil)
	require.Equal(t, "unknown-variant", slugList(ps))
	delete(files, "snow.yaml")
	d, ps := readWith(text, "", files)
	require.Equal(t, "include-missing", slugList(ps), "a variant that is not chosen is missing its file")
	require.Contains(t, printed(d, ps), "cars/kestrel.yaml:8:19: error")
}

// FuzzInclude: whatever the files hold, nothing but names within the folder is asked for, no
// problem is without a place in a file that there is, and reading twice gives the same.
func FuzzInclude(f *testing.F) {
	f.Add("include: [a.yaml]\nparts: {}\n== a.yaml\ninclude: b/c.yaml\npractice: {spare: 5 %}\n== b/c.yaml\nparts: {A: {kind: fuse}}\n")
	f.Add("include: [../a.yaml, /etc/passwd, 'C:\\x', a//b, ./a.yaml]\n== a.yaml\ninclude: kestrel.yaml\n")
	f.Add("variants: {t: {with: [a.yaml], without: [x]}}\n== a.yaml\nstates: {on: {SW: on}}\nsystem: 5\nrun: [\n")
	f.Add("practice: {a: {b: [c]}}\nsystem: {volts: 12}\ninclude: [a.yaml, b.yaml]\n== a.yaml\npractice: {a: {b: d, e: f}}\nsystem: {volts: 24}\n== b.yaml\npractice: [&x a, *x]\nuse: [t]\n")
	f.Fuzz(func(t *testing.T, text string) {
		all := strings.Split(text, "\n== ")
		files := map[string]string{}
		for _, one := range all[1:] {
			name, body, _ := strings.Cut(one, "\n")
			if fs.ValidPath(name) && !strings.HasPrefix(name, "link") {
				files[name] = body
			}
		}
		for _, variant := range []string{"", "t", read.All} {
			sound(t, read.Given{Name: "cars/kestrel.yaml", Text: []byte(all[0]), Files: folderOf(files), Variant: variant})
		}
	})
}

// FuzzTemplates: no description with templates, each: and marks of YAML takes long or makes the reader panic.
func FuzzTemplates(f *testing.F) {
	f.Add(front + "templates: {t: {with: [a, {b: c}], parts: {\"P<a>\": {kind: lamp, name: <b>}}}}\nuse: [{template: t, each: {a: [1, 2]}}, t, {template: t, a: <b>}]\nparts: {}\ncircuits: {}\n")
	f.Add(front + "parts:\n  L<n>: &l {each: {n: [1, 2], m: [a, b]}, kind: lamp}\n  M: {<<: *l}\ncircuits: {c: {legs: [{each: {n: [1]}, leg: [A, B<n>]}, {each: {}}]}}\n")
	f.Add("a: &a [*a, *b]\nb: &b {<<: [*a, {x: *b}], *a : c}\ntemplates: &t {u: *t}\nuse: *t\n")
	f.Add("templates: {t: {parts: {<<: {a: b}}, runs: {x: y}, use: [t]}}\nuse: [t, t, [t], {t: t}]\nruns: {each: {a: [b]}}\nplaces: [{each: {a: [b]}}]\n")
	f.Fuzz(func(t *testing.T, text string) {
		sound(t, read.Given{Name: "kestrel.yaml", Text: []byte(text)})
	})
}

func sound(t *testing.T, g read.Given) {
	t.Helper()
	begun := time.Now()
	d, ps := Read(g)
	require.NotNil(t, d)
	for _, p := range ps {
		require.NotEmpty(t, p.Summary)
		require.NotEmpty(t, p.Detail)
		inside(t, d.File, p.Span)
		for _, n := range p.Others {
			inside(t, d.File, n.Span)
		}
	}
	for _, u := range d.File.Uses {
		inside(t, d.File, u.Span)
	}
	require.LessOrEqual(t, len(d.File.Included), 101)
	_, again := Read(g)
	require.Equal(t, ps, again)
	_ = printed(d, ps)
	require.Less(t, time.Since(begun), 30*time.Second)
	if w, ok := g.Files.(*watched); ok {
		for _, name := range w.asked {
			require.True(t, fs.ValidPath(name), name)
		}
	}
}
