package sizing_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/worked"
)

// linesBefore are the lines that whole vehicles took, blank ones and comments not counted,
// before there were kinds of their parts, grounds by the body and entries written for each
// side; and how many lines now say what was not in them: of the van its panel with its
// circuit, shunt, monitor with its circuit, and the state plugged in.
var linesBefore = map[string]struct{ lines, more int }{
	"restoration": {205, 0},
	"racer":       {105, 0},
	"roadster":    {147, 0},
	"bike":        {67, 0},
	"lorry":       {82, 0},
	"van":         {72, 6},
}

// TestVehicles: whole vehicles say what their lines with #! say and no more, and take at
// least a fifth fewer lines than before, none of them longer than 160 characters.
func TestVehicles(t *testing.T) {
	files, err := filepath.Glob("testdata/vehicles/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".yaml")
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			raw, err := os.ReadFile(file)
			require.NoError(t, err)
			text := string(raw)
			require.Contains(t, linesBefore, name)
			lines, before := saidIn(t, text), linesBefore[name]
			require.LessOrEqual(t, 5*(lines-before.more), 4*before.lines, "%d lines now, %d before", lines, before.lines)
			x := expected(t, text)
			require.Empty(t, x.unrecognised)
			require.NotEmpty(t, x.shown, "a vehicle says what its states show")
			require.NotEmpty(t, x.bounds, "and what its hand sums come to")
			for _, as := range worked.Bought() {
				judge(t, text, as, x)
			}
		})
	}
}

// saidIn counts the lines that are neither blank nor comments.
func saidIn(t *testing.T, text string) int {
	n := 0
	for _, line := range strings.Split(text, "\n") {
		require.LessOrEqual(t, len([]rune(line)), 160, line)
		if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "#") {
			n++
		}
	}
	return n
}
