package marker

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/fit/shed"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// TestMarkersByTheWire: a face is half the way round, a printed tube lies flat at π/2
// times its bore, and what holds no capitals of 2 mm becomes a flag.
func TestMarkersByTheWire(t *testing.T) {
	for _, c := range []struct {
		wish string
		wire unit.Millimetre
		as   string
		face float64
		tube string
	}{
		{fitted.Wrap, 3, fitted.Wrap, 4.712, "1/8"}, {fitted.Wrap, 1.6, fitted.Flag, flagFace, ""}, {fitted.Wrap, 20, fitted.Wrap, mostWrap, "1"},
		{fitted.Sleeve, 1.6, fitted.Sleeve, 3.707, "3/32"}, {fitted.Sleeve, 3, fitted.Sleeve, 4.979, "1/8"}, {fitted.Flag, 9, fitted.Flag, flagFace, ""},
	} {
		as, face, tube := Made(c.wish, c.wire)
		require.Equal(t, c.as, as, "%v", c)
		require.InDelta(t, c.face, float64(face), 0.001, "%v", c)
		require.Equal(t, c.tube, tube.Inch, "%v", c)
	}
}

// The ways of a panel are labelled as they are seen, with what they feed in plain words; a free way has no label.
func TestPanelLabels(t *testing.T) {
	s := shed.New()
	p := s.Part("FP", harness.FusePanel)
	p.Panel = &harness.Panel{Layout: [][]string{{"2", "1"}, {"3"}}}
	lamp := s.Part("L1", harness.Lamp)
	lamp.Name = "Dip lamp left"
	s.H.Elements = []harness.Element{{ID: 0, Part: lamp.ID, Kind: harness.Load, Name: "L1"}, {ID: 1, Part: lamp.ID, Kind: harness.Load, Name: "L1.b"}}
	s.C.Fuses = []chosen.Fuse{
		{Part: p.ID, Position: "1", Body: "blade", Rating: 10, Feeds: []string{"L1", "L1.b"}},
		{Part: p.ID, Position: "2", Body: "mini", Rating: 7.5, Wires: []harness.WireID{0}},
		{Part: p.ID, Position: "3", Body: "blade", Rating: 15},
	}
	labels := panelLabels(s.H, &s.C, &s.H.Parts[p.ID])
	require.Len(t, labels, 2, "3 is free")
	require.Equal(t, [2]string{"2  7.5 A", "1  10 A"}, [2]string{labels[0].Name, labels[1].Name})
	require.Equal(t, [2]string{"", "Dip lamp left"}, [2]string{labels[0].Plain, labels[1].Plain}, "a part is named once")
	blade, mini := rating.Pitch("blade"), rating.Pitch("mini")
	require.Equal(t, [2]unit.Millimetre{mini, blade}, [2]unit.Millimetre{labels[0].Long, labels[1].Long}, "as long as the ways stand apart")
	s.H.Practice.Labels.Pitch = 17
	require.Equal(t, unit.Millimetre(17), panelLabels(s.H, &s.C, &s.H.Parts[p.ID])[0].Long)
}

// Whether one of the shop's labels serves a wire, worked by hand: half the way round a wire of 3 mm is 4.71 mm; a label 20 mm high
// with 1 mm for a flag's band round a wire of 1 mm (3.1 mm) leaves two faces of 7.65 mm after 0.8 mm of edge; a sleeve 6 mm wide flat has a bore of
// 3.82 mm and grips down to half of it.
func TestMarkersOnTheShopsLabels(t *testing.T) {
	for _, c := range []struct {
		wish        string
		high, clear unit.Millimetre
		wire        unit.Millimetre
		as          string
		face        float64
		ok          bool
	}{
		{"", 20, 0, 3, fitted.Wrap, 4.71, true},
		{"", 20, 0, 20, fitted.Wrap, 9.2, true},   // half the label less its edge
		{"", 40, 0, 20, fitted.Wrap, 10, true},    // a patch on a thick cable
		{"", 20, 0, 1, fitted.Flag, 7.65, true},   // 1.57 mm round it holds no capitals of 2 mm
		{"", 20, 12, 1, fitted.Flag, 1.65, false}, // too little is printed
		{fitted.Flag, 20, 0, 3, fitted.Flag, 4.5, true},
		{fitted.Sleeve, 6, 0, 3, fitted.Sleeve, 6, true},
		{fitted.Sleeve, 6, 0, 4, fitted.Sleeve, 6, false},   // it does not go over
		{fitted.Sleeve, 6, 0, 1.8, fitted.Sleeve, 6, false}, // shrunk to half its bore it is still loose
	} {
		as, face, ok := MadeOn(&harness.LabelSheet{High: c.high, Clear: c.clear}, c.wish, c.wire)
		require.Equal(t, c.as, as, "%+v", c)
		require.InDelta(t, c.face, float64(face), 0.01, "%+v", c)
		require.Equal(t, c.ok, ok, "%+v", c)
	}
}

// From which length a wire is cut is said only where there is more than one, or one from the shelf.
func TestWhereACutIsFrom(t *testing.T) {
	left, fresh := fitted.Cut{Shelf: true, Wires: []harness.WireID{1}}, fitted.Cut{Wires: []harness.WireID{2, 3}}
	for _, c := range []struct {
		cuts []fitted.Cut
		want []string
	}{
		{[]fitted.Cut{fresh}, []string{""}},
		{[]fitted.Cut{left}, []string{"left-over"}},
		{[]fitted.Cut{left, fresh}, []string{"left-over", "new"}},
		{[]fitted.Cut{left, left, fresh, fresh}, []string{"left-over 1", "left-over 2", "new 1", "new 2"}},
	} {
		r := fitted.Reel{Cuts: c.cuts}
		for i, want := range c.want {
			require.Equal(t, want, r.Source(i))
		}
	}
	r := fitted.Reel{Cuts: []fitted.Cut{left, fresh}}
	require.Equal(t, []int{0, 1, 1, -1}, []int{r.CutOf(1), r.CutOf(2), r.CutOf(3), r.CutOf(4)})
}
