package rating

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/unit"
)

func ranged(t *testing.T, fitting, name string) Range {
	for _, r := range Ranges(fitting) {
		if r.Metric == name || r.AWG == name {
			return r
		}
	}
	require.Fail(t, "no such range", name)
	return Range{}
}

// Ten that slip, do not close or do not go in, and ten that hold. Areas of gauges are ASTM
// B258's; outsides are those of ISO 6722 (thin wall 1.6, 2.1, 2.4 and 4.3, thick wall 2.7 mm for 1 mm²).
func TestRangesHold(t *testing.T) {
	for _, c := range []struct {
		fitting, name string
		area          unit.SquareMillimetre
		over          unit.Millimetre
		holds         bool
	}{
		{Contacts, "0.5-1 mm²", 0.35, 1.4, false},         // loose in the barrel
		{Contacts, "0.5-1 mm²", 1.5, 2.4, false},          // does not close
		{Contacts, "0.5-1 mm²", 1, 2.7, false},            // thick wall: the grip does not close
		{Contacts, "1-2.5 mm²", 0.75, 1.9, false},         // loose
		{Contacts, "4-6 mm²", 3, 3.4, false},              // loose
		{Contacts, "4-6 mm²", 10, 6, false},               // too thick
		{Barrels, "1.5-2.5 mm² (16-14 AWG)", 1, 0, false}, // slips
		{Barrels, "1.5-2.5 mm² (16-14 AWG)", 3, 0, false}, // does not go in
		{Barrels, "2.5-6 mm² (12-10 AWG)", 2, 0, false},   // slips
		{Barrels, "10 mm² (8 AWG)", 6, 0, false},          // slips
		{Contacts, "0.2-0.5 mm²", 0.35, 1.4, true},
		{Contacts, "0.5-1 mm²", 0.5, 1.6, true},
		{Contacts, "0.5-1 mm²", 1, 2.1, true},
		{Contacts, "16-14 AWG", 1.31, 2.4, true}, // 16 gauge
		{Contacts, "16-14 AWG", 2.08, 2.8, true}, // 14 gauge
		{Contacts, "4-6 mm²", 6, 4.3, true},
		{Barrels, "0.5-1.5 mm² (22-16 AWG)", 1.5, 0, true},
		{Barrels, "1.5-2.5 mm² (16-14 AWG)", 1.5, 0, true},
		{Barrels, "2.5-6 mm² (12-10 AWG)", 6.5, 0, true},
		{Barrels, "10 mm² (8 AWG)", 10, 0, true},
	} {
		require.Equal(t, c.holds, ranged(t, c.fitting, c.name).Holds(c.area, c.over), "%s %s: %v", c.fitting, c.name, c.area)
	}
}

// Ranges of barrels follow each other without a gap, from the least to 4/0.
func TestBarrelsLeaveNoGap(t *testing.T) {
	all := Ranges(Barrels)
	for i := 1; i < len(all); i++ {
		require.LessOrEqual(t, all[i].From, all[i-1].To, all[i].Metric)
		require.Less(t, all[i].From, all[i].To)
	}
	require.Greater(t, float64(all[len(all)-1].To), 107.2, "4/0, ASTM B258")
}

// What serves passes and grips with room to spare; the usual ones of NASA-STD-8739.4 9.8.1.
func TestTubesFor(t *testing.T) {
	for _, c := range []struct {
		largest, smallest unit.Millimetre
		has, hasNot       string
	}{
		{11, 8, "12/4 mm", "9/3 mm"},    // does not pass over the lug
		{11, 3.5, "12/3 mm", "12/4 mm"}, // does not grip the wire
		{2, 1.5, "3/1 mm", "6/2 mm"},    // the wire is looser than the tube
		{23, 7, "24/6 mm", "24/8 mm"},
	} {
		var got []string
		for _, s := range TubesFor(c.largest, c.smallest) {
			require.Greater(t, s.Supplied, c.largest)
			require.Less(t, s.Recovered, c.smallest)
			got = append(got, s.Bores(false))
		}
		require.Contains(t, got, c.has)
		require.NotContains(t, got, c.hasNot)
	}
	require.Empty(t, TubesFor(200, 1))
	require.NotEmpty(t, TubesFor(40, 13), "whose bores just equal the limits")
}

// 3 mm² lies below 12 gauge (3.31 mm², ASTM B258), and 16 gauge never goes in yellow.
func TestYellow(t *testing.T) {
	gauge := func(system unit.System, size string) Conductor {
		c, _ := ConductorOf(unit.Gauge{System: system, Size: size})
		return c
	}
	require.True(t, SleeveFits("yellow", gauge(unit.Metric, "3")))
	require.False(t, SleeveFits("yellow", gauge(unit.AWG, "16")))
	require.False(t, SleeveFits("yellow", gauge(unit.Metric, "2.5")))
	require.Equal(t, "2.5-6 mm2", Wide().Range)
}

// What each tool makes, and what none makes.
func TestToolFor(t *testing.T) {
	for _, c := range []struct {
		has   []string
		makes string
		area  unit.SquareMillimetre
		word  string
	}{
		{nil, "insulated", 1, "red-blue-yellow"},
		{nil, "lug", 35, "lugs"},
		{[]string{"red-blue-yellow"}, "lug", 35, ""},
		{[]string{"red-blue-yellow"}, "barrel", 2.5, "red-blue-yellow"},
		{[]string{"lugs"}, "barrel", 2.5, ""},
		{[]string{"lugs", "solder"}, "barrel", 2.5, "solder"},
		{[]string{"lugs"}, "barrel", 10, "lugs"},
		{[]string{"open-barrel"}, "insulated", 1, ""},
		{[]string{"open-barrel"}, "open barrel", 10, ""},
		{[]string{"red-blue-yellow", "lugs"}, "ferrule", 1, ""},
	} {
		got, ok := ToolFor(c.has, c.makes, c.area)
		require.Equal(t, c.word != "", ok, "%v %s %v", c.has, c.makes, c.area)
		require.Equal(t, c.word, got.Word)
	}
}
