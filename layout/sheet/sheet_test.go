package sheet

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestDumpShowsEveryMark(t *testing.T) {
	var c Canvas
	c.Text(10, 20, "ring M8", Strong(SizeBody).At(Right))
	c.Text(1, 2, "", Plain(3)) // nothing to set
	c.Line(0, 0, 10, 0, Dashed(Medium, 2, 1))
	c.RoundRect(0, 0, 10, 4, 9, Both(Rounded(Thin), Pale)) // the radius is cut to half the height
	c.Arc(0, 0, 1, 0, 90, Solid(Thick))
	c.Link(Rect{1, 2, 3, 4}, "w1")
	c.Anchor("w1", -0.001, 5)
	c.Add(Picture{1, 2, 30, 20, PNG, []byte("rows"), "the tray"})
	p := Packet{Title: "T", Author: "A", Attached: []Attachment{{Name: "k.yaml", MIME: "application/yaml", Data: []byte("x: 1")}},
		Sheets: []Sheet{{W: 210, H: 297, Title: "Cover", Group: "All", Marks: c.Marks}}}
	require.Equal(t, `packet "T" by "A" on 0001-01-01
attached "k.yaml" application/yaml 4 bytes
sheet 1 210 × 297 "Cover" in "All"
  text 10 20 3.46 bold right #1a1a1a "ring M8"
  path 0,0 10,0 stroke 0.35 #1a1a1a dash 2/1
  path 2,0 8,0 ~9.1,0~10,0.9~10,2 ~10,3.1~9.1,4~8,4 2,4 ~0.9,4~0,3.1~0,2 ~0,0.9~0.9,0~2,0 closed fill #f0f0f0 stroke 0.18 #1a1a1a round
  path 1,0 ~1,-0.55~0.55,-1~0,-1 stroke 0.5 #1a1a1a
  link 1 2 3 × 4 -> w1
  anchor 0 5 w1
  picture 1 2 30 × 20 png bc51e9e65d79e1c90ba544ab2eae1044ccdf8c1af7a559ba375cba4276f7d99e "the tray"
`, Dump(p))
}

func TestCurvesStayOnTheCircle(t *testing.T) {
	var c Canvas
	c.Circle(50, 60, 10, Filled(Ink))
	path := c.Marks[0].(Path)
	at := path.Start
	for _, s := range path.Segs {
		for i := range 21 {
			u := float64(i) / 20
			v := 1 - u
			x := v*v*v*at.X + 3*v*v*u*s.C1.X + 3*v*u*u*s.C2.X + u*u*u*s.P.X
			y := v*v*v*at.Y + 3*v*v*u*s.C1.Y + 3*v*u*u*s.C2.Y + u*u*u*s.P.Y
			require.InDelta(t, 10, math.Hypot(x-50, y-60), 0.003) // 0.03 %, see arc
		}
		at = s.P
	}
}

func TestBounds(t *testing.T) {
	var c Canvas
	c.Circle(0, 0, 10, Filled(Ink))
	c.Arc(0, 0, 10, 45, 135, Solid(2))
	c.Rect(1, 2, 3, 4, Outline(Solid(0.5)))
	for i, want := range []Rect{
		{-10, -10, 20, 20},
		{-10*math.Sqrt2/2 - 1, -11, 10*math.Sqrt2 + 2, 10 - 10*math.Sqrt2/2 + 2},
		{0.75, 1.75, 3.5, 4.5},
	} {
		got := c.Marks[i].(Path).Bounds()
		require.InDeltaSlice(t, []float64{want.X, want.Y, want.W, want.H}, []float64{got.X, got.Y, got.W, got.H}, 0.004, "mark %d", i)
	}
}

func TestMoveAndScaleLeaveTheOriginal(t *testing.T) {
	var c Canvas
	c.Circle(1, 2, 3, Both(Dashed(1, 2, 3), Pale))
	c.Text(5, 6, "a", Plain(2))
	c.Link(Rect{1, 2, 3, 4}, "x")
	c.Anchor("x", 1, 1)
	c.Add(Picture{3, 4, 30, 20, JPEG, []byte("rows"), ""})
	before := DumpMarks(c.Marks)
	moved := Move(c.Marks, 10, 20)
	require.Contains(t, DumpMarks(moved), "text 15 26 2")
	require.Contains(t, DumpMarks(moved), "path 14,22 ")
	twice := DumpMarks(Scale(c.Marks, 2))
	require.Contains(t, twice, "stroke 2 #1a1a1a dash 4/6")
	require.Contains(t, twice, "text 10 12 4")
	require.Contains(t, twice, "link 2 4 6 × 8 -> x")
	require.Contains(t, twice, "picture 6 8 60 × 40 jpeg")
	require.Equal(t, before, DumpMarks(c.Marks))
	require.Equal(t, before, DumpMarks(Move(moved, -10, -20)))
}

func TestRect(t *testing.T) {
	r := Rect{10, 20, 100, 50}
	require.Equal(t, Rect{10, 30, 100, 40}, r.Below(30))
	require.Equal(t, 0.0, r.Below(90).H)
	require.True(t, r.Holds(Rect{10, 20, 100, 50}))
	require.False(t, r.Holds(Rect{10, 20, 101, 50}))
	require.False(t, r.Meets(Rect{110, 20, 5, 5}), "an edge alone")
	require.True(t, r.Meets(Rect{109, 69, 5, 5}))
	require.Equal(t, Rect{0, 0, 110, 70}, r.Union(Rect{0, 0, 1, 1}))
	require.Equal(t, r, r.Union(Rect{}))
}

func TestVerify(t *testing.T) {
	nan := math.NaN()
	one := Point{1, 1}
	a4 := func(marks ...Mark) Packet { return Packet{Sheets: []Sheet{{W: 210, H: 297, Title: "S", Marks: marks}}} }
	good := a4(Text{Size: 3, S: "a"}, Anchor{"x", 1, 1}, Link{0, 0, 1, 1, "x"}, Path{Segs: []Seg{{P: one}}})
	require.NoError(t, Verify(good))
	for fault, p := range map[string]Packet{
		"a packet without sheets":                 {},
		"not a paper size: 0 × 297 mm":            {Sheets: []Sheet{{H: 297}}},
		"not a paper size: NaN × 297 mm":          {Sheets: []Sheet{{W: nan, H: 297}}},
		`a link to "gone", which is nowhere`:      a4(Link{Target: "gone"}),
		`a second anchor "x"`:                     a4(Anchor{Name: "x"}, Anchor{Name: "x"}),
		`text "a": a number that is no length`:    a4(Text{X: nan, Size: 3, S: "a"}),
		`text "a": size 0`:                        a4(Text{S: "a"}),
		`text "a": face 7 is not known`:           a4(Text{S: "a", Size: 1, Face: 7}),
		"a path: a number that is no length":      a4(Path{Segs: []Seg{{P: Point{math.Inf(1), 0}}}}),
		"a path with a negative width or dash":    a4(Path{Stroke: &Stroke{Width: 1, Dash: []float64{1, -1}}}),
		"a curve with one control point":          a4(Path{Segs: []Seg{{C1: &one}}}),
		"anchor x: a number that is no length":    a4(Anchor{Name: "x", X: nan}),
		`picture "p": 0 bytes of form "png"`:      a4(Picture{0, 0, 1, 1, PNG, nil, "p"}),
		`picture "p": 1 bytes of form "gif"`:      a4(Picture{0, 0, 1, 1, "gif", []byte("x"), "p"}),
		`picture "p": an area of 0 × 1 mm`:        a4(Picture{0, 0, 0, 1, PNG, []byte("x"), "p"}),
		`picture "p": a number that is no length`: a4(Picture{nan, 0, 1, 1, PNG, []byte("x"), "p"}),
		"a mark of unknown kind <nil>":            a4(nil),
		`sheet 1 "S": link to x: a number that i`: a4(Anchor{Name: "x"}, Link{W: nan, Target: "x"}),
	} {
		require.ErrorContains(t, Verify(p), fault)
	}
}
