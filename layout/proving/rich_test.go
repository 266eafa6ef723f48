package proving

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/table"
	"example.com/loomfolio/sizing/unit"
)

// TestRichText: no word is lost or moved, no line is too wide, and a limit stands with what it is for.
func TestRichText(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		var runs []run
		var want []string
		for range 1 + rng.IntN(12) {
			word := strings.Repeat("WM", 1+rng.IntN(4))
			switch rng.IntN(3) {
			case 0:
				runs = append(runs, limit("11.5–12.8"), small(word))
				want = append(want, "11.5–12.8", word)
			case 1:
				runs = append(runs, plain(word+" "+word))
				want = append(want, word, word)
			default:
				runs = append(runs, strong(word))
				want = append(want, word)
			}
		}
		width := 45 + 40*rng.Float64()
		var got []string
		for _, l := range broken(runs, width) {
			x := 0.0
			for i, r := range l {
				if i > 0 && r.leads {
					x += apartBy
				}
				x += r.wide() + r.blank()
				got = append(got, strings.Fields(r.s)...)
			}
			require.LessOrEqual(t, x-l[len(l)-1].blank(), width+1e-6)
			require.False(t, l[len(l)-1].leads, "a limit at the end of a line")
		}
		require.Equal(t, want, got)
	}
}

// TestAPartedParagraphRepeatsItsLimit, so that no piece has points without one.
func TestAPartedParagraphRepeatsItsLimit(t *testing.T) {
	l := newList(60, leadWide)
	names := strings.Repeat("FD.16 ", 60)
	l.add(table.Strong("c"), limit("11.5–12.8"), small(names), limit("±0.1"), small("G1"))
	require.Greater(t, len(l.Rows), 3)
	count := 0
	for i := range l.Rows {
		said := read(&list{Table: table.Table{Rows: l.Rows[i : i+1]}})
		require.NotEmpty(t, said)
		require.Equal(t, "c", said[0].letter)
		for _, w := range said {
			require.Equal(t, map[bool]string{true: "±0.1", false: "11.5–12.8"}[w.word == "G1"], w.bold)
			count++
		}
	}
	require.Equal(t, 61, count)
}

// TestAWordThatIsTooWide is cut rather than set over the edge.
func TestAWordThatIsTooWide(t *testing.T) {
	for _, l := range broken([]run{limit(strings.Repeat("8", 60)), plain(strings.Repeat("W", 60))}, 40) {
		for _, r := range l {
			require.LessOrEqual(t, r.wide(), 40.0)
		}
	}
}

// TestLimitsAreRoundedOutward: never inside the figures, and by no more than an eighth of their span or
// a digit that a meter shows.
func TestLimitsAreRoundedOutward(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 20000 {
		low := 30*rng.Float64() - 15
		if rng.IntN(2) == 0 {
			low /= 40
		}
		high := low + math.Pow(10, 3*rng.Float64()-2.5)
		printed := limits(unit.Volt(low), unit.Volt(high))
		l, h := bounds(t, printed)
		require.LessOrEqual(t, l, low+1e-6, printed)
		require.GreaterOrEqual(t, h, high-1e-6, printed)
		digit := 0.01
		if math.Max(math.Abs(low), math.Abs(high)) >= roughTo {
			digit = 0.1
		}
		if !strings.HasPrefix(printed, "±") {
			require.LessOrEqual(t, math.Max(low-l, h-high), math.Max(digit, (high-low)/8)+1e-6, printed)
			continue
		}
		most := math.Max(math.Abs(low), math.Abs(high))
		require.LessOrEqual(t, h-most, math.Max(digit, most/4)+1e-6, printed)
	}
}

// bounds reads printed limits back.
func bounds(t *testing.T, s string) (low, high float64) {
	t.Helper()
	if v, is := strings.CutPrefix(s, "±"); is {
		h := number(t, v)
		return -h, h
	}
	for _, between := range []string{page.NoBreak + "to" + page.NoBreak, "–"} {
		if a, b, found := strings.Cut(s, between); found {
			return number(t, a), number(t, b)
		}
	}
	return number(t, s), number(t, s)
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.Replace(s, "−", "-", 1), 64)
	require.NoError(t, err)
	return v
}
