package fit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/fit/shed"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/route"
	"example.com/loomfolio/sizing/unit"
)

// Seven wires of 2 mm make 6.00 mm (best known packings); a bundle of 12 mm bends
// in no less than 72 mm, 120 mm for long life (NASA-STD-8739.4 7.3.21).
func TestBundleBendAndHole(t *testing.T) {
	s := looms(7, 2)
	out, _ := All(s.H, s.Ways, s.C)
	r := out.Runs[0]
	require.InDelta(t, 6, float64(r.Diameter), 1e-9)
	require.Equal(t, unit.Millimetre(40), r.BendLeast, "36 mm, in steps of 5")
	require.Len(t, r.Section, 7)
	require.GreaterOrEqual(t, float64(r.Hole), float64(r.Diameter), "the bundle itself passes")

	thick := looms(1, 12)
	out, _ = All(thick.H, thick.Ways, thick.C)
	require.Equal(t, unit.Millimetre(75), out.Runs[0].BendLeast, "72 mm, in steps of 5")
	require.Equal(t, unit.Millimetre(120), out.Runs[0].BendLong)
}

// Rings on M8 at one end, tabs at the other: the loom is drawn through from the
// tabs' side, and a housing stays open until then. That a ring is twice its stud wide and a contact 1 mm more
// than its wire is common practice, no source.
func TestHoleForTheFinishedEnd(t *testing.T) {
	s := looms(2, 2)
	for i := range s.H.Parts {
		switch p := &s.H.Parts[i]; p.Ref {
		case "A":
			p.Stud = "M8"
		case "B":
			p.Kind, p.Family = harness.Module, "2.8 series"
		}
	}
	out, _ := All(s.H, s.Ways, s.C)
	r := out.Runs[0]
	require.Equal(t, s.H.Runs[0].To, r.PassFrom)
	require.Equal(t, []harness.PartID{s.Parts["B"]}, r.Open)
	require.Equal(t, unit.Millimetre(5), r.Hole, "2 mm beside a contact of 3")
}

// A splice that is made on the bench goes through the hole with the wires behind it: the
// receptacle of one beside the other, 6.3 and 1.7 mm wide (common practice, no source).
func TestHoleForASplice(t *testing.T) {
	s := shed.New()
	s.H.Places = []harness.Place{{ID: 0, Key: "a", Name: "engine bay"}, {ID: 1, Key: "b", Name: "dash"}}
	s.H.Runs = []harness.Run{{ID: 0, From: 0, To: 1, Length: 900}}
	s.Part("BAT", harness.Battery)
	s.Part("S1", harness.Splice).Place = 1
	s.Part("L1", harness.Lamp)
	s.Part("L2", harness.Lamp)
	w := s.Wire(s.At("BAT", "+"), s.At("S1", ""), shed.MM2("1"), 1000)
	s.Ways[w].Shares, s.Ways[w].Places = []route.Share{{Run: 0, Length: 900}}, []harness.PlaceID{0, 1}
	s.Wire(s.At("S1", ""), s.At("L1", "+"), shed.MM2("1"), 200)
	s.Wire(s.At("S1", ""), s.At("L2", "+"), shed.MM2("1"), 200)
	for i := range s.C.Wires {
		s.C.Wires[i].Diameter = 2
	}
	out, _ := All(s.H, s.Ways, s.C)
	require.Equal(t, unit.Millimetre(10), out.Runs[0].Hole, "8 mm beside a wire of 2")
	require.Equal(t, harness.PlaceID(1), out.Runs[0].PassFrom, "the battery's ring is twice its stud wide")

	s.Ways[1].Shares, s.Ways[2].Shares = s.Ways[0].Shares, s.Ways[0].Shares
	out, _ = All(s.H, s.Ways, s.C)
	barrel := 1.35*math.Sqrt(3.309/0.75*4/math.Pi) + 1 // 12 AWG holds the three
	require.InDelta(t, math.Ceil(barrel+3+float64(out.Runs[0].Diameter)*math.Sqrt(2./3)), float64(out.Runs[0].Hole), 0, "nothing hangs behind it: its tube beside two wires")
}
