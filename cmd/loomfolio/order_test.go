package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const module = "example.com/loomfolio/"

// order is the house from the ground up: a package may import only packages
// that stand above it in this list (tests are free). After the colon stand the
// third-party modules that it alone may use, or shares with others named so.
const order = `
sizing/source
sizing/folder
sizing/unit
sizing/forest
sizing/ladder
sizing/rating
sizing/harness
sizing/harness/kind
sizing/loose
sizing/route
sizing/colour/spread
sizing/colour/sight
sizing/colour/fewest
sizing/colour/convention
sizing/colour
sizing/record
sizing/describe/read:     gopkg.in/yaml.v3 golang.org/x/text
sizing/describe/refuse:   golang.org/x/text
sizing/describe
sizing/describe/tidy
sizing/handed/grid:       golang.org/x/text
sizing/handed/guess
sizing/handed/spelt
sizing/handed/column
sizing/handed
sizing/circuit
sizing/check/say
sizing/check/practice
sizing/check/part
sizing/check/pack
sizing/check/systems
sizing/check/state
sizing/check/side
sizing/check
sizing/variant
sizing/picture
sizing/network
sizing/network/spicecheck: github.com/stretchr/testify
sizing/joint
sizing/fit/packing
sizing/fit/kinds
sizing/fit/cutting
sizing/heat
sizing/polarity
sizing/choose/copper
sizing/flow
sizing/choose/chosen
sizing/choose/shelf
sizing/choose/trial
sizing/choose/demand
sizing/choose/ampacity
sizing/choose/protect
sizing/choose
sizing/choose/bought
sizing/choose/bought/fuses
sizing/choose/reason
sizing/choose/spare
sizing/choose/finding
sizing/choose/misuse
sizing/choose/rig:         github.com/stretchr/testify
sizing/proof
sizing/testplan/point
sizing/fault/probe
sizing/testplan/tolerance
sizing/testplan/meter
sizing/fault/outage
sizing/fault/live
sizing/fault/sneak/kick
sizing/fault/sneak
sizing/purchase
sizing/fit/fitted
sizing/fit/shed
sizing/fit/marker
sizing/fit/reel
sizing/fit/buying
sizing/result
sizing/fault/way
sizing/testplan/dead
sizing/testplan/power
sizing/testplan
sizing/fault/cause
sizing/fault/odds
sizing/fault/bench
sizing/fault
sizing/alteration
sizing/fault/tree
sizing/fault/diagnosis
sizing/asfound
sizing/change
sizing/figures
sizing/fit
sizing/fit/cost
sizing/purchase/plan
sizing/accept
sizing/rules
sizing
layout/sheet
layout/typeface:          golang.org/x/image golang.org/x/text github.com/go-fonts/dejavu
layout/meter
layout/caution
layout/table
layout/frame
layout/symbol
layout/diagram/private:   github.com/tetratelabs/wazero golang.org/x/sys
layout/diagram/dot:       github.com/goccy/go-graphviz
layout/diagram/track
layout/diagram/chart
layout/diagram
layout/page
layout/cause
layout/drawing
layout/glance
layout/feeds
layout/cover/outline
layout/fused
layout/cover
layout/guide
layout/fusemap
layout/quick
layout/faces
layout/power
layout/bench
layout/cutlist/tradeoff
layout/cutlist
layout/proving
layout/asfound
layout/label
layout/loom/plane
layout/loom/placing
layout/loom/branch
layout/loom/laid
layout/loom/board
layout/loom
layout/trouble
layout/index
layout
render/vector
render/pdf
render:                   github.com/jung-kurt/gofpdf
samples
samples/adversary
samples/grown
samples/worked:           github.com/stretchr/testify
samples/toy:              github.com/stretchr/testify
layout/loom/rig:          github.com/stretchr/testify
cmd/loomfolio/disk:        github.com/gofrs/flock
cmd/loomfolio/explain
cmd/loomfolio/diagnose
cmd/loomfolio/work
cmd/loomfolio
`

type rule struct {
	rank  int
	other []string
}

func rules() map[string]rule {
	out := map[string]rule{}
	for i, line := range strings.Split(strings.TrimSpace(order), "\n") {
		name, others, _ := strings.Cut(line, ":")
		out[name] = rule{i, strings.Fields(others)}
	}
	return out
}

// imports gives what each package of the project imports outside its tests.
func imports(t *testing.T) map[string][]string {
	root := filepath.Join("..", "..")
	out := map[string][]string{}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (d.Name() == "testdata" || (strings.HasPrefix(d.Name(), ".") && path != root)) {
			return filepath.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		dir, _ := filepath.Rel(root, filepath.Dir(path))
		pkg := filepath.ToSlash(dir)
		out[pkg] = append(out[pkg], "")
		for _, spec := range file.Imports {
			out[pkg] = append(out[pkg], strings.Trim(spec.Path.Value, `"`))
		}
		return nil
	})
	require.NoError(t, err)
	return out
}

func TestImportsRunOneWay(t *testing.T) {
	all := rules()
	for pkg, list := range imports(t) {
		own, known := all[pkg]
		require.Truef(t, known, "package %s has no place in the order", pkg)
		for _, path := range list {
			if ours, found := strings.CutPrefix(path, module); found {
				require.Lessf(t, all[ours].rank, own.rank, "%s may not import %s: it stands below it", pkg, ours)
				continue
			}
			if strings.Contains(path, ".") {
				allowed := slices.ContainsFunc(own.other, func(m string) bool { return strings.HasPrefix(path, m) })
				require.Truef(t, allowed, "%s may not import %s: it has another user", pkg, path)
			}
		}
	}
	for pkg := range all {
		require.DirExistsf(t, filepath.Join("..", "..", pkg), "the order names %s, and there is no such package", pkg)
	}
}

// engines compute or read; what comes out of them lies in packages of its own
// (sizing/result and those that it imports), which is all that sheets are made from.
var engines = []string{"sizing", "sizing/describe", "sizing/describe/read", "sizing/describe/refuse", "sizing/check", "sizing/check/part", "sizing/picture", "sizing/check/pack", "sizing/check/practice", "sizing/check/state", "sizing/choose", "sizing/choose/shelf", "sizing/choose/trial", "sizing/choose/demand", "sizing/choose/ampacity", "sizing/choose/protect", "sizing/choose/reason", "sizing/choose/finding", "sizing/fault", "sizing/fault/probe", "sizing/fault/tree", "sizing/fault/diagnosis", "sizing/fit", "sizing/fit/reel", "sizing/fit/buying", "sizing/circuit", "sizing/choose/copper", "sizing/heat"}

func TestSheetsImportNoEngine(t *testing.T) {
	for pkg, list := range imports(t) {
		if top, _, _ := strings.Cut(pkg, "/"); top != "layout" && top != "render" {
			continue
		}
		for _, path := range list {
			require.NotContainsf(t, engines, strings.TrimPrefix(path, module), "%s draws what was computed, and may not import what computes it", pkg)
		}
	}
	for _, pkg := range engines {
		require.DirExists(t, filepath.Join("..", "..", pkg))
	}
}

// rooms lay a kind or two of sheets each; what several need stands below them.
var rooms = []string{"layout/cover", "layout/guide", "layout/fusemap", "layout/faces", "layout/power", "layout/bench", "layout/cutlist", "layout/label", "layout/loom", "layout/loom/board", "layout/trouble"}

func TestRoomsStandApart(t *testing.T) {
	all := imports(t)
	for _, room := range rooms {
		require.NotEmpty(t, all[room], room)
		for _, path := range all[room] {
			require.NotContainsf(t, rooms, strings.TrimPrefix(path, module), "%s lays sheets of its own, and may not import another that does", room)
		}
	}
}

func TestTopLevelIsFixed(t *testing.T) {
	fixed := strings.Fields("cmd layout render sizing samples go.mod go.sum README.md DEVELOPERS.md LICENSE")
	entries, err := os.ReadDir(filepath.Join("..", ".."))
	require.NoError(t, err)
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") {
			require.Contains(t, fixed, e.Name())
		}
	}
}
