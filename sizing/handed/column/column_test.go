package column

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/handed/grid"
)

// TestTitlesAreToldApart: a title stands for one column of a table, and is folded.
func TestTitlesAreToldApart(t *testing.T) {
	seen := map[string]string{}
	for _, row := range grid.Own(columnsCSV) {
		require.Len(t, row, 3)
		for _, w := range strings.Split(row[2], "|") {
			require.Equal(t, grid.Fold(w), w, "titles stand folded")
			require.Empty(t, seen[row[0]+" "+w], "%s is %s as well as %s", w, row[1], seen[row[0]+" "+w])
			seen[row[0]+" "+w] = row[1]
		}
	}
}

// TestTitlesInSixLanguages: the row of titles is found below others, with its units.
func TestTitlesInSixLanguages(t *testing.T) {
	for _, titles := range []string{"Wire,From,To,Size (mm2),Color", "Nr,Von,Nach,Querschnitt [mm²],Farbe", "Repère;De;Vers;Section (mm²);Couleur", "Hilo,Desde,Hasta,Sección mm2,Color",
		"Filo,Da,A,Sezione (mm²),Colore", "Draad;Van;Naar;Doorsnede (mm2);Kleur"} {
		g, err := grid.Read([]byte("Kestrel GT\n\n" + titles + "\n" + strings.ReplaceAll("1,a,b,1.5,red\n", ",", titles[strings.IndexAny(titles, ",;"):][:1])))
		require.NoError(t, err)
		found, head, _ := Find("wires", g, nil)
		require.Equal(t, 2, head, titles)
		for key, i := range map[string]int{"wire": 0, "from": 1, "to": 2, "gauge": 3, "colour": 4} {
			require.Equal(t, i, found[key].Index, "%s: %s", titles, key)
		}
		require.Equal(t, "mm2", found["gauge"].Unit)
	}
}

// TestMapping: our names alone, by title or number.
func TestMapping(t *testing.T) {
	m, err := Mapping("from=Von, to=3\ngauge;Querschnitt")
	require.NoError(t, err)
	require.Equal(t, map[string]string{"from": "Von", "to": "3", "gauge": "Querschnitt"}, m)
	_, err = Mapping("form=Von")
	require.ErrorContains(t, err, "none of our columns")
	_, err = Mapping("from")
	require.ErrorContains(t, err, "does not say")
}
