package main

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestLabelsFeedAPrinter: the table of labels has a row for both ends of each wire, in
// the order of the cut list, with the columns that the format's reference lists.
func TestLabelsFeedAPrinter(t *testing.T) {
	wholeRun(t)
	guide, err := os.ReadFile("../../samples/FORMAT.md")
	require.NoError(t, err)
	code, printed, _ := do("figures", "../../samples/kestrel.yaml", "--csv", "labels")
	require.Equal(t, exitGood, code)
	require.Equal(t, printed, tableOf(t, "kestrel", "labels"))
	read := func(table string) (header []string, rows []map[string]string) {
		out := tableOf(t, "kestrel", table)
		all, err := csv.NewReader(strings.NewReader(out)).ReadAll()
		require.NoError(t, err)
		for _, r := range all[1:] {
			row := map[string]string{}
			for i, name := range all[0] {
				row[name] = r[i]
			}
			rows = append(rows, row)
		}
		return all[0], rows
	}
	header, labels := read("labels")
	for _, name := range header {
		require.Contains(t, string(guide), "`"+name+"`")
	}
	_, cuts := read("cuts")
	for i, cut := range cuts {
		for k, end := range []string{"a", "b"} {
			l := labels[2*i+k]
			require.Equal(t, [3]string{cut["wire"], end, cut["wire"]}, [3]string{l["wire"], l["end"], l["line_1"]})
			require.Equal(t, cut["label_"+end], l["line_1"]+"  "+l["line_2"])
			require.NotEqual(t, "0", l["width_mm"])
		}
	}
	require.Empty(t, labels[2*len(cuts)]["wire"])
}
