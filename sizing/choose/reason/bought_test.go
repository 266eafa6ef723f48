package reason_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/choose"
	"example.com/loomfolio/sizing/choose/bought"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/choose/reason"
	"example.com/loomfolio/sizing/choose/rig"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/polarity"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// few settles on the fewest sizes that serve all wires.
func few(t *testing.T, ways []route.Way, s *choose.Settled) *choose.Settled {
	m := bought.Of(s)
	a, err := choose.Again(ways, s, m.Plan(m.Curve(nil)[0]))
	require.NoError(t, err)
	return a
}

func sample(t *testing.T, of samples.Sample) (*choose.Settled, []route.Way) {
	d, _ := describe.Parse(of.Name+".yaml", of.Text)
	h, _ := check.Check(d)
	h, _ = polarity.Mend(h)
	ways, _ := route.Find(h)
	s, err := choose.Settle(h, ways)
	require.NoError(t, err)
	return s, ways
}

// Each wire that is bought thicker says its own least size, what decided that, and what it is
// bought with; what it wants by each rule stays what it was. A thinner neighbour breaks a rule by
// its figures, or would do.
func TestOwnLeastBesideWhatIsBought(t *testing.T) {
	for _, of := range samples.List() {
		s, ways := sample(t, of)
		own, now := reason.Of(s), reason.Bought(s, few(t, ways, s))
		thicker := 0
		for w := range now.Wires {
			was, is := &own.Wires[w], &now.Wires[w]
			require.Equal(t, was.Wants, is.Wants)
			require.NotEmpty(t, is.Reason)
			wrongSide(t, is.Below)
			if is.Gauge == was.Gauge {
				require.False(t, is.Least.Given())
				require.Empty(t, is.Bought)
				continue
			}
			thicker++
			require.Greater(t, is.Area, was.Area)
			require.Equal(t, was.Gauge, is.Least)
			require.Contains(t, is.Bought, is.Gauge.String())
			require.True(t, strings.HasPrefix(is.Reason, was.Reason+"; bought as "+is.Gauge.String()), is.Reason)
		}
		require.Positive(t, thicker, of.Name)
		require.LessOrEqual(t, now.CopperBound, own.CopperMass)
		require.Greater(t, now.CopperMass, own.CopperMass)
	}
}

func wrongSide(t *testing.T, n chosen.Neighbour) {
	for _, f := range n.Fails {
		if f.Rule == "drop" {
			require.Greater(t, f.Has, f.Limit, f.Text)
		} else if f.Rule != "series" {
			require.Less(t, f.Has, f.Limit, f.Text)
		}
	}
}

// Where everything may be bought, what is said is what is said of the least sizes.
func TestNothingBoughtThickerIsSaidAsEver(t *testing.T) {
	for _, of := range samples.List()[:1] {
		s, ways := sample(t, of)
		a, err := choose.Again(ways, s, choose.Plan{})
		require.NoError(t, err)
		own, now := reason.Of(s), reason.Bought(s, a)
		for w := range own.Wires {
			require.Equal(t, own.Wires[w].Reason, now.Wires[w].Reason)
			require.Equal(t, own.Wires[w].Below.Size, now.Wires[w].Below.Size)
			require.Len(t, now.Wires[w].Below.Fails, len(own.Wires[w].Below.Fails))
		}
	}
}

// Figures are those of the reasons, without them.
func TestFiguresAreThoseOfTheReasons(t *testing.T) {
	s := rig.Charged().Settled(t)
	all, bare := reason.Of(s), reason.Figures(s)
	for w := range bare.Wires {
		require.Equal(t, all.Wires[w].Gauge, bare.Wires[w].Gauge)
		require.Equal(t, all.Wires[w].Amps, bare.Wires[w].Amps)
		require.Equal(t, all.Wires[w].Wants.Heat, bare.Wires[w].Wants.Heat)
		require.Empty(t, bare.Wires[w].Reason)
	}
	require.Equal(t, all.Fuses, bare.Fuses)
	require.Equal(t, all.Loads, bare.Loads)
}

// A fan of 7 A whose wires are to be bought in 3 mm²: the words.
func TestWordsOfWhatIsBought(t *testing.T) {
	b := rig.Fan(unit.Metric, 7, 2000)
	s := b.Settled(t)
	plan := choose.Plan{Sizes: map[string][]unit.Gauge{s.Keys[0]: {{System: unit.Metric, Size: "3"}, {System: unit.Metric, Size: "10"}}}}
	a, err := choose.Again(b.Ways, s, plan)
	require.NoError(t, err)
	c := reason.Bought(s, a)
	w := b.WireOf(t, c, "1C")
	require.Equal(t, "3", w.Gauge.Size)
	require.True(t, w.Least.Given())
	require.Equal(t, "bought with the 3 mm² of 3 other wires", w.Bought)
	require.Contains(t, w.Reason, "; bought as 3 mm²")
}
