// Package toy is for the tests of the sheets: two small harnesses made by hand with
// invented figures, since only their printing is tested, the samples as asks, and what
// every finished page is held to. It is no part of the program.
package toy

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/frame"
	"example.com/loomfolio/layout/meter"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
)

// Plain makes blanks at which no line ends plain ones.
func Plain(s string) string { return strings.ReplaceAll(s, page.NoBreak, " ") }

// Squeezed is a text without its blanks, so that it does not matter where lines end.
func Squeezed(s string) string { return strings.Join(strings.Fields(s), "") }

// Samples takes every sample through to its results, for the bench.
func Samples(t *testing.T) map[string]page.Ask {
	t.Helper()
	out := map[string]page.Ask{}
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		out[s.Name] = page.Of(h, r, h.Sheet.Paper, page.Bench)
	}
	return out
}

// CheckPage holds that a page has no fault of the meter.
func CheckPage(t *testing.T, p frame.Page) {
	t.Helper()
	require.Empty(t, meter.Faults(p.Marks, p.Frame.Body.Inset(-2.5), sheet.SizeNote), p.Title)
}

// Words gives all text of pages, line by line.
func Words(pages []frame.Page) string {
	var all []string
	for _, p := range pages {
		for _, m := range p.Marks {
			if x, ok := m.(sheet.Text); ok {
				all = append(all, x.S)
			}
		}
	}
	return strings.Join(all, " ")
}

// Under gives the texts that follow each anchor of a kind ("splice/"), up to the next of that kind.
func Under(pages []frame.Page, kind string) map[string][]sheet.Text {
	out := map[string][]sheet.Text{}
	at := ""
	for _, p := range pages {
		for _, m := range p.Marks {
			switch x := m.(type) {
			case sheet.Anchor:
				if strings.HasPrefix(x.Name, kind) {
					at = strings.TrimPrefix(x.Name, kind)
				}
			case sheet.Text:
				if at != "" {
					out[at] = append(out[at], x)
				}
			}
		}
	}
	return out
}

// Joined is some texts as one, blanks made plain.
func Joined(texts []sheet.Text) string {
	var out []string
	for _, x := range texts {
		out = append(out, x.S)
	}
	return Plain(strings.Join(out, " "))
}

// Archive takes a sample through to its results, for the archive.
func Archive(t testing.TB, s samples.Sample) page.Ask {
	t.Helper()
	h, r := worked.Out(t, s)
	return page.Of(h, r, "", page.Archive)
}

// Settled lays kinds of sheets until the references among them stand.
func Settled(a page.Ask, kinds ...func(page.Ask) []frame.Page) []frame.Page {
	var all []frame.Page
	for range 2 {
		all = nil
		for _, lay := range kinds {
			all = append(all, lay(a)...)
		}
		a.Known = frame.Places(all)
	}
	return all
}

// CheckGolden holds the dump of pages against the file of a name in testdata, which is
// written anew on request.
func CheckGolden(t *testing.T, name string, pages []frame.Page, update bool) {
	t.Helper()
	var dump strings.Builder
	for _, p := range pages {
		fmt.Fprintf(&dump, "page %q in %q\n%s", p.Title, p.Group, sheet.DumpMarks(p.Marks))
	}
	file := filepath.Join("testdata", name+".txt")
	if update {
		require.NoError(t, os.WriteFile(file, []byte(dump.String()), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, "", difference(string(want), dump.String()), "%s; run with -update and read the change", file)
}

// difference is the first line in which two dumps differ.
func difference(want, got string) string {
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range max(len(w), len(g)) {
		a, b := "(end)", "(end)"
		if i < len(w) {
			a = w[i]
		}
		if i < len(g) {
			b = g[i]
		}
		if a != b {
			return fmt.Sprintf("line %d: want %s, got %s", i+1, a, b)
		}
	}
	return ""
}

// CheckFoot holds that no heading is the last thing on a page: none large, and none of the
// rows that head groups in the tables.
func CheckFoot(t *testing.T, p frame.Page, tables ...[]table.Row) {
	t.Helper()
	low, last := 0.0, sheet.Text{}
	for _, m := range p.Marks {
		if x, ok := m.(sheet.Text); ok && x.Y > low {
			low, last = x.Y, x
		}
	}
	require.Less(t, last.Size, sheet.SizeHead, "%s ends in the heading %q", p.Title, last.S)
	for _, row := range slices.Concat(tables...) {
		for _, c := range row.Cells {
			heads := row.Kind == table.Group && c.S != "" && c.S == strings.TrimSuffix(last.S, ", continued")
			require.False(t, heads, "%s ends in the heading %q", p.Title, last.S)
		}
	}
}

// Said is every text of some rows, blanks made plain.
func Said(rows []table.Row) string {
	var out []string
	for _, row := range rows {
		for _, c := range row.Cells {
			out = append(out, c.S, c.Note)
		}
	}
	return Plain(strings.Join(out, "|"))
}
