package convention

import (
	"flag"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the tables of conventions in samples/FORMAT.md anew")

// TestFormatListsTheFunctions holds the tables in samples/FORMAT.md to these.
func TestFormatListsTheFunctions(t *testing.T) {
	const file, begin, end = "../../../samples/FORMAT.md", "<!-- functions -->\n", "<!-- end of functions -->\n"
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	head, rest, ok := strings.Cut(string(text), begin)
	require.True(t, ok)
	have, tail, ok := strings.Cut(rest, end)
	require.True(t, ok)
	if *update {
		have = Table()
		require.NoError(t, os.WriteFile(file, []byte(head+begin+have+end+tail), 0o644))
	}
	require.Equal(t, Table(), have, "-update renews it")
}

// letters are those of IEC 60757, and our three beside them.
var letters = strings.Fields("BK BN RD OG YE GN BU VT GY WH PK TQ TN LBU LGN")

func TestEveryRowIsWhole(t *testing.T) {
	require.NotEmpty(t, Sets())
	listed := map[string]bool{}
	for _, r := range rowsOf("lists") {
		listed[r[0]] = true
	}
	key := regexp.MustCompile(`\bK\d+\b`)
	for _, s := range Sets() {
		require.NotEmpty(t, s.Rows(), s.Word)
		seen := map[string]bool{}
		for _, r := range s.Rows() {
			at := s.Word + " " + r.Function
			require.Contains(t, letters, r.Base, at)
			require.True(t, r.Tracer == "" || r.Tracer == "*" || slices.Contains(letters, r.Tracer) && r.Tracer != r.Base, at)
			require.Equal(t, r.Function, Known(r.Function).Word)
			require.Contains(t, FunctionWords(), r.Function, "%s: no such function", at)
			require.NotEmpty(t, r.Source, at)
			require.NotEmpty(t, r.Says, at)
			if r.Unused == "" {
				require.False(t, seen[r.Function], "%s: two rows to choose by", at)
				seen[r.Function] = true
			}
			for _, k := range key.FindAllString(r.Source+r.Unused, -1) {
				require.True(t, listed[k], "%s: nothing says what list %s is", at, k)
			}
		}
	}
}

func TestEveryFunctionIsWhole(t *testing.T) {
	words, names := map[string]bool{}, map[string]bool{}
	used := map[string]bool{}
	for _, s := range Sets() {
		for _, r := range every()[s.base] {
			used[r.Function] = true
		}
	}
	for _, f := range Functions() {
		require.False(t, words[f.Word], f.Word)
		words[f.Word] = true
		require.Contains(t, []Where{AtLoad, Behind, All}, f.Where, f.Word)
		require.NotEmpty(t, f.Says, f.Word)
		require.True(t, used[f.Word], "no convention tells of %s", f.Word)
		for _, n := range f.Names {
			require.False(t, names[n], "%s stands for two functions", n)
			names[n] = true
			require.Equal(t, f.Word, Named(n))
		}
	}
}

// british are the code letters of BS AU 7 (list K6, and K5 for LG, O, Y and K): L alone is
// no colour, LG is one.
var british = map[string]string{"B": "BK", "U": "BU", "N": "BN", "R": "RD", "P": "VT", "G": "GN", "S": "GY", "W": "WH", "LG": "LGN", "O": "OG", "Y": "YE", "K": "PK"}

func decoded(code string) string {
	var out []string
	for code != "" {
		n := 1
		if strings.HasPrefix(code, "LG") {
			n = 2
		}
		out = append(out, british[code[:n]])
		code = code[n:]
	}
	return strings.Join(out, "/")
}

func TestBritishCodesSayTheColours(t *testing.T) {
	for _, r := range every()["british"] {
		colour := r.Base
		if r.Tracer != "" {
			colour += "/" + r.Tracer
		}
		require.Equal(t, decoded(r.Code), colour, r.Function)
	}
	require.Equal(t, "LGN/GN", decoded("LGG"))
	require.Equal(t, "LGN", decoded("LG"), "not light and green")
}

// TestPublishedRows against the lists that quote BS AU 7, ABYC E-11 and the trailer standards.
func TestPublishedRows(t *testing.T) {
	for _, c := range []struct{ set, function, colour string }{
		{"british", "main-beam", "BU/WH"},                           // lists K1 K2 K3 K4
		{"british", "dipped-beam", "BU/RD"},                         // lists K1 K2 K3 K4
		{"british", "permanent", "BN"},                              // list K10: brown and purple live always
		{"british", "permanent-fused", "VT"},                        // list K10: purple and green fused
		{"british", "ignition", "WH"},                               // list K10: white and green live with ignition
		{"british", "ignition-fused", "GN"},                         // list K10
		{"british", "reversing", "GN/BN"},                           // three lists against one post, K10
		{"british", "brake-lights", "GN/VT"},                        // lists K2 K4 K5
		{"british", "indicator-left", "GN/RD"},                      // lists K2 K4 K5 K9
		{"british", "indicator-right", "GN/WH"},                     // lists K2 K4 K5 K9
		{"british", "horn-push", "VT/BK"},                           // lists K4 K5
		{"british", "wiper", "RD/LGN"},                              // lists K4 K5, to about 1980
		{"british-1983", "wiper-feed", "OG"},                        // BS AU 7a, extract K8
		{"british-1983", "main-beam", "BU/WH"},                      // no edition moves it
		{"british", "wiper-feed", ""},                               // list K8: no wiper fuse of its own before
		{"british", "dynamo-field", ""},                             // contradicted: field or horn
		{"british", "charge-lamp-return", ""},                       // contradicted: charge lamp or horn
		{"british", "headlamp-washer", ""},                          // contradicted: washer or wiper's fast speed
		{"british", "tail-right", ""},                               // contradicted: red/orange or red/green
		{"british", "overdrive", ""},                                // contradicted: overdrive, or the dynamo of the 1950s
		{"british", "window-left", ""},                              // direction not sure
		{"marine", "start", "YE/RD"}, {"marine", "blower", "BN/YE"}, // ABYC E-11 tables XIV and XV
		{"marine", "fuel-gauge", "PK"}, {"marine", "tilt-up", "BU/*"},
		{"german", "main-beam", "WH"}, {"german", "dipped-beam", "YE"}, // terminals 56a and 56b, plain: the side is contradicted
		{"german", "tail-left", ""}, {"german", "side-lights", "GY"},
		{"sae-j560", "brake-lights", "RD"}, {"sae-j560", "indicator-left", "YE"},
		{"rv-7-way", "brake-lights", ""}, {"rv-7-way", "turn-stop-left", "YE"}, {"rv-7-way", "trailer-brakes", "BU"},
		{"sae-j560", "trailer-brakes", ""}, {"sae-j560", "trailer-aux", "BU"},
		{"iso-1724", "tail-left", "BK"}, {"iso-1724", "rear-fog", "BU"},
		{"iso-11446", "reversing", "PK"}, {"iso-11446", "trailer-charge", "OG"},
	} {
		s, ok := Of(c.set)
		require.True(t, ok)
		row, ok := s.For(c.function)
		require.Equal(t, c.colour != "", ok, c)
		if got := row.Base + "/" + row.Tracer; ok {
			require.Equal(t, c.colour, strings.TrimSuffix(got, "/"), c)
		}
	}
}

// TestNamesAreNotGuessedAt: a side is said or it is not there.
func TestNamesAreNotGuessedAt(t *testing.T) {
	for name, want := range map[string]string{
		"Main beam": "main-beam", "main-beam": "main-beam", "Horn": "horn", "Brake lights": "brake-lights", "Left indicators": "indicator-left",
		"Indicators": "", "Main beam and horn": "", "Horn relay": "", "Fog": "", "Beam": "", "": "", "Tail lamp left rear": "",
	} {
		require.Equal(t, want, Named(name), name)
	}
}
