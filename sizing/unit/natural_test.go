package unit

import (
	"math/rand"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestNaturalOrder(t *testing.T) {
	for _, want := range [][]string{
		{"blade fuse 1 A", "blade fuse 2 A", "blade fuse 7.5 A", "blade fuse 10 A", "blade fuse 15 A"},
		{"uninsulated barrel 1.5 mm²", "uninsulated barrel 2 mm²", "uninsulated barrel 2.5 mm²", "uninsulated barrel 10 mm²"},
		{"", "M", "M4", "M5", "M10", "N"},
		{"30", "31", "31b", "86", "B+"},
		{"4.8 mm female spade", "6.3 mm female spade"},
		{"a", "a.", "a.b"},
	} {
		got := slices.Clone(want)
		rand.New(rand.NewSource(1)).Shuffle(len(got), func(i, j int) { got[i], got[j] = got[j], got[i] })
		slices.SortFunc(got, Natural)
		require.Equal(t, want, got)
	}
	require.Zero(t, Natural("12A", "12A"))
	require.NotZero(t, Natural("1", "01"), "what is written otherwise is never the same")
}

// FuzzNatural holds that the order is one: two names the other way round compare the other way round.
func FuzzNatural(f *testing.F) {
	f.Add("a1", "a2")
	f.Add("1.5", "1.5.")
	f.Fuzz(func(t *testing.T, x, y string) {
		require.Equal(t, -Natural(x, y), Natural(y, x))
		require.Equal(t, x == y, Natural(x, y) == 0)
	})
}
