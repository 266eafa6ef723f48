package rules

import (
	"bytes"
	"flag"
	"go/ast"
	"go/parser"
	"go/token"
	"image"
	"image/color"
	"image/png"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/accept"
	"example.com/loomfolio/sizing/change"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/picture"
	"example.com/loomfolio/sizing/record"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/variant"
)

func all(t *testing.T) []source.Rule {
	t.Helper()
	out, err := List()
	require.NoError(t, err)
	return out
}

// found takes an example through reading, checking and sizing, as far as it goes.
func found(t *testing.T, text string, kept *record.Record) source.Problems {
	t.Helper()
	given := read.Given{Name: "example.yaml", Text: []byte(text), Files: folder()}
	d, ps := describe.Read(given)
	if ps.HasErrors() {
		return ps
	}
	_, wrong := variant.Of(d)
	if ps = append(ps, wrong...); ps.HasErrors() {
		return ps
	}
	ps = append(ps, variant.Others(given, d)...)
	ps = append(ps, describe.Unprintable(d, ideographs)...)
	h, more := check.Against(d, kept)
	ps = append(ps, more...)
	if h == nil {
		return ps
	}
	ps = append(ps, picture.Load(h, folder())...)
	r, err := sizing.Size(worked.Buying(h, "clear"), ps)
	require.NoError(t, err)
	open, _ := accept.Settle(h, r.Findings, all(t))
	return open
}

// ideographs stand for what the sheets have no letters for.
func ideographs(s string) string {
	return strings.Join(strings.FieldsFunc(s, func(c rune) bool { return c < 0x3000 }), "")
}

// folder is the one that the examples' pictures and included files lie in.
func folder() fs.FS {
	return fstest.MapFS{
		"parts/lamps.yaml": {Data: []byte("parts: {}\n")},
		"shop.yaml":        {Data: []byte("revision: A\n")},
		"late.yaml":        {Data: []byte("revision: B\n")},
		"loop.yaml":        {Data: []byte("include: [loop.yaml]\n")},
		"much.yaml":        {Data: bytes.Repeat([]byte("# much\n"), 1<<18)},
		"mark.png":         {Data: drawn(4, 3)},
		"notes.jpg":        {Data: []byte("the fan's plug is brown")},
		"wide.png":         {Data: drawn(6000, 4001)},
	}
}

// drawn is a black picture of so many pixels as a PNG file.
func drawn(wide, high int) []byte {
	var b bytes.Buffer
	_ = png.Encode(&b, image.NewPaletted(image.Rect(0, 0, wide, high), color.Palette{color.Black})) // a buffer takes all
	return b.Bytes()
}

// before gives the record of what an example says was described before.
func before(t *testing.T, e source.Example) (*record.Record, source.Problems) {
	t.Helper()
	text, state := e.Built, harness.Built
	if e.Planned != "" {
		text, state = e.Planned, harness.Planned
	}
	switch {
	case e.Record != "":
		r, ps := record.Parse(source.NewFile("example.built.txt", []byte(odd.Replace(e.Record))))
		if ps.HasErrors() {
			return nil, ps
		}
		return &r, nil
	case text == "":
		return nil, nil
	}
	whole, _ := Whole(text)
	d, ps := describe.Parse("before.yaml", []byte(whole))
	require.Empty(t, ps, whole)
	h, _ := check.Check(d)
	require.NotNil(t, h)
	res, err := sizing.Size(h, nil)
	require.NoError(t, err)
	marks := change.Marks{}
	for i := range h.Wires {
		marks[h.Wires[i].Name] = state
	}
	for i := range res.Fuses {
		marks[res.Fuses[i].Name] = state
	}
	r, ps := record.Parse(source.NewFile("example.built.txt", record.Text(change.Freeze(h, res, nil, marks))))
	require.Empty(t, ps)
	return &r, nil
}

// shownElsewhere are rules of which no small example can be given.
var shownElsewhere = map[string]string{
	"empty-file":        "describe: TestFilesThatCannotBeText",
	"file-too-big":      "describe: TestFilesThatCannotBeText",
	"line-too-long":     "describe: TestHostileFilesAreQuicklyRefused",
	"too-many-problems": "describe: TestHostileFilesAreQuicklyRefused",
	"picture-no-folder": "picture: TestWithoutAFolder",
	"include-no-folder": "describe: TestIncludeIsRefused",
	"too-much":          "describe: TestBombsAreRefused",
	"unknown-variant":   "describe: TestVariants",
}

// TestEveryExampleIsFound: the first example of each rule is found at the rule's level, and each where its mark stands.
func TestEveryExampleIsFound(t *testing.T) {
	for _, r := range all(t) {
		t.Run(r.Slug, func(t *testing.T) {
			require.Equal(t, len(r.Examples) > 0, shownElsewhere[r.Slug] == "", "it has an example, or is one of those that cannot")
			for i, e := range r.Examples {
				text, at := Whole(e.Text)
				kept, ps := before(t, e)
				if len(ps) == 0 {
					ps = found(t, text, kept)
				}
				p := find(ps, r.Slug, at)
				require.NotNil(t, p, "no %s at %v in:\n%s\nfound: %+v", r.Slug, at, text, ps)
				require.NotEmpty(t, p.Detail)
				require.Contains(t, p.Summary+"; "+p.Detail, e.Words)
				if i == 0 {
					require.Equal(t, r.Level, p.Level)
				}
			}
		})
	}
}

// TestEveryAdviceCanBeAccepted: by the names that it concerns it comes off the list, and
// all else stays; what is said more gravely stays whatever is accepted.
func TestEveryAdviceCanBeAccepted(t *testing.T) {
	for _, r := range all(t) {
		if len(r.Examples) == 0 || r.Level < source.Advice || r.Slug == "accept-unused" {
			continue
		}
		t.Run(r.Slug, func(t *testing.T) {
			text, at := Whole(r.Examples[0].Text)
			kept, _ := before(t, r.Examples[0])
			was := found(t, text, kept)
			p := find(was, r.Slug, at)
			require.NotNil(t, p)
			text = "accept: [{finding: " + r.Slug + ", because: looked at" + atOf(text, p) + "}]\n" + text
			now := found(t, text, kept)
			moved := *p
			moved.Span.Start.Line++
			require.Nil(t, find(now, r.Slug, moved.Span.Start), "%+v", now)
			require.Len(t, now, len(was)-1, "%+v", now)
		})
	}
}

// atOf writes what a finding is said of, as somebody would who has read it.
func atOf(text string, p *source.Problem) string {
	switch {
	case p.Gathers:
		return ", at: [" + strings.Join(p.Subjects, ", ") + "]"
	case len(p.Subjects) > 0:
		return ", at: " + strings.Join(p.Subjects[:1], "")
	case p.Span.Known():
		line := []rune(strings.Split(text, "\n")[p.Span.Start.Line-1])
		return ", at: " + string(line[p.Span.Start.Column-1:p.Span.Start.Column-1+p.Span.Width])
	}
	return ""
}

func find(ps source.Problems, slug string, at source.Pos) *source.Problem {
	for i, p := range ps {
		if p.Slug == slug && (at == source.Pos{} || p.Span.Start == at) {
			return &ps[i]
		}
	}
	return nil
}

func TestRulesAreWordedAlike(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range all(t) {
		require.False(t, seen[r.Slug], "%s is there twice", r.Slug)
		seen[r.Slug] = true
		require.Regexp(t, `^[a-z0-9]+(-[a-z0-9]+)+$`, r.Slug)
		require.Regexp(t, `^[a-z].{10,110}[^.]$`, r.Says, r.Slug)
	}
}

// reports are the functions whose calls name a slug.
var reports = strings.Fields("Say say Mention Refuse refuse Fail Unknown loose notTogether")

// TestEverySlugIsARule reads the program: what stands where a slug stands must be a rule.
func TestEverySlugIsARule(t *testing.T) {
	known := map[string]bool{"internal": true} // a fault of the program
	for _, r := range all(t) {
		known[r.Slug] = true
	}
	met := 0
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		require.NoError(t, err)
		for _, slug := range slugsIn(file) {
			met++
			require.True(t, known[slug], "%s reports %s, which is in no list of rules", path, slug)
		}
		return nil
	})
	require.NoError(t, err)
	require.Greater(t, met, 100)
}

// slugsIn gives the slugs that a file names: as the field Slug, and as the first such word of a report.
func slugsIn(file *ast.File) []string {
	var out []string
	add := func(x ast.Expr) bool {
		lit, ok := x.(*ast.BasicLit)
		if !ok || lit.Kind != token.STRING {
			return false
		}
		word, err := strconv.Unquote(lit.Value)
		if err != nil || !slugForm.MatchString(word) {
			return false
		}
		out = append(out, word)
		return true
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.KeyValueExpr:
			if key, ok := n.Key.(*ast.Ident); ok && key.Name == "Slug" {
				add(n.Value)
			}
		case *ast.AssignStmt:
			for i, left := range n.Lhs {
				if sel, ok := left.(*ast.SelectorExpr); ok && sel.Sel.Name == "Slug" && i < len(n.Rhs) {
					add(n.Rhs[i])
				}
			}
		case *ast.CallExpr:
			for i := 0; i < len(n.Args) && slices.Contains(reports, called(n)); i++ {
				if add(n.Args[i]) {
					break
				}
			}
		}
		return true
	})
	return out
}

var slugForm = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)+$`)

func called(c *ast.CallExpr) string {
	switch f := c.Fun.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		return f.Sel.Name
	}
	return ""
}

var update = flag.Bool("update", false, "write the tables of rules in samples/FORMAT.md anew")

// TestFormatListsTheRules holds the tables of rules in samples/FORMAT.md to the catalogue.
func TestFormatListsTheRules(t *testing.T) {
	const file, begin, end = "../../samples/FORMAT.md", "<!-- rules -->\n", "<!-- end of rules -->\n"
	groups, err := All()
	require.NoError(t, err)
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	head, rest, ok := strings.Cut(string(text), begin)
	require.True(t, ok)
	have, tail, ok := strings.Cut(rest, end)
	require.True(t, ok)
	if *update {
		have = Tables(groups)
		require.NoError(t, os.WriteFile(file, []byte(head+begin+have+end+tail), 0o644))
	}
	require.Equal(t, Tables(groups), have, "-update renews it")
}
