package main

import (
	"embed"
	"errors"
	"flag"
	"fmt"
	"runtime/debug"
	"strings"
)

//go:embed licences
var licences embed.FS

// used is what the program has in it of others: fonts and libraries.
type used struct {
	what    string
	modules []string // the Go modules that it comes from
	licence string
	text    string // its file among the licences
}

// notice lists what the program is built with. A test holds it against the build.
var notice = []used{
	{"Go's library, text and images", []string{"golang.org/x/image", "golang.org/x/sys", "golang.org/x/text"}, "BSD, 3 clauses", "go"},
	{"Go Regular and Go Bold (fonts)", nil, "BSD, 3 clauses", "go-fonts"},
	{"DejaVu Sans Condensed (fonts)", []string{"github.com/go-fonts/dejavu"}, "Bitstream Vera and public domain", "dejavu"},
	{"gofpdf, which draws the PDF", []string{"github.com/jung-kurt/gofpdf"}, "MIT", "gofpdf"},
	{"go-graphviz, which numbers columns", []string{"github.com/goccy/go-graphviz"}, "MIT", "go-graphviz"},
	{"Graphviz, inside go-graphviz", nil, "Eclipse Public License 1.0", "graphviz"},
	{"Expat, inside go-graphviz", nil, "MIT", "expat"},
	{"wazero, which runs Graphviz", []string{"github.com/tetratelabs/wazero"}, "Apache 2.0", "wazero"},
	{"gg, behind go-graphviz", []string{"github.com/fogleman/gg"}, "MIT", "gg"},
	{"freetype, behind go-graphviz", []string{"github.com/golang/freetype"}, "FreeType Project License", "freetype"},
	{"imaging, behind go-graphviz", []string{"github.com/disintegration/imaging"}, "MIT", "imaging"},
	{"go-findfont, behind go-graphviz", []string{"github.com/flopp/go-findfont"}, "MIT", "go-findfont"},
	{"yaml, which reads descriptions", []string{"gopkg.in/yaml.v3"}, "MIT and Apache 2.0", "yaml"},
	{"flock, which locks files", []string{"github.com/gofrs/flock"}, "BSD, 3 clauses", "flock"},
}

func version(c *call) int {
	var texts bool
	args, err := c.parse("version", func(f *flag.FlagSet) { f.BoolVar(&texts, "licences", false, "") })
	if err == nil && len(args) > 0 {
		err = errors.New("version takes no name")
	}
	if err != nil {
		return c.wrong("version", err)
	}
	fmt.Fprintln(c.out, built(debug.ReadBuildInfo()))
	if texts {
		return c.licences()
	}
	return exitGood
}

// built says which version this is, from which commit, and built by which Go.
func built(info *debug.BuildInfo, known bool) string {
	number, commit, by := "unknown", "unknown", "unknown"
	if known {
		number, by = info.Main.Version, info.GoVersion
		for _, s := range info.Settings {
			switch {
			case s.Key == "vcs.revision":
				commit = s.Value + strings.TrimPrefix(commit, "unknown")
			case s.Key == "vcs.modified" && s.Value == "true":
				commit += " with changes"
			}
		}
	}
	return fmt.Sprintf("loomfolio %s\ncommit %s\n%s", strings.Trim(number, "()"), commit, by)
}

// licences prints whose work is in the program, and on what terms.
func (c *call) licences() int {
	fmt.Fprint(c.out, "\nloomfolio is under the Apache License 2.0. It is built with:\n\n")
	for _, u := range notice {
		fmt.Fprintf(c.out, "  %-36s %s\n", u.what, u.licence)
	}
	for _, u := range notice {
		text, err := licences.ReadFile("licences/" + u.text + ".txt")
		if err != nil {
			return c.unusable(err, "")
		}
		fmt.Fprintf(c.out, "\n%s\n%s\n%s\n\n%s\n", strings.Repeat("=", 78), u.what, strings.Repeat("=", 78), strings.TrimSpace(string(text)))
	}
	return exitGood
}
