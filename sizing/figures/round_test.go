package figures

import (
	"bytes"
	"encoding/json"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
)

func TestRounded(t *testing.T) {
	for _, c := range []struct {
		name    string
		x, want float64
	}{
		{"length_mm", 152.39999999999998, 152.4}, {"diameter_mm", 1.9049999, 1.9}, {"wire_mm", 2.3456, 2.35}, {"buy_mm", 123456.789, 123456.8},
		{"amps", 21.659999, 21.66}, {"amps", 1112.345, 1112}, {"amps", 0.0054321, 0.0054}, {"amps", 12345, 12350}, {"rating_a", 7.5, 7.5},
		{"volts", 12.345678, 12.346}, {"drop_v", -0.00001, 0}, {"resistance_ohm", 0.0123456, 0.01235}, {"temperature_c", 66.666, 66.7},
		{"mass_g", 1234.5678, 1234.6}, {"area_mm2", 0.517623, 0.5176}, {"drop_pct", 2.98765, 2.99}, {"clears_short_s", 0.0123456, 0.0123},
		{"residual_a", 1.23456e-13, 1.2e-13}, {"nodes", 12.3456789, 12.345679}, {"ohms", 0.001234567891, 0.00123456789}, {"count", 1.23456, 1.235},
		{"limit", 3.141592, 3.142}, {"amps", 0, 0},
	} {
		require.Equal(t, c.want, rounded(c.x, precisionOf(c.name, c.x)), "%s %v", c.name, c.x)
	}
	require.True(t, math.IsInf(rounded(math.Inf(1), other), 1))
}

// significant are the digits of a printed number that say something.
func significant(number string) int {
	digits, _, _ := strings.Cut(strings.ToLower(strings.TrimLeft(number, "-")), "e")
	digits = strings.TrimLeft(strings.Replace(digits, ".", "", 1), "0")
	return len(strings.TrimRight(digits, "0"))
}

// numberIn is a number in a table's cell, alone, in a list or behind a name.
var numberIn = regexp.MustCompile(`(?:^|[ =:])(-?\d+\.\d+(?:e[-+]\d+)?)`)

// TestFiguresAreRounded: no number of any sample has more digits than its unit means; those
// of the solved network have more, so that it can be solved again.
func TestFiguresAreRounded(t *testing.T) {
	for _, s := range samples.List() {
		h, r := worked.Out(t, s)
		var text bytes.Buffer
		require.NoError(t, JSON(&text, h, r))
		var document map[string]any
		dec := json.NewDecoder(&text)
		dec.UseNumber()
		require.NoError(t, dec.Decode(&document))
		looked := 0
		for table, value := range document {
			looked += judgeNumbers(t, s.Name+" "+table, value, most(table))
		}
		require.Greater(t, looked, 1000)
		for _, table := range Tables() {
			_, rows := read(t, Of(h, r), table)
			for _, row := range rows {
				for _, cell := range row {
					for _, m := range numberIn.FindAllStringSubmatch(cell, -1) {
						require.LessOrEqual(t, significant(m[1]), most(table), "%s %s: %s", s.Name, table, cell)
					}
				}
			}
		}
	}
}

func most(table string) int {
	if table == "states" {
		return 9
	}
	return 7
}

func judgeNumbers(t *testing.T, where string, value any, most int) int {
	looked := 0
	switch value := value.(type) {
	case json.Number:
		require.LessOrEqual(t, significant(value.String()), most, "%s: %s", where, value)
		return 1
	case []any:
		for _, v := range value {
			looked += judgeNumbers(t, where, v, most)
		}
	case map[string]any:
		for name, v := range value {
			looked += judgeNumbers(t, where+" "+name, v, most)
		}
	}
	return looked
}
