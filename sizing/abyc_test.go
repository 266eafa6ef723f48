package sizing_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// The 3 % table of ABYC E-11 (2008) at 12 V, as published in an open data file,
// through `practice: {method: abyc-e11}`: what the drop alone asks of a wire whose
// loop has the table's length. The published rule (CM = 10.75·I·L/E, next SAE
// area) has three known misses: 15 A over 60 ft, where the chart prints 6, and 80 A
// over 50 ft, where it prints 3/0; the third, 100 A over 140 ft, is in the 10 % table.
func TestABYCTableByMethod(t *testing.T) {
	file, err := os.Open(filepath.Join("rating", "testdata", "abyc-3-percent.csv"))
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 200)
	misses := map[string]string{}
	for _, row := range rows[1:] {
		amps, loop, chart := row[0], row[1], row[2]
		feet, err := strconv.ParseFloat(loop, 64)
		require.NoError(t, err)
		h, r := sized(t, fmt.Sprintf(`loomfolio: 1
title: One loop
sheet: {gauge: sae, units: imperial}
system: {volts: 12, return: wired}
practice: {method: abyc-e11}
parts:
  BAT: {kind: battery, inner: 1 mohm}
  SW: {kind: switch, positions: {off: [], on: [[1, 2]]}}
  LOAD: {kind: heater, draws: %s A, behaves: current, stud: M8}
circuits:
  loop: {number: 1, legs: [[BAT.+, {to: SW, length: %.4f ft}, {to: LOAD, length: %.4f ft}, {to: BAT.-, length: %.4f ft}]]}
`, amps, feet/4, feet/4, feet/2))
		if got := r.Wires[wire(t, h, "1A")].Wants.Drop.Size; got != chart {
			misses[amps+" A over "+loop+" ft"] = chart
		}
	}
	require.Equal(t, map[string]string{"15 A over 60 ft": "6", "80 A over 50 ft": "3/0"}, misses)
}
