package colour

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestParse(t *testing.T) {
	for text, want := range map[string]Pair{
		"RD": {Base: "RD"}, "og/bk": {"OG", "BK"}, " GN / YE ": {"GN", "YE"}, "LBU/WH": {"LBU", "WH"}, "TN": {Base: "TN"},
	} {
		got, err := Parse(text)
		require.NoError(t, err, text)
		require.Equal(t, want, got)
	}
}

func TestParseSaysWhatWasMeant(t *testing.T) {
	for text, want := range map[string]string{
		"orange":   `"orange" is not a colour's letters; write OG (orange)`,
		"GR":       `"GR" is not a colour's letters; write GN (green) or GY (grey)`,
		"RD/bl":    `"bl" is not a colour's letters; write BU (blue) or BK (black)`,
		"OG-BK":    `"OG-BK" is two colours; write base and tracer with a slash: OG/BK`,
		"OGBK":     `"OGBK" is two colours; write base and tracer with a slash: OG/BK`,
		"RD/RD":    `"RD/RD" has a tracer of its own base colour; write RD for the plain wire`,
		"RD/BK/WH": `"RD/BK/WH" has more than one tracer; a wire has a base and at most one tracer: OG/BK`,
		"":         `no colour is written; letters such as RD or OG/BK are needed`,
		"XX":       `"XX" is not a colour's letters; known are BK BN RD OG YE GN BU VT GY WH PK TQ TN LBU LGN`,
		"RD/":      `"" is not a colour's letters; known are BK BN RD OG YE GN BU VT GY WH PK TQ TN LBU LGN`,
	} {
		_, err := Parse(text)
		require.EqualError(t, err, want)
	}
}

func TestHintsNameRealColours(t *testing.T) {
	for text, meant := range near {
		require.Equal(t, -1, find(text), text)
		for _, letters := range meant {
			require.GreaterOrEqual(t, find(letters), 0, text)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"RD", "og/bk", "OG-BK", "", "/", "GNYE", "rosa", "é/é"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, err := Parse(text)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		again, err := Parse(p.String())
		require.NoError(t, err)
		require.Equal(t, p, again)
	})
}

func TestWords(t *testing.T) {
	require.Equal(t, "orange", Words(Pair{Base: "OG"}))
	require.Equal(t, "orange, black tracer", Words(Pair{"OG", "BK"}))
	r, g, b := RGB("OG")
	require.Equal(t, [3]uint8{0xF3, 0x84, 0x00}, [3]uint8{r, g, b})
	r, g, b = RGB("??")
	require.Equal(t, [3]uint8{0x84, 0x84, 0x82}, [3]uint8{r, g, b})
}

func TestThePaletteIsWhole(t *testing.T) {
	require.Len(t, palette(), 15)
	for i, c := range palette() {
		require.NotEmpty(t, c.name)
		require.NotEmpty(t, c.shades, c.letters)
		require.Equal(t, i, find(c.letters))
	}
	require.Equal(t, "PK", palette()[usual-1].letters)
}

// Pairs that the trade mixes up come out alike, and those that it does not clear. Which those are is common practice,
// no source, and so are the bands of words: 12 and 20 are our own choice.
func TestWordsForADistance(t *testing.T) {
	require.Equal(t, "go by the number sleeve", words(standard().apart(Pair{Base: "BU"}, Pair{Base: "VT"})))
	require.Equal(t, "go by the number sleeve", words(standard().apart(Pair{Base: "BN"}, Pair{Base: "RD"})))
	require.Equal(t, "clear", words(standard().apart(Pair{Base: "BK"}, Pair{Base: "YE"})))
	require.Equal(t, "clear", words(standard().apart(Pair{Base: "OG"}, Pair{"OG", "BK"})))
	require.Zero(t, standard().apart(Pair{"OG", "BK"}, Pair{"OG", "BK"}))
	require.Less(t, standard().apart(Pair{"OG", "BK"}, Pair{"BK", "OG"}), standard().apart(Pair{Base: "OG"}, Pair{Base: "BK"}))
}

// The worked figures: blue and violet are 2.5 apart to a deutan in the ISCC
// palette, brown and red 3.4 to a protan in the RAL one; such views count 1.5 fold.
func TestDistanceIsTheWorstView(t *testing.T) {
	require.InDelta(t, 100*2.5*1.5, standard().apart(Pair{Base: "BU"}, Pair{Base: "VT"}), 10)
	require.InDelta(t, 100*3.4*1.5, standard().apart(Pair{Base: "BN"}, Pair{Base: "RD"}), 10)
}
