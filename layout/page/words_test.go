package page

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestNamesAreJoined(t *testing.T) {
	var names []wareName
	for _, n := range []string{"Injector 1", "Horn", "Injector 2", "Injector 3", "Headlamp left", "Headlamp right", "Spare lamp", "Spare lamp", "7"} {
		names = append(names, divided(n))
	}
	require.Equal(t, []string{"Injector 1–3", "Horn", "Headlamp left and right", "2 × Spare lamp", "7"}, joined(names))
	require.Equal(t, []string{"Headlamp left (56a)", "Headlamp right"}, joined([]wareName{{"Headlamp", "left", "56a"}, {"Headlamp", "right", ""}}))
}

func TestRanges(t *testing.T) {
	for want, in := range map[string][]string{
		"1–4": {"1", "2", "3", "4"}, "1 and 2": {"1", "2"}, "1–3 and 5": {"1", "2", "3", "5"}, "A, B and 1": {"A", "B", "1"}, "": nil,
	} {
		require.Equal(t, want, Ranges(in))
	}
}

func TestSentences(t *testing.T) {
	for in, want := range map[string]string{
		"the fuse is too big": "The fuse is too big.", "x.7 is open": "x.7 is open.", "stop!": "Stop!", "": "", "ümlaut": "ümlaut.",
	} {
		require.Equal(t, want, Sentence(in))
	}
}

func TestPrintedFigures(t *testing.T) {
	for _, c := range []struct{ name, got, want string }{
		{"length", Length(2785, false), "2\u00a0785"},
		{"length in feet", Length(2785, true), "9 ft 1 5/8 in"},
		{"strip", Size(4.5, false), "4.5"},
		{"strip in inches", Size(4.5, true), "3/16 in"},
		{"whole inches", Size(50.8, true), "2 in"},
		{"inches and a part", Size(38, true), "1 1/2 in"},
		{"metres", Metres(11420, false), "11.42\u00a0m"},
		{"feet", Metres(3048, true), "10.0\u00a0ft"},
		{"to buy", ToBuy(12000, false), "12\u00a0m"},
		{"never less", ToBuy(12001, false), "12.1\u00a0m"},
		{"feet to buy", ToBuy(12000, true), "39.4\u00a0ft"},
		{"range", Ranged("1.5-2.5 mm2"), "1.5\u00a0–\u00a02.5\u00a0mm²"},
	} {
		require.Equal(t, c.want, c.got, c.name)
	}
}
