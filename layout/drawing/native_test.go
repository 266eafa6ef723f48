//go:build unix

package drawing

import (
	"fmt"
	"math"
	"os/exec"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/diagram"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
)

// asDot writes a graph for Graphviz's own program: tiles of their size with a port at
// the height of each pin, wires from pin to pin.
func asDot(g diagram.Graph) string {
	var b strings.Builder
	b.WriteString("digraph g {rankdir=LR; splines=true; node [shape=plain];\n")
	for i, n := range g.Nodes {
		fmt.Fprintf(&b, "n%d [label=<%s>];\n", i, asTable(n))
	}
	for _, w := range g.Wires {
		fmt.Fprintf(&b, "n%d:%s -> n%d:%s;\n", w.From.Node, port(g, w.From), w.To.Node, port(g, w.To))
	}
	b.WriteString("}\n")
	return b.String()
}

// points is a length as Graphviz counts it.
func points(mm float64) int { return int(math.Round(mm * 72 / 25.4)) }

func port(g diagram.Graph, e diagram.End) string {
	p := g.Nodes[e.Node].Pins[e.Pin]
	return fmt.Sprintf("p%d:%s", points(p.Y), map[diagram.Side]string{diagram.West: "w", diagram.East: "e"}[p.Side])
}

// asTable is a tile without words as a table of one column, a row for each pin's height.
func asTable(n diagram.Node) string {
	var heights []int
	for _, p := range n.Pins {
		heights = append(heights, points(p.Y))
	}
	slices.Sort(heights)
	var s strings.Builder
	row := func(high int, port string) {
		if high > 0 {
			fmt.Fprintf(&s, `<TR><TD%s FIXEDSIZE="TRUE" WIDTH="%d" HEIGHT="%d"></TD></TR>`, port, points(n.W), high)
		}
	}
	s.WriteString(`<TABLE BORDER="0" CELLBORDER="0" CELLSPACING="0" CELLPADDING="0">`)
	at := 0
	for _, h := range slices.Compact(heights) {
		row(h-1-at, "")
		row(2, fmt.Sprintf(` PORT="p%d"`, h))
		at = h + 1
	}
	row(points(n.H)-at, "")
	return s.String() + "</TABLE>"
}

// native is the median processor time that dot takes for graphs, of several runs of
// one process each.
func native(tb testing.TB, source string) time.Duration {
	var all []time.Duration
	for range 9 {
		cmd := exec.Command("dot", "-Tplain")
		cmd.Stdin = strings.NewReader(source)
		require.NoError(tb, cmd.Run())
		all = append(all, cmd.ProcessState.UserTime()+cmd.ProcessState.SystemTime())
	}
	slices.Sort(all)
	return all[len(all)/2]
}

// spent is the processor time of this process so far.
func spent(tb testing.TB) time.Duration {
	var u syscall.Rusage
	require.NoError(tb, syscall.Getrusage(syscall.RUSAGE_SELF, &u))
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// BenchmarkAgainstDot places and routes every strip of the kestrel and says how much
// processor time that takes as a multiple of what dot needs for the same graphs with
// splines, its start apart. It needs Graphviz's own program.
func BenchmarkAgainstDot(b *testing.B) {
	if _, err := exec.LookPath("dot"); err != nil {
		b.Skip("dot is not installed")
	}
	at := slices.IndexFunc(samples.List(), func(s samples.Sample) bool { return s.Name == "kestrel" })
	h, r := worked.Out(b, samples.List()[at])
	s := newSheets(h, r, body(b, "A4").Body)
	var source strings.Builder
	strips := allStrips(s.jobs())
	for _, st := range strips {
		source.WriteString(asDot(st.graph.Graph))
	}
	const copies = 10
	dot := (native(b, strings.Repeat(source.String(), copies)) - native(b, "digraph g {}\n")) / copies
	area := s.stripArea()
	runtime.GC()
	began := spent(b)
	for b.Loop() {
		for _, st := range strips {
			columns, err := diagram.Columns(st.graph.Graph)
			require.NoError(b, err)
			diagram.Lay(st.graph.Graph, st.form.rules(area, false), columns)
		}
	}
	own := float64(spent(b)-began) / float64(b.N)
	b.ReportMetric(own/1e6, "ms/own")
	b.ReportMetric(float64(dot)/1e6, "ms/dot")
	b.ReportMetric(own/float64(dot), "×dot")
}

// BenchmarkWorstSheet lays out the strip that takes longest, of all samples.
func BenchmarkWorstSheet(b *testing.B) {
	worst := time.Duration(0)
	for b.Loop() {
		for _, sample := range samples.List() {
			h, r := worked.Out(b, sample)
			s := newSheets(h, r, body(b, "A4").Body)
			for _, st := range allStrips(s.jobs()) {
				began := time.Now()
				columns, _ := diagram.Columns(st.graph.Graph)
				diagram.Lay(st.graph.Graph, st.form.rules(s.stripArea(), false), columns)
				worst = max(worst, time.Since(began))
			}
		}
	}
	b.ReportMetric(float64(worst.Microseconds())/1000, "ms/worst")
}
