package main

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/cmd/loomfolio/explain"
	"example.com/loomfolio/cmd/loomfolio/work"
	"example.com/loomfolio/layout"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/adversary"
	catalogue "example.com/loomfolio/sizing/rules"
	"example.com/loomfolio/sizing/source"
)

// said is a text that a reader sees, and where it comes from.
type said struct{ where, text string }

// plain looks for bad words in texts; each is told once a room, where it first stands.
func plain(t *testing.T, texts []said) {
	t.Helper()
	require.NotEmpty(t, texts)
	patterns, told, looked := badPatterns(), map[string]bool{}, map[string]bool{}
	for _, s := range texts {
		if looked[s.text] {
			continue // the readers' packets have most sheets in common
		}
		looked[s.text] = true
		text := fine.ReplaceAllString(s.text, "¤")
		for i, p := range patterns {
			for _, at := range p.FindAllStringIndex(text, -1) {
				around := text[max(0, at[0]-40):min(len(text), at[1]+40)]
				if key := badWords[i].is + "|" + roomOf(s.where); !told[key] {
					told[key] = true
					t.Errorf("%s: %q in …%q…: say %s", s.where, text[at[0]:at[1]], around, badWords[i].say)
				}
			}
		}
	}
}

// roomOf is where a text comes from, without numbers and what follows a comma: the folder of
// a source, the group of a sheet, the kind of a case.
func roomOf(where string) string {
	if folder, _, ok := strings.Cut(where, ".go:"); ok {
		return filepath.Dir(folder)
	}
	if _, title, ok := strings.Cut(where, ": "); ok {
		return title
	}
	where, _, _ = strings.Cut(where, ", ")
	return strings.TrimRight(where, " 0123456789")
}

// findingsOf gives all that is said of a description: what check prints and, where it can be
// worked out, every reason, and what explain prints of parts.
func findingsOf(t *testing.T, where, text string) []said {
	t.Helper()
	w, err := work.Do(work.Source{Name: "description.yaml", Text: []byte(text)})
	var stop *work.Stop
	if errors.As(err, &stop) {
		return problemsOf(where, stop.Problems)
	}
	require.NoError(t, err, where)
	out := append(problemsOf(where, w.Result.Findings), said{where + ", summary", summary(w)}, said{where + ", reasons", reasonsOf(w)})
	for i := range w.Harness.Parts {
		out = append(out, toldBy(t, where, w, w.Harness.Parts[i].Ref))
	}
	return out
}

// labelled begins a line of explain that has a label.
var labelled = regexp.MustCompile(`\n  (\S)`)

// toldBy is what explain prints of a name.
func toldBy(t *testing.T, where string, w *work.Work, name string) said {
	var b strings.Builder
	require.NoError(t, explain.Explain(&b, w.Harness, w.Result, name))
	text := strings.ReplaceAll(labelled.ReplaceAllString(b.String(), "\n; $1"), "\n", " ")
	return said{where + ", explain " + name, strings.Join(strings.Fields(text), " ")}
}

// reasonsOf joins the reasons of all choices, and the shopping list.
func reasonsOf(w *work.Work) string {
	r := w.Result
	var out []string
	for i := range r.Wires {
		out = append(out, r.Wires[i].Reason, r.Ways[i].Reason, r.Colours[i].Reason, r.Ends[i][0].Reason, r.Ends[i][1].Reason)
		for _, f := range r.Wires[i].Below.Fails {
			out = append(out, f.Text)
		}
	}
	for i := range r.Fuses {
		out = append(out, r.Fuses[i].Reason)
		for _, f := range append(slices.Clone(r.Fuses[i].Below.Fails), r.Fuses[i].Above.Fails...) {
			out = append(out, f.Text)
		}
	}
	for _, item := range r.Shopping {
		out = append(out, item.What+" "+item.For)
	}
	return strings.Join(out, "; ")
}

func problemsOf(where string, ps source.Problems) []said {
	var out []said
	for _, p := range ps {
		text := p.Summary + "; " + p.Detail
		for _, o := range p.Others {
			text += "; " + o.Text
		}
		out = append(out, said{where + ", " + p.Slug, text})
	}
	return out
}

// cases are descriptions with much to be said of them: those of the rules, of the tests of
// sizing, and some that the adversary broke.
func cases(t *testing.T) map[string]string {
	out := map[string]string{}
	list, err := catalogue.List()
	require.NoError(t, err)
	for _, r := range list {
		for i, e := range r.Examples {
			out[fmt.Sprintf("rule %s %d", r.Slug, i+1)], _ = catalogue.Whole(e.Text)
		}
	}
	files, err := filepath.Glob("../../sizing/testdata/trust/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, f := range files {
		out[filepath.Base(f)] = contents(t, f)
	}
	for _, f := range []string{"wrong.txt", "sound.txt"} {
		for _, section := range strings.Split("\n"+contents(t, "../../sizing/testdata/"+f), "\n== ")[1:] {
			head, body, _ := strings.Cut(section, "\n")
			out[f+" "+head] = "loomfolio: 1\ntitle: Case\n" + body
		}
	}
	for seed := uint64(0); seed < 25; seed++ {
		out[fmt.Sprint("adversary ", seed)] = adversary.Broken(seed).Sketch.Text()
	}
	return out
}

func contents(t *testing.T, path string) string {
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}

// TestFindingsSpeakTheTrade: what check and explain say of samples and cases.
func TestFindingsSpeakTheTrade(t *testing.T) {
	wholeRun(t)
	var all []said
	for _, s := range samples.List() {
		all = append(all, findingsOf(t, s.Name, string(s.Text))...)
	}
	w, err := work.Do(work.Source{Name: "first.yaml", Text: samples.List()[0].Text})
	require.NoError(t, err)
	for _, wire := range w.Harness.Wires {
		all = append(all, toldBy(t, "first", w, wire.Name))
	}
	of := cases(t)
	for _, name := range sorted(of) {
		all = append(all, findingsOf(t, name, of[name])...)
	}
	plain(t, all)
}

func sorted(of map[string]string) []string {
	var names []string
	for name := range of {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// TestWritingsSpeakTheTrade: the help, README, FORMAT.md with the rules, and what the samples
// say in names and comments.
func TestWritingsSpeakTheTrade(t *testing.T) {
	all := []said{{"README.md", readme(t)}, {"FORMAT.md", contents(t, "../../samples/FORMAT.md")}}
	for _, v := range verbs() {
		_, out, errs := do("help", v.name)
		all = append(all, said{"help " + v.name, out + errs})
	}
	_, out, _ := do("help")
	all = append(all, said{"help", out})
	for _, s := range append(samples.List(), samples.Patterns()...) {
		all = append(all, said{s.Name + ".yaml", string(s.Text)})
	}
	plain(t, all)
}

// TestSheetsSpeakTheTrade: every sheet of every sample, for each reader.
func TestSheetsSpeakTheTrade(t *testing.T) {
	wholeRun(t)
	var all []said
	for _, s := range samples.List() {
		for _, reader := range layout.Readers() {
			all = append(all, printedText(planned(t, s.Name, reader, ""), s.Name+" "+reader)...)
		}
	}
	plain(t, all)
}

// printedText joins the texts of each sheet: the wrapped lines of a paragraph by blanks, what stands
// apart by bars.
func printedText(p *sheet.Packet, where string) []said {
	var out []said
	for _, s := range p.Sheets {
		var text strings.Builder
		var last sheet.Text
		for _, m := range s.Marks {
			if x, ok := m.(sheet.Text); ok {
				text.WriteString(between(last, x))
				text.WriteString(x.S)
				last = x
			}
		}
		out = append(out, said{where + ": " + s.Group + " / " + s.Title, text.String()})
	}
	return out
}

// between is what parts two texts that are set one after the other.
func between(a, b sheet.Text) string {
	broken := strings.HasSuffix(a.S, "-") || strings.HasSuffix(a.S, "\u2010")
	switch down := b.Y - a.Y; {
	case broken && b.X < a.X && a.Size == b.Size && down > 0 && down <= 1.6*b.Size: // behind words in bold
		return ""
	case a.X != b.X || a.Size != b.Size || down <= 0 || down > 1.6*b.Size:
		return " | "
	case broken:
		return ""
	default:
		return " "
	}
}

// TestSourcesSpeakTheTrade: the strings of the program, so that a sentence that is seldom
// printed is seen as well. What a person never reads stands in unread.
func TestSourcesSpeakTheTrade(t *testing.T) {
	var all []said
	for _, root := range []string{"../../sizing", "../../layout", "../../render", "."} {
		require.NoError(t, filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || unread.MatchString(filepath.ToSlash(path)) {
				return err
			}
			all = append(all, literals(t, path)...)
			return nil
		}))
	}
	plain(t, all)
}

// unread are files whose strings no reader sees: words that are read, tables, errors of the
// program about itself, and what tests alone use.
var unread = regexp.MustCompile(`harness/(verify|kind/rows)\.go$|check/part/source\.go$|/(rig|shed|spicecheck|testplan)/|unit/(typed|gauge|parse)\.go$|describe/(refuse/|sections\.go)`)

// sentence tells a text for people from a key, a table's name or a format of a figure.
var sentence = regexp.MustCompile(`\pL\pL.*\s|\s.*\pL\pL`)

func literals(t *testing.T, path string) []said {
	fset := token.NewFileSet()
	file, err := parser.ParseFile(fset, path, nil, 0)
	require.NoError(t, err)
	tags := map[*ast.BasicLit]bool{}
	var out []said
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.Field:
			tags[n.Tag] = true
		case *ast.BasicLit:
			if text, err := strconv.Unquote(n.Value); err == nil && n.Kind == token.STRING && !tags[n] && sentence.MatchString(text) {
				out = append(out, said{fmt.Sprintf("%s:%d", path, fset.Position(n.Pos()).Line), text})
			}
		}
		return true
	})
	return out
}

// wholeRun leaves a test out of short runs: it reads what is printed, which is the same in all.
func wholeRun(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("reads texts that a whole run reads too")
	}
}
