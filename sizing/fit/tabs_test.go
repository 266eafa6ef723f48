package fit

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/fit/shed"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// A tab takes one receptacle, and the wires on it go into it together by their areas added (the rule of
// NASA-STD-8739.4 19.11): 0.5 + 0.5 is red as 1 mm² is, 1 + 1 blue as 2 mm², 2 + 2 yellow as 4 mm²; no
// receptacle holds more than 6 mm² (IEC 61210), so 4 + 4 are advised on.
func TestWiresThatShareATab(t *testing.T) {
	for _, c := range []struct {
		size    string
		wires   int
		crimp   string
		advised bool
	}{
		{"1", 1, "red insulated", false},
		{"0.5", 2, "red insulated", false},
		{"1", 2, "blue insulated", false},
		{"2", 2, "yellow insulated", false},
		{"4", 2, "yellow insulated", true},
	} {
		s := shed.New()
		s.Part("K1", harness.Relay)
		s.Part("G", harness.Ground)
		for range c.wires {
			s.Wire(s.At("K1", "30"), s.At("G", ""), shed.MM2(c.size), 500)
		}
		got, problems := All(s.H, s.Ways, s.C)
		found := false
		for _, p := range problems {
			if p.Slug == "wires-share-tab" {
				found = true
				require.Equal(t, source.Advice, p.Level)
				require.Equal(t, []string{"K1.30"}, p.Subjects)
				require.Contains(t, p.Summary, "1A and 1B")
			}
		}
		require.Equal(t, c.advised, found, c)
		for i, two := range got.Ends {
			e := two[0]
			require.Equal(t, c.crimp, e.Crimp, c)
			require.Equal(t, i > 0 && !c.advised, e.Second, c)
			require.Equal(t, c.wires > 1 && !c.advised, len(e.With) > 0, c)
		}
		crimps := 0
		for _, l := range got.Lots {
			if l.Crimp == c.crimp && l.Gauge == shed.MM2(c.size) {
				crimps += l.Count
			}
		}
		rings := c.wires
		if c.crimp != "red insulated" && !c.advised && c.wires > 1 && c.size == "1" {
			rings = 0 // the rings on the ground are red, the receptacle is blue
		}
		tabs := 1
		if c.advised {
			tabs = c.wires
		}
		if c.size == "2" {
			rings = 0 // blue ones
		}
		require.Equal(t, tabs+rings, crimps, c)
	}
}

// A sleeve that the part's description names is obeyed: where it is not the one for both wires, they are advised on.
func TestASharedTabObeysTheSleeve(t *testing.T) {
	for size, shared := range map[string]bool{"0.5": true, "1": false} {
		s := shed.New()
		s.Part("K1", harness.Relay)
		s.Part("G", harness.Ground)
		s.H.PartOf(s.At("K1", "30")).Sleeve = "red"
		for range 2 {
			s.Wire(s.At("K1", "30"), s.At("G", ""), shed.MM2(size), 500)
		}
		got, _ := All(s.H, s.Ways, s.C)
		require.Equal(t, shared, got.Ends[1][0].Second, size)
	}
	require.Equal(t, unit.SquareMillimetre(0), (&fitter{}).together(nil))
}
