package cutlist

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/toy"
)

// The trailer cable of the camper is cut once, with its cores under it; the one that is
// left over is named on the cut list.
func TestACableStandsWithItsCores(t *testing.T) {
	a := toy.Samples(t)["camper"]
	rows := unitRows(a)
	require.Len(t, rows, 2+6+1) // heading and sheath, six cores, what is spare
	require.Equal(t, "Cable tow · trailer", rows[0].Cells[0].S)
	require.Equal(t, "6 of 7 cores, 1 525 mm finished, 10.5 mm across", toy.Plain(rows[0].Cells[1].S))
	require.NotNil(t, rows[1].Cells[0].Draw, "one box to tick")
	require.Equal(t, "1 525", toy.Plain(rows[1].Cells[3].S))
	for i, mark := range []string{"1 (L)", "3 (31)", "4 (R)", "5 (58R)", "6 (54)", "7 (58L)"} {
		row := rows[2+i]
		require.Nil(t, row.Cells[0].Draw, "no core is cut")
		require.Contains(t, toy.Plain(row.Cells[1].Note), "core "+mark)
		require.Equal(t, "–", row.Cells[3].S)
		require.NotEqual(t, "–", row.Cells[4].S, "it is stripped")
	}
	require.Equal(t, "Spare cores: 2 (54g) BU: fold them back over the sheath at both ends and insulate them", toy.Plain(rows[8].Cells[1].S))
	require.Contains(t, toy.Said(cableTable(a).Rows), "trailer, 7 cores 1.5 mm² and 2.5 mm², 10.5 mm across||tow||1.53||2||0.48") // cells and their empty notes
}

// The kestrel's crank sensor hangs on a pair under a screen that is earthed at the
// engine module alone.
func TestAPairUnderAScreen(t *testing.T) {
	a := toy.Samples(t)["kestrel"]
	rows := unitRows(a)
	require.Equal(t, "Twist and screen · crank", rows[0].Cells[0].S)
	require.Equal(t, "2 wires, 1 155 mm finished, lay 30.5 mm, 4.8 mm across", toy.Plain(rows[0].Cells[1].S))
	require.Contains(t, toy.Said(rows[1:2]), "braid|over them|||1 095||30|back|at ECU|screen earthed at ECU.s1|30|back|at CKP|screen insulated")
	for _, row := range rows[2:4] {
		require.NotNil(t, row.Cells[0].Draw)
		require.Equal(t, "1 175", toy.Plain(row.Cells[3].S)) // 1155 · √(1 + (π·1.6 ÷ 30.48)²) = 1170.6, rounded up to 5
	}
	require.Contains(t, toy.Said(itemRows(a)), "screening braid with jacket, over wires of 3.2 mm")
}
