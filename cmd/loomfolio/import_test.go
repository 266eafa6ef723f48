package main

import (
	"bytes"
	"encoding/csv"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/cmd/loomfolio/work"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing/figures"
)

// sameAfter are the columns of the table of wires that come back the same when a
// description is made of it, with the table of parts. All others follow from what the
// tables do not hold: places, runs, states, screens, cables.
var sameAfter = strings.Fields("id circuit from to length_mm system gauge area_mm2 insulation base tracer circuit_number circuit_name class")

// notBack are what is lost, by sample and column: a class that is the sample's own, and
// the cores of a cable, which become wires.
var notBack = map[string]string{"tender class": "horn", "camper insulation": "trailer"}

// importable prints a table of a description, and its rows by their first cell. What is
// proved of the wiring is in neither table.
func importable(t *testing.T, path, table string) (text string, rows map[string]map[string]string) {
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	w, err := work.Do(work.Source{Name: path, Text: data})
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, figures.CSV(&b, figures.Of(w.Harness, w.Result), table))
	list, err := csv.NewReader(bytes.NewReader(b.Bytes())).ReadAll()
	require.NoError(t, err)
	rows = map[string]map[string]string{}
	for _, cells := range list[1:] {
		row := map[string]string{}
		for i, c := range cells {
			row[list[0][i]] = c
		}
		rows[cells[0]] = row
	}
	return b.String(), rows
}

// TestFiguresImportedAreTheSame: figures --csv wires of every sample, a description made
// of that, figures of it: the same table of wires.
func TestFiguresImportedAreTheSame(t *testing.T) {
	for _, s := range samples.List() {
		t.Run(s.Name, func(t *testing.T) {
			path := sampleFile(t, s.Name)
			dir := filepath.Dir(path)
			text, before := importable(t, path, "wires")
			parts, partsBefore := importable(t, path, "parts")
			require.NoError(t, os.WriteFile(filepath.Join(dir, "w.csv"), []byte(text), 0o600))
			require.NoError(t, os.WriteFile(filepath.Join(dir, "p.csv"), []byte(parts), 0o600))
			code, _, errs := do("import", filepath.Join(dir, "w.csv"), "--parts", filepath.Join(dir, "p.csv"))
			require.Equal(t, 0, code, errs)
			_, after := importable(t, filepath.Join(dir, "w.yaml"), "wires")
			require.Len(t, after, len(before))
			for id, row := range before {
				for _, column := range sameAfter {
					if lost := notBack[s.Name+" "+column]; lost != "" && row[column] == lost {
						continue
					}
					require.Equal(t, row[column], after[id][column], "%s of wire %s", column, id)
				}
			}
			_, partsAfter := importable(t, filepath.Join(dir, "w.yaml"), "parts")
			require.Equal(t, partsBefore, partsAfter)
		})
	}
}

const list = "Nr;Von;Nach;Querschnitt;Farbe;Länge [mm]\n1;Batterie +;F1;2,5;rt;150\n2;F1;Masse;2,5;sw/rt;300\n3;;Masse;2,5;sw;300\n"

// TestImportSaysWhatItGuessed: columns, comma, letters, and the row that is no wire.
func TestImportSaysWhatItGuessed(t *testing.T) {
	path := laid(t, "list.csv", list)
	code, out, errs := do("import", path)
	require.Equal(t, 0, code, errs)
	require.Empty(t, out)
	for _, said := range []string{`column 4 "Querschnitt" is read as gauge`, "a comma in a figure is read as a decimal comma", "parted by semicolons",
		"list.csv, row 4: where it comes from is not there: 3 |  | Masse", "list.yaml written: 2 wires, 3 parts"} {
		require.Contains(t, errs, said)
	}
	text, err := os.ReadFile(strings.TrimSuffix(path, ".csv") + ".yaml")
	require.NoError(t, err)
	require.Contains(t, string(text), "[Batterie.+, {to: F1.1, length: 150 mm, gauge: 2.5 mm2, colour: RD, wire: 1}, F1.2,\n")
	require.Contains(t, string(text), "#   list.csv, row 4:")
	code, _, errs = do("import", path)
	require.Equal(t, 2, code)
	require.Contains(t, errs, "list.yaml is there already")
}

// TestImportTakesAMap: columns that nobody guesses are named, by title or number, in the call or in a table.
func TestImportTakesAMap(t *testing.T) {
	path := laid(t, "odd.csv", "eins,zwei,drei\nBAT +,F1,2.5\n")
	code, _, errs := do("import", path, "-o", "-")
	require.Equal(t, 2, code)
	require.Contains(t, errs, "no column says where a wire comes from")
	for _, m := range []string{"from=eins,to=zwei,gauge=drei", "from=1,to=2,gauge=3", laid(t, "map.csv", "from;eins\nto;zwei\ngauge;drei\n")} {
		code, out, errs := do("import", path, "-o", "-", "--map", m)
		require.Equal(t, 0, code, errs)
		require.Contains(t, out, "BAT.+", m)
	}
	code, _, errs = do("import", path, "-o", "-", "--map", "form=eins")
	require.Equal(t, 2, code)
	require.Contains(t, errs, `"form" is none of our columns`)
}
