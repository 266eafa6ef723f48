package describe_test

import (
	"flag"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/source"
)

var update = flag.Bool("update", false, "write the tables of keys in samples/FORMAT.md anew")

func reference(t *testing.T) []describe.KeyInfo {
	t.Helper()
	keys, err := describe.Reference()
	require.NoError(t, err)
	return keys
}

// TestFormatListsTheKeys holds the tables of keys in samples/FORMAT.md to those that are
// read: each section has its marks there, <!-- keys SECTION --> and <!-- end of keys -->.
func TestFormatListsTheKeys(t *testing.T) {
	const file, end = "../../samples/FORMAT.md", "<!-- end of keys -->\n"
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	keys, now := reference(t), string(text)
	for _, s := range describe.Sections() {
		begin := strings.TrimSuffix("<!-- keys "+s.Name, " ") + " -->\n"
		head, rest, ok := strings.Cut(now, begin)
		require.True(t, ok, "samples/FORMAT.md has no place for the keys of %q: write %s%s where they belong", s.Name, begin, end)
		_, tail, ok := strings.Cut(rest, end)
		require.True(t, ok, "the place for the keys of %q has no end", s.Name)
		now = head + begin + describe.Table(keys, s.Name) + end + tail
	}
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(now), 0o644))
		text = []byte(now)
	}
	require.Equal(t, now, string(text), "-update renews it")
}

var yamlBlock = regexp.MustCompile("(?s)```yaml\n(.*?)```")

// TestFormatsBlocksAreRead: what samples/FORMAT.md shows is read, though each piece lacks the others.
func TestFormatsBlocksAreRead(t *testing.T) {
	text, err := os.ReadFile("../../samples/FORMAT.md")
	require.NoError(t, err)
	blocks := yamlBlock.FindAllStringSubmatch(string(text), -1)
	require.Greater(t, len(blocks), 10)
	for _, b := range blocks {
		_, ps := beside(b[1])
		for _, p := range ps {
			require.Contains(t, []string{"missing-key", "unknown-template"}, p.Slug, "%s\n%s", p.Summary, b[1])
		}
	}
}

// TestEveryKeyHasAnExample, which samples/FORMAT.md shows.
func TestEveryKeyHasAnExample(t *testing.T) {
	for _, k := range reference(t) {
		require.NotEmpty(t, k.Example, "%s has no example: write into sizing/describe/keys.txt\n== %s\nsays: what it does, where %q does not tell that\n%s: an example", k.ID(), k.ID(), k.Holds, k.Name)
	}
}

// TestEveryExampleWorks puts each example into testdata/bench.yaml, or into a pattern. The whole is read,
// checked and sized without an error or a warning; without the key another description is
// read, or something is missing; and with the key misspelt that is said.
func TestEveryExampleWorks(t *testing.T) {
	sound(t, benchOf(t, describe.KeyInfo{}))
	for _, k := range reference(t) {
		t.Run(k.ID(), func(t *testing.T) {
			t.Parallel()
			text := whole(benchOf(t, k), k)
			given := strings.NewReplacer("«", "", "»", "").Replace(text)
			t.Log(k.Example, k.With) // seen where it fails
			d := sound(t, given)
			blank, ps := beside(without(text))
			for _, p := range ps {
				require.NotEqual(t, "yaml-syntax", p.Slug)
			}
			if !ps.HasErrors() {
				d.File, blank.File = nil, nil
				require.False(t, reflect.DeepEqual(d, blank), "without the key the same is read")
			}
			requireNamed(t, misspelt(text, k), k.Name+"x")
		})
	}
}

// benchOf reads the description in which the example of a key is tried.
func benchOf(t *testing.T, k describe.KeyInfo) string {
	t.Helper()
	file := "testdata/bench.yaml"
	if k.In != "" {
		file = "../../samples/patterns/" + k.In + ".yaml"
	}
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	return string(text)
}

// beside reads a description with the files that examples include.
func beside(text string) (*describe.Description, source.Problems) {
	return describe.Read(read.Given{Name: "bench.yaml", Text: []byte(text), Files: os.DirFS("testdata/beside")})
}

// sound reads, checks and sizes, and lets nothing pass that is worse than advice.
func sound(t *testing.T, text string) *describe.Description {
	t.Helper()
	d, ps := beside(text)
	require.False(t, ps.HasErrors(), "%+v", ps)
	h, more := check.Check(d)
	require.NotNil(t, h, "%+v", more)
	r, err := sizing.Size(worked.Buying(h, "clear"), append(ps, more...))
	require.NoError(t, err)
	for _, p := range r.Findings {
		require.Equal(t, source.Advice, p.Level, "%s: %s", p.Slug, p.Summary)
	}
	return d
}

// requireNamed sees that a text is refused with a word named.
func requireNamed(t *testing.T, text, word string) {
	t.Helper()
	d, ps := beside(text)
	if !ps.HasErrors() {
		_, ps = check.Check(d)
	}
	for _, p := range ps {
		if strings.Contains(p.Summary, word) {
			return
		}
	}
	t.Errorf("%s is not refused: %+v", word, ps)
}

// whole puts the example of a key into the bench, with its marks.
func whole(bench string, k describe.KeyInfo) string {
	for _, s := range describe.Sections() {
		if s.Name == k.Section {
			return merged(merged(bench, strings.Replace(s.Within, "…", k.Example, 1)), k.With)
		}
	}
	return ""
}

// merged puts the sections of a text into another: one that is written on one line
// replaces the section, entries replace those of their name, all else is added.
func merged(text, more string) string {
	for _, block := range blocks(more, "") {
		old := find(blocks(text, ""), nameOf(block))
		switch _, rest, entries := strings.Cut(block, "\n"); {
		case old == "":
			text += block + "\n"
		case !entries:
			text = strings.Replace(text, old, block, 1)
		default:
			now := old
			for _, entry := range blocks(rest, "  ") {
				if was := find(blocks(old, "  "), nameOf(entry)); was != "" {
					now = strings.Replace(now, was, entry, 1)
				} else {
					now += "\n" + entry
				}
			}
			text = strings.Replace(text, old, now, 1)
		}
	}
	return text
}

// blocks parts a text at the lines that are indented as said, and not farther.
func blocks(text, indent string) []string {
	var out []string
	for _, line := range strings.Split(strings.Trim(text, "\n"), "\n") {
		begins := strings.HasPrefix(line, indent) && !strings.HasPrefix(line, indent+" ")
		switch {
		case begins:
			out = append(out, line)
		case len(out) > 0:
			out[len(out)-1] += "\n" + line
		}
	}
	return out
}

// nameOf is what a block begins with; an item of a list has none.
func nameOf(block string) string {
	name, _, _ := strings.Cut(strings.Trim(block, " «"), ":")
	if strings.HasPrefix(name, "-") {
		return ""
	}
	return name
}

func find(blocks []string, name string) string {
	for _, b := range blocks {
		if name != "" && nameOf(b) == name {
			return b
		}
	}
	return ""
}

var marked = regexp.MustCompile(`(?s)«(.*)»,?`)

// without blanks what is marked, so that all else stays where it is.
func without(text string) string {
	return marked.ReplaceAllStringFunc(text, func(s string) string {
		return strings.Map(func(c rune) rune {
			switch {
			case c == '«' || c == '»':
				return -1
			case unicode.IsSpace(c):
				return c
			}
			return ' '
		}, s)
	})
}

// misspelt writes the key otherwise where it is marked.
func misspelt(text string, k describe.KeyInfo) string {
	head, rest, _ := strings.Cut(text, "«")
	shown, tail, _ := strings.Cut(rest, "»")
	return head + strings.Replace(shown, k.Name+":", k.Name+"x:", 1) + tail
}

// TestEveryTableIsASection reads the package: each table of keys is one of Sections.
func TestEveryTableIsASection(t *testing.T) {
	tables, listed := map[string]bool{}, map[string]bool{}
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	for _, name := range files {
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		require.NoError(t, err)
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.FuncDecl:
				if slices.Contains([]string{"Sections", "partInfos", "keyOf"}, n.Name.Name) {
					namesIn(n, listed)
				}
			case *ast.ValueSpec:
				if strings.HasSuffix(n.Names[0].Name, "Keys") {
					tables[n.Names[0].Name] = true
				}
				if n.Names[0].Name == "partKeys" {
					namesIn(n, listed)
				}
			}
			return true
		})
	}
	require.Greater(t, len(tables), 20)
	for name := range tables {
		require.True(t, listed[name], "the table %s is none of Sections", name)
	}
}

// namesIn gathers the names in a piece of a program.
func namesIn(piece ast.Node, into map[string]bool) {
	ast.Inspect(piece, func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok {
			into[id.Name] = true
		}
		return true
	})
}
