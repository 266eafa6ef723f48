package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/render"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network/spicecheck"
	"example.com/loomfolio/sizing/result"
)

// need skips a cross-check whose tool is not installed; with CI set it must be there.
func need(t *testing.T, tool string) {
	if _, err := exec.LookPath(tool); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("%s is not installed, and the cross-check must run", tool)
		}
		t.Skipf("%s is not installed", tool)
	}
}

// once holds what was sized, planned, printed and read back already: the samples are large.
var once = struct {
	sync.Mutex
	sized   map[string]outcome
	planned map[string]*sheet.Packet
	pdf     map[string][]byte
	texts   map[string][]string
}{sized: map[string]outcome{}, planned: map[string]*sheet.Packet{}, pdf: map[string][]byte{}, texts: map[string][]string{}}

type outcome struct {
	h *harness.Harness
	r *result.Result
}

// kept gives a sample's results, computed once for all tests that only read them.
func kept(t testing.TB, name string) (*harness.Harness, *result.Result) {
	once.Lock()
	defer once.Unlock()
	if _, ok := once.sized[name]; !ok {
		h, r := worked.Named(t, name)
		once.sized[name] = outcome{h, r}
	}
	return once.sized[name].h, once.sized[name].r
}

// planned gives a sample's sheets, laid out once for all tests that only read them.
func planned(t testing.TB, name, reader, paper string) *sheet.Packet {
	h, r := kept(t, name)
	once.Lock()
	defer once.Unlock()
	key := name + "/" + reader + "/" + paper
	if once.planned[key] == nil {
		p, err := layout.Plan(h, r, layout.Options{For: reader, Paper: paper, FileName: name + ".yaml"})
		require.NoError(t, err)
		once.planned[key] = p
	}
	return once.planned[key]
}

// rendered gives a sample's packet as bytes, written once for all tests that only read them.
func rendered(t testing.TB, name, reader, paper string) []byte {
	p := planned(t, name, reader, paper)
	once.Lock()
	defer once.Unlock()
	key := name + "/" + reader + "/" + paper
	if once.pdf[key] == nil {
		pdf, err := render.PDF(*p)
		require.NoError(t, err)
		once.pdf[key] = pdf
	}
	return once.pdf[key]
}

// printed writes a sample's packet and gives its path and its sheets.
func printed(t *testing.T, name, reader, paper string) (string, *sheet.Packet, *harness.Harness) {
	h, _ := kept(t, name)
	path := filepath.Join(t.TempDir(), name+".pdf")
	require.NoError(t, os.WriteFile(path, rendered(t, name, reader, paper), 0o600))
	return path, planned(t, name, reader, paper), h
}

// archived reads the words of each page of a sample's archive back, once for all tests.
func archived(t *testing.T, name string) ([]string, *sheet.Packet, *harness.Harness) {
	need(t, "pdftotext")
	path, p, h := printed(t, name, layout.Archive, "")
	once.Lock()
	defer once.Unlock()
	if once.texts[name] == nil {
		out, err := exec.Command("pdftotext", "-layout", path, "-").Output()
		require.NoError(t, err)
		pages := strings.Split(string(out), "\f")
		once.texts[name] = pages[:len(pages)-1]
	}
	return once.texts[name], p, h
}

// of joins the text of the sheets whose title or group begins so, or on which such a group begins.
func of(p *sheet.Packet, pages []string, name string) string {
	var out []string
	for i, s := range p.Sheets {
		also := slices.ContainsFunc(s.Also, func(a string) bool { return strings.HasPrefix(a, name) })
		if strings.HasPrefix(s.Title, name) || strings.HasPrefix(s.Group, name) || also {
			out = append(out, pages[i])
		}
	}
	return strings.Join(out, "\n")
}

// words counts the words of a text; a word is letters and digits.
func words(text string) map[string]int {
	out := map[string]int{}
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		out[w]++
	}
	return out
}

// inReadingOrder gives the sheets' text piece by piece: laid out as seen, a wire's number may
// stand against the name of the part beside it.
func inReadingOrder(t *testing.T, name string) []string {
	path, _, _ := printed(t, name, layout.Archive, "")
	out, err := exec.Command("pdftotext", "-raw", path, "-").Output()
	require.NoError(t, err)
	return strings.Split(string(out), "\f")
}

func TestEveryWireIsOnEverySheetThatNeedsIt(t *testing.T) {
	for _, s := range samples.List() {
		t.Run(s.Name, func(t *testing.T) {
			pages, p, h := archived(t, s.Name)
			require.Len(t, pages, len(p.Sheets))
			diagrams := words(of(p, inReadingOrder(t, s.Name), "Circuit diagrams"))
			cuts := words(of(p, pages, "Wires and their ends"))
			index := words(of(p, pages, "Index"))
			for _, w := range h.Wires {
				require.GreaterOrEqualf(t, diagrams[w.Name], 1, "wire %s in the diagrams", w.Name)
				require.GreaterOrEqualf(t, cuts[w.Name], 1, "wire %s among the wires", w.Name)
				require.GreaterOrEqualf(t, index[w.Name], 3, "wire %s in the index, by its number and at both ends", w.Name)
			}
		})
	}
}

func TestPacketsPassTheCheckers(t *testing.T) {
	wholeRun(t)
	need(t, "qpdf")
	need(t, "pdfinfo")
	for _, s := range samples.List() {
		for _, paper := range papers(s.Name) {
			path, p, _ := printed(t, s.Name, layout.Archive, paper)
			out, err := exec.Command("qpdf", "--check", path).CombinedOutput()
			require.NoErrorf(t, err, "%s on %s: %s", s.Name, paper, out)
			require.NotContains(t, strings.ToLower(string(out)), "warning")
			info, err := exec.Command("pdfinfo", path).CombinedOutput()
			require.NoError(t, err)
			require.NotContains(t, string(info), "Error")
			require.Regexp(t, fmt.Sprintf(`Pages: +%d\n`, len(p.Sheets)), string(info))
			drawn, err := exec.Command("pdftoppm", "-r", "10", "-mono", path, filepath.Join(t.TempDir(), "p")).CombinedOutput()
			require.NoError(t, err)
			require.Empty(t, string(drawn), "poppler reports no fault")
		}
	}
}

// papers are all four for the small samples, the two smallest for the large ones; one where time is short.
func papers(sample string) []string {
	if testing.Short() {
		return []string{""}
	}
	if sample == "first" || sample == "tender" {
		return []string{"", "letter", "A3", "tabloid"}
	}
	return []string{"", "letter"}
}

func TestTheArchiveCarriesItsSource(t *testing.T) {
	need(t, "pdfdetach")
	path, _, h := printed(t, "first", layout.Archive, "")
	out := filepath.Join(t.TempDir(), "back.yaml")
	require.NoError(t, exec.Command("pdfdetach", "-save", "1", "-o", out, path).Run())
	back, err := os.ReadFile(out)
	require.NoError(t, err)
	require.Equal(t, h.File.Text, back)
}

func TestReadersGetTheirSheets(t *testing.T) {
	titles := map[string]string{}
	for _, reader := range layout.Readers() {
		p := planned(t, "camper", reader, "")
		for _, s := range p.Sheets {
			titles[reader] += s.Group + "/" + s.Title + "\n"
		}
		require.Equal(t, reader == layout.Archive, len(p.Attached) == 1)
	}
	for _, name := range []string{"Wires and their ends", "Shopping"} {
		require.Contains(t, titles[layout.Bench], name)
		require.NotContains(t, titles[layout.Customer], name)
		require.Contains(t, titles[layout.Archive], name)
	}
	for _, name := range []string{"Fuse map", "What feeds what", "Reading guide", "at a glance"} {
		require.NotContains(t, titles[layout.Bench], name, "hands do without")
		require.Contains(t, titles[layout.Customer], name)
		require.Contains(t, titles[layout.Archive], name)
	}
	require.Contains(t, titles[layout.Customer], "Quick page")
	for _, name := range []string{"Cover", "Circuit diagrams", "Connectors", "Splices", "Grounds", "Index"} {
		for _, reader := range layout.Readers() {
			require.Contains(t, titles[reader], name)
		}
	}
}

// The solved states of the samples against ngspice on the printed netlist, to 1e-6 relative.
func TestSamplesAgreeWithSpice(t *testing.T) {
	spicecheck.Need(t)
	for _, s := range samples.List() {
		h, r := kept(t, s.Name)
		for _, state := range r.States {
			require.Less(t, state.Residual, 1e-9)
			spicecheck.Compare(t, h, state)
		}
	}
}

func TestTwoRunsGiveTheSameBytes(t *testing.T) {
	h, r := worked.Named(t, "kestrel")
	p, err := layout.Plan(h, r, layout.Options{For: layout.Archive, FileName: "kestrel.yaml"})
	require.NoError(t, err)
	again, err := render.PDF(*p)
	require.NoError(t, err)
	require.True(t, bytes.Equal(rendered(t, "kestrel", layout.Archive, ""), again))
}

// The sizes that the samples promise.
func TestKestrelIsAWholeCar(t *testing.T) {
	h, _ := kept(t, "kestrel")
	kinds := map[harness.Kind]int{}
	for _, p := range h.Parts {
		kinds[p.Kind]++
	}
	require.GreaterOrEqual(t, len(h.Circuits), 40)
	require.GreaterOrEqual(t, len(h.Wires), 130)
	require.GreaterOrEqual(t, kinds[harness.Connector], 3)
	require.GreaterOrEqual(t, kinds[harness.FusePanel], 2)
	require.GreaterOrEqual(t, kinds[harness.Ground], 8)
	require.GreaterOrEqual(t, len(h.States), 4)
	camper, _ := kept(t, "camper")
	require.GreaterOrEqual(t, len(camper.Circuits), 24)
	tender, _ := kept(t, "tender")
	require.True(t, tender.System.PositiveEarth)
	require.InDelta(t, 6, float64(tender.System.Volts), 0)
	for _, s := range samples.List() {
		if s.Name == "first" {
			require.Less(t, strings.Count(string(s.Text), "\n"), 70)
		}
	}
}

// BenchmarkKestrel is the packet of a whole car from bytes to bytes.
func BenchmarkKestrel(b *testing.B) {
	for b.Loop() {
		h, r := worked.Named(b, "kestrel")
		p, err := layout.Plan(h, r, layout.Options{For: layout.Archive, FileName: "kestrel.yaml"})
		require.NoError(b, err)
		_, err = render.PDF(*p)
		require.NoError(b, err)
	}
}

// TestSeveralReadersAreSeveralFiles: one a reader, each with its name behind the packet's; what clashes is
// said before anything is written.
func TestSeveralReadersAreSeveralFiles(t *testing.T) {
	file := sampleFile(t, "first")
	code, out, errs := do("packet", "--for", "bench", "--for", "customer,customer", file)
	require.Zero(t, code, errs)
	require.Regexp(t, `first-bench\.pdf: \d+ sheets for the bench\n.*first-customer\.pdf: \d+ sheets for the customer\n$`, out)
	for _, reader := range []string{"bench", "customer"} {
		require.FileExists(t, strings.TrimSuffix(file, ".yaml")+"-"+reader+".pdf")
	}
	for _, wrong := range [][]string{{"-o", "-"}, {"--svg", t.TempDir()}, {"--board"}, {"--labels"}} {
		code, _, errs := do(append([]string{"packet", "--for", "bench,archive", file}, wrong...)...)
		require.Equal(t, exitUnusable, code, wrong)
		require.Regexp(t, "ask for one at a time|leave --for out", errs, wrong)
	}
	code, _, errs = do("packet", "--for", "bench,owner", file)
	require.Equal(t, exitUnusable, code)
	require.Contains(t, errs, `no sheets for "owner"`)
	require.NoFileExists(t, strings.TrimSuffix(file, ".yaml")+"-archive.pdf")
}
