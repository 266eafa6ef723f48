package fit

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/shed"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// bench lays wires of some sizes from a battery, a module and splices.
func bench(sizes ...string) *shed.Shed {
	s := shed.New()
	s.H.Practice.Buy = harness.AsFew()
	s.Part("B", harness.Battery)
	s.Part("X", harness.Connector)
	s.Part("K", harness.Relay)
	s.H.Places = []harness.Place{{Name: "nose"}, {Name: "tail"}}
	for i, size := range sizes {
		n := fmt.Sprint(i)
		s.Part("S"+n, harness.Splice)
		s.Part("G"+n, harness.Ground)
		s.Wire(s.At("B", "+"), s.At("S"+n, ""), shed.MM2(size), 1000)
		s.Wire(s.At("S"+n, ""), s.At("G"+n, ""), shed.MM2(size), 1000)
		if size != "10" && size != "35" {
			s.Wire(s.At("X", n+".in"), s.At("K", "86"), shed.MM2(size), 1000)
		}
	}
	return s
}

// count gives how many kinds of something there are among texts.
func count(texts ...[]string) int {
	seen := map[string]bool{}
	for _, list := range texts {
		for _, s := range list {
			if s != "" {
				seen[s] = true
			}
		}
	}
	return len(seen)
}

func texts(out fitted.Fitted) (contacts, barrels, tubes, lugs []string) {
	for _, two := range out.Ends {
		for _, e := range two {
			if e.Crimp == openBarrel {
				contacts = append(contacts, e.Range+e.Fitting)
			}
			if strings.HasSuffix(e.Crimp, "lug") {
				lugs = append(lugs, e.Fitting+e.Crimp+e.Size)
			}
			tubes = append(tubes, e.Shrink)
		}
	}
	for _, s := range out.Splices {
		barrels, tubes = append(barrels, s.Size), append(tubes, s.Shrink)
	}
	return contacts, barrels, tubes, lugs
}

// Few kinds, and each of them holds what is in it: counted against the same bench bought for
// the least of each.
func TestFewKindsThatHold(t *testing.T) {
	s := bench("0.5", "0.75", "1", "1.5", "2", "2.5", "4", "6", "10", "35")
	out, _ := All(s.H, s.Ways, s.C)
	contacts, barrels, tubes, lugs := texts(out)
	s.H.Practice.Buy = harness.Buy{For: "clear"}
	clear, _ := All(s.H, s.Ways, s.C)
	c0, b0, t0, _ := texts(clear)
	require.Equal(t, 3, count(contacts))
	require.Equal(t, 1, count(c0), "no range where few kinds are not asked for: sizes tell them apart")
	require.Less(t, count(barrels), count(b0))
	require.LessOrEqual(t, count(tubes), count(t0))
	for _, l := range lugs {
		require.NotContains(t, l, "battery lug")
	}
	holds(t, s, out)
}

// holds checks barrels, contacts and tubes against the tables.
func holds(t *testing.T, s *shed.Shed, out fitted.Fitted) {
	tubes := map[string]rating.Shrink{"": {}}
	for _, tube := range rating.Shrinks() {
		tubes[tube.Name(false)] = tube
	}
	for _, sp := range out.Splices {
		for _, r := range rating.Ranges(rating.Barrels) {
			if strings.HasSuffix(sp.Size, r.Metric) {
				require.True(t, r.Holds(sp.AreaSum, 0), "%s %v", sp.Size, sp.AreaSum)
			}
		}
	}
	for _, two := range out.Ends {
		for _, e := range two {
			w := s.C.Wires[e.Wire]
			for _, r := range rating.Ranges(rating.Contacts) {
				if e.Range == r.Metric {
					require.True(t, r.Holds(w.Area, w.Diameter), "%s %v", e.Range, w.Area)
				}
			}
			if e.Shrink != "" {
				tube := tubes[e.Shrink]
				require.GreaterOrEqual(t, tube.Supplied, max(barrelOver(w.Area), w.Diameter))
				require.LessOrEqual(t, tube.Recovered, w.Diameter)
			}
		}
	}
}

// A cover is never tighter than 25 % over its bundle (FAA AC 43.13-1B 11-249) nor wider than
// the limit, and what no kept bore serves keeps its own.
func TestFewCovers(t *testing.T) {
	f := &fitter{h: &harness.Harness{Practice: harness.Practice{Buy: harness.AsFew()}}}
	for i, d := range []unit.Millimetre{4.6, 5.4, 7.6, 9.3, 21, 2, 60} {
		f.h.Places = append(f.h.Places, harness.Place{})
		f.h.Runs = append(f.h.Runs, harness.Run{Length: 1000})
		own := unit.Millimetre(int(d*1.25 + 0.999))
		f.out.Runs = append(f.out.Runs, fitted.Run{Run: harness.RunID(i), Diameter: d, CoverName: "conduit", Cover: own})
	}
	f.fewCovers()
	var bores []unit.Millimetre
	for _, r := range f.out.Runs {
		bores = append(bores, r.Cover)
		require.GreaterOrEqual(t, float64(r.Cover), 1.25*float64(r.Diameter))
	}
	require.Equal(t, []unit.Millimetre{7, 7, 13, 13, 28, 3, 75}, bores, "2 mm in 4.5 mm would rattle, and 60 mm has no kept bore")
}

// The usual stud gives way to the next where rings and nuts for that are bought anyway; one
// that is given never does.
func TestFewStuds(t *testing.T) {
	s := shed.New()
	s.H.Practice.Buy = harness.AsFew()
	s.Part("G1", harness.Ground)
	s.Part("G2", harness.Ground).Stud = "M8"
	s.Part("K", harness.Relay)
	s.Wire(s.At("G1", ""), s.At("K", "85"), shed.MM2("1"), 1000)
	s.Wire(s.At("G2", ""), s.At("K", "86"), shed.MM2("1"), 1000)
	out, _ := All(s.H, s.Ways, s.C)
	require.Equal(t, "M8", out.Grounds[0].Stud)
	require.Contains(t, out.Grounds[0].StudWhy, "fewer kinds")
	s.H.Parts[0].Stud = "M6"
	out, _ = All(s.H, s.Ways, s.C)
	require.Equal(t, "M6", out.Grounds[0].Stud)
	s.H.Parts[0].Stud, s.H.Practice.Buy.For = "", "clear"
	out, _ = All(s.H, s.Ways, s.C)
	require.Equal(t, "M6", out.Grounds[0].Stud)
}

// With an open-barrel tool and no other, spades are rolled ones; what it does not make is said
// once, with a cure. A shop that names no tool is told nothing.
func TestToolsOfTheShop(t *testing.T) {
	for _, c := range []struct {
		tools   []string
		crimp   string // of the spade
		missing int
	}{
		{nil, "red insulated", 0},
		{[]string{"red-blue-yellow", "open-barrel", "lugs"}, "red insulated", 0},
		{[]string{"open-barrel", "lugs"}, openBarrel, 1}, // the splice
		{[]string{"open-barrel", "lugs", "solder"}, openBarrel, 0},
		{[]string{"red-blue-yellow", "open-barrel"}, "red insulated", 2}, // the lug, and the barrel of 35 mm²
		{[]string{"ferrules"}, "red insulated", 6},
	} {
		s := shed.New()
		s.H.Practice.Tools = c.tools
		s.Part("K", harness.Relay)
		s.Part("S", harness.Splice)
		s.Part("X", harness.Connector)
		s.Part("B", harness.Battery)
		s.Part("ST", harness.Splice)
		s.Wire(s.At("K", "85"), s.At("S", ""), shed.MM2("1"), 1000)
		s.Wire(s.At("K", "86"), s.At("X", "1.in"), shed.MM2("1"), 1000)
		s.Wire(s.At("B", "+"), s.At("ST", ""), shed.MM2("35"), 1000)
		out, problems := All(s.H, s.Ways, s.C)
		require.Equal(t, c.crimp, out.Ends[0][0].Crimp, "%v", c.tools)
		said := 0
		for _, p := range problems {
			if p.Slug == "tool-missing" {
				require.Zero(t, said, "said once")
				said = len(p.Subjects)
				require.NotEmpty(t, p.Detail)
			}
		}
		require.Equal(t, c.missing, said, "%v", c.tools)
	}
}

// A cover's end whose wires are a little too thin for a tube that is bought anyway gets tape
// under it: 7.3 mm in a tube that closes to 8 mm, not 6.9 mm, nor where its own tube is bought
// besides for another place.
func TestTapeUnderATube(t *testing.T) {
	tubes := rating.Shrinks()
	wide := slices.IndexFunc(tubes, func(s rating.Shrink) bool { return s.Supplied == 32 })
	for grips, want := range map[unit.Millimetre]bool{8.5: true, 7.3: true, 7.1: false, 6.9: false} {
		name, tape := "some", unit.Millimetre(0)
		p := tubeNeed{over: 16, grips: grips, long: 100, name: &name, tape: &tape}
		_, serves := p.served(tubes, true)[wide]
		require.Equal(t, want, serves, "%g mm", grips)
		p.tape = nil
		_, serves = p.served(tubes, true)[wide]
		require.Equal(t, grips > 8, serves, "nothing else is built up")
	}
	name, tape := "some", unit.Millimetre(0)
	p := tubeNeed{over: 16, grips: 7.3, name: &name, tape: &tape}
	p.take(tubes[wide], false)
	require.InDelta(t, 8.2, float64(tape), 1e-9)
}
