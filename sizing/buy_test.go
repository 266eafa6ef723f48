package sizing_test

import (
	"fmt"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/source"
)

// The sections of testdata/buy.txt are judged as those of testdata/trust, bought clear and bought few;
// lines of their own hold where few is bought:
//
//	#! few: area|fuse NAME at least|most NUMBER    of a wire in mm², of a fuse in A
//	#! apart WIRE WIRE                            their colours are not one
//	#! colour WIRE LETTERS                        this and no other
//	#! size WIRE SIZE                             this and no other
//	#! same size WIRE WIRE
//	#! not thinner WIRE WIRE                      the first than the second
//	#! insulation WIRE FAMILY
//	#! system SYSTEM                              all sizes are of it
//	#! colours within LETTERS, LETTERS …          nothing else is cut
//	#! reels at most NUMBER                       without the cores of cables
//	#! sizes at most NUMBER

func TestBoughtFew(t *testing.T) {
	for _, s := range boughtIn(t) {
		t.Run(s.name, func(t *testing.T) {
			t.Parallel()
			var wrong []string
			for _, as := range worked.Bought() {
				for _, w := range s.wrong(t, as) {
					wrong = append(wrong, as+": "+w)
				}
			}
			require.Empty(t, wrong, strings.Join(wrong, "\n"))
		})
	}
}

// buying is one section.
type buying struct {
	name, text string
	x          expectation // those of buying alone are unrecognised
}

func boughtIn(t *testing.T) []buying {
	data, err := os.ReadFile("testdata/buy.txt")
	require.NoError(t, err)
	var out []buying
	for _, section := range strings.Split(string(data), "\n== ")[1:] {
		name, body, _ := strings.Cut(section, "\n")
		out = append(out, buying{name, "loomfolio: 1\ntitle: \"" + strings.ReplaceAll(name, "-", " ") + "\"\n" + body, expected(t, body)})
	}
	require.Greater(t, len(out), 20)
	return out
}

// wrong lists what does not hold of a section.
func (s *buying) wrong(t *testing.T, as string) []string {
	h, r, found := workedOut(t, s.text, as)
	out := s.unsaid(t, found)
	switch {
	case s.x.refused != (r == nil):
		return append(out, "refused: "+listed(found))
	case r == nil:
		return out
	}
	for _, b := range boundsOf(s.x.bounds, as) {
		if got := measured(t, h, r, b.what, b.name); b.least && got < b.limit || !b.least && got > b.limit {
			out = append(out, fmt.Sprintf("%s %s is %g", b.what, b.name, got))
		}
	}
	out = append(out, obeyed(h, r)...)
	if as != "few" {
		return out
	}
	out = append(out, unlisted(h, r)...)
	for _, line := range s.x.unrecognised {
		out = append(out, (&asked{t, h, r, line}).wrong()...)
	}
	return out
}

// unsaid compares what is said with what is to be said.
func (s *buying) unsaid(t *testing.T, found source.Problems) []string {
	var out []string
	graver := 0
	for _, want := range s.x.says {
		if want.level != "advice" {
			graver++
		}
		if !slices.ContainsFunc(found, func(p source.Problem) bool {
			return p.Slug == want.slug && p.Level.String() == want.level && p.Span.Start == placeOf(t, s.text, want.at) &&
				!slices.ContainsFunc(want.words, func(w string) bool { return !strings.Contains(p.Summary+"; "+p.Detail, w) })
		}) {
			out = append(out, fmt.Sprintf("no %s %s at %q", want.level, want.slug, want.at))
		}
	}
	if len(grave(found)) != graver {
		out = append(out, fmt.Sprintf("%d errors and warnings instead of %d: %s", len(grave(found)), graver, listed(grave(found))))
	}
	for _, p := range found {
		if slices.Contains(s.x.never, p.Slug) {
			out = append(out, "never "+p.Slug)
		}
	}
	return out
}

// obeyed lists the wires whose given size or colour was not kept to.
func obeyed(h *harness.Harness, r *result.Result) []string {
	var out []string
	for i := range h.Wires {
		w := &h.Wires[i]
		if w.Gauge.Given() && r.Wires[i].Gauge != w.Gauge {
			out = append(out, fmt.Sprintf("%s is given as %s and became %s", w.Name, w.Gauge, r.Wires[i].Gauge))
		}
		if w.Base != "" && (r.Colours[i].Pair.Base != w.Base || r.Colours[i].Pair.Tracer != w.Tracer) {
			out = append(out, fmt.Sprintf("%s is given as %s and became %s", w.Name, w.Base, r.Colours[i].Pair))
		}
	}
	return out
}

// sizeTellsApart is the copper of two wires that nobody mistakes for each other.
const sizeTellsApart = 2.5

// unlisted gives the pairs of wires of two nets that look the same at a part and are not
// listed as told apart by their number sleeves. Of panels, plugs and modules only neighbours
// count, and two grounds are never mistaken for each other to any harm.
func unlisted(h *harness.Harness, r *result.Result) []string {
	var out []string
	nets := netsOf(h)
	for i := range h.Wires {
		for j := range i {
			if nets.Root(int(h.Wires[i].From)) == nets.Root(int(h.Wires[j].From)) || !sameLook(r, i, j) || r.Colours[i].Pair.Base == h.Practice.GroundColour {
				continue
			}
			if p := meeting(h, i, j); p != "" && !namedAPair(r, nets, h, i, j) {
				out = append(out, fmt.Sprintf("%s and %s are both %s at %s", h.Wires[j].Name, h.Wires[i].Name, r.Colours[i].Pair, p))
			}
		}
	}
	return out
}

func sameLook(r *result.Result, i, j int) bool {
	a, b := float64(r.Wires[i].Area), float64(r.Wires[j].Area)
	return r.Colours[i].Pair == r.Colours[j].Pair && max(a, b) < sizeTellsApart*min(a, b)
}

// meeting names the part at which two wires must look different, "" for none.
func meeting(h *harness.Harness, i, j int) string {
	for _, a := range []harness.TerminalID{h.Wires[i].From, h.Wires[i].To} {
		for _, b := range []harness.TerminalID{h.Wires[j].From, h.Wires[j].To} {
			p := h.PartOf(a)
			if p == nil || p != h.PartOf(b) {
				continue
			}
			if p.Kind != harness.FusePanel && p.Kind != harness.Connector && p.Kind != harness.Module || neighbours(p, h.Terminals[a].Name, h.Terminals[b].Name) {
				return p.Ref
			}
		}
	}
	return ""
}

// neighbours tells whether two positions lie within two of each other: in one row of a panel
// whose rows are described, else by their numbers.
func neighbours(p *harness.Part, a, b string) bool {
	a, _, _ = strings.Cut(a, ".")
	b, _, _ = strings.Cut(b, ".")
	if p.Panel != nil && len(p.Panel.Layout) > 1 {
		return slices.ContainsFunc(p.Panel.Layout, func(row []string) bool {
			i, j := slices.Index(row, a), slices.Index(row, b)
			return i >= 0 && j >= 0 && max(i, j)-min(i, j) <= 2
		})
	}
	i, err := strconv.Atoi(a)
	j, other := strconv.Atoi(b)
	return err == nil && other == nil && i > 0 && max(i, j)-min(i, j) <= 2
}

func namedAPair(r *result.Result, nets forest.Forest, h *harness.Harness, i, j int) bool {
	root := func(w harness.WireID) int { return nets.Root(int(h.Wires[w].From)) }
	a, b := root(harness.WireID(i)), root(harness.WireID(j))
	for _, p := range r.Purchase.Pairs {
		if root(p.A) == a && root(p.B) == b || root(p.A) == b && root(p.B) == a {
			return true
		}
	}
	return false
}

// netsOf joins what carries one colour: wires, splices, bars, grounds and mated cavities.
func netsOf(h *harness.Harness) forest.Forest {
	f := forest.New(len(h.Terminals))
	for i := range h.Wires {
		f.Join(int(h.Wires[i].From), int(h.Wires[i].To))
	}
	cavity := map[string]int{}
	for i := range h.Terminals {
		p := h.PartOf(harness.TerminalID(i))
		if p == nil {
			continue
		}
		key := ""
		switch p.Kind {
		case harness.Splice, harness.Bus, harness.Ground:
			key = p.Ref
		case harness.Connector:
			key = p.Ref + "." + h.Terminals[i].Cavity
		default:
			continue
		}
		if first, ok := cavity[key]; ok {
			f.Join(first, i)
		} else {
			cavity[key] = i
		}
	}
	return f
}

// asked is a line of a section's own.
type asked struct {
	t    *testing.T
	h    *harness.Harness
	r    *result.Result
	line string
}

var (
	fewLine    = regexp.MustCompile(`^few: (area|fuse) (\S+) at (least|most) ([0-9.]+)$`)
	twoLine    = regexp.MustCompile(`^(apart|same size|not thinner) (\S+) (\S+)$`)
	oneLine    = regexp.MustCompile(`^(colour|size|insulation) (\S+) (.+)$`)
	allLine    = regexp.MustCompile(`^(system|colours within) (.+)$`)
	countLine  = regexp.MustCompile(`^(reels|sizes) at most ([0-9]+)$`)
	sizeFigure = 1e-9
)

// wrong lists what does not hold of a line.
func (a *asked) wrong() []string {
	var m []string
	ok := false
	switch {
	case match(fewLine, a.line, &m):
		limit, err := strconv.ParseFloat(m[4], 64)
		require.NoError(a.t, err)
		got := measured(a.t, a.h, a.r, m[1], m[2])
		ok = m[3] == "least" && got >= limit-sizeFigure || m[3] == "most" && got <= limit+sizeFigure
	case match(twoLine, a.line, &m):
		ok = a.two(m[1], int(wire(a.t, a.h, m[2])), int(wire(a.t, a.h, m[3])))
	case match(oneLine, a.line, &m):
		i := wire(a.t, a.h, m[2])
		ok = m[3] == map[string]string{"colour": a.r.Colours[i].Pair.String(), "size": a.r.Wires[i].Gauge.String(), "insulation": a.r.Wires[i].Insulation}[m[1]]
	case match(allLine, a.line, &m):
		ok = a.all(m[1], m[2])
	case match(countLine, a.line, &m):
		limit, err := strconv.Atoi(m[2])
		require.NoError(a.t, err)
		ok = a.count(m[1]) <= limit
	default:
		a.t.Fatalf("unrecognised: %s", a.line)
	}
	if ok {
		return nil
	}
	return []string{a.line + ", but:" + a.cut()}
}

func (a *asked) two(what string, i, j int) bool {
	switch what {
	case "apart":
		return !sameLook(a.r, i, j)
	case "same size":
		return a.r.Wires[i].Gauge == a.r.Wires[j].Gauge
	}
	return a.r.Wires[i].Area >= a.r.Wires[j].Area
}

func (a *asked) all(what, of string) bool {
	allowed := strings.Split(of, ", ")
	for i := range a.h.Wires {
		is := a.r.Colours[i].Pair.String()
		if what == "system" {
			is = map[bool]string{true: of}[strings.EqualFold(fmt.Sprint(a.r.Wires[i].Gauge.System), of)]
		}
		if !slices.Contains(allowed, is) {
			return false
		}
	}
	return true
}

// count is the number of reels, or of sizes on them.
func (a *asked) count(what string) int {
	sizes := map[string]bool{}
	for _, x := range a.r.Reels {
		sizes[x.Gauge.String()] = true
	}
	if what == "sizes" {
		return len(sizes)
	}
	return len(a.r.Reels)
}

// cut lists what every wire became.
func (a *asked) cut() string {
	out := ""
	for i := range a.h.Wires {
		out += fmt.Sprintf(" %s %s %s;", a.h.Wires[i].Name, a.r.Wires[i].Gauge, a.r.Colours[i].Pair)
	}
	return out
}
