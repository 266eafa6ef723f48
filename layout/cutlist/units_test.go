package cutlist

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/toy"
)

// The trailer cable of the camper is cut once, with its cores under it; the one that is
// left over is named at both ends.
func TestACableStandsWithItsCores(t *testing.T) {
	a := toy.Samples(t)["camper"]
	rows := unitRows(a)
	require.Len(t, rows, 2+6+2) // heading and sheath, six cores, its two ends
	require.Equal(t, "Cable tow · trailer", rows[0].Cells[0].S)
	require.Equal(t, "6 of 7 cores, 1 525 mm finished, 10.5 mm across", toy.Plain(rows[0].Cells[1].S))
	require.NotNil(t, rows[1].Cells[0].Draw, "one box to tick")
	require.Equal(t, "1 525", toy.Plain(rows[1].Cells[2].S))
	for i, mark := range []string{"1 (L)", "3 (31)", "4 (R)", "5 (58R)", "6 (54)", "7 (58L)"} {
		row := rows[2+i]
		require.Nil(t, row.Cells[0].Draw, "no core is cut")
		require.Equal(t, "core", row.Cells[0].Note)
		require.Equal(t, mark, toy.Plain(row.Cells[3].Note))
		require.Contains(t, toy.Plain(row.Cells[2].Note), "mm²", "they differ in size")
		require.NotEqual(t, "–", row.Cells[6].S, "it is stripped")
	}
	for i, at := range []string{"X1", "TOW"} {
		require.NotNil(t, rows[8+i].Cells[0].Draw)
		require.Contains(t, toy.Plain(rows[8+i].Cells[1].S), "At "+at+": cut back 50 mm; fold spare core 2 (54g) BU back over the sheath and insulate it; heat-shrink ")
	}
	require.Regexp(t, `need 1\.6 m: 2 m`, toy.Plain(toy.Words(Shopping(a))))
}

// The kestrel's crank sensor hangs on a pair under a screen that is grounded at the
// engine module alone.
func TestAPairUnderAScreen(t *testing.T) {
	a := toy.Samples(t)["kestrel"]
	rows := unitRows(a)
	require.Equal(t, "Twist and screen · crank", rows[0].Cells[0].S)
	require.Equal(t, "2 wires of 0.5 mm² thin wall 125, 1 155 mm finished, lay 30.5 mm, 4.8 mm across", toy.Plain(rows[0].Cells[1].S))
	require.Contains(t, toy.Said(rows[1:2]), "braid||1 095||from ECU to CKP")
	for _, row := range rows[2:4] {
		require.NotNil(t, row.Cells[0].Draw)
		require.Equal(t, "1 175", toy.Plain(row.Cells[3].S)) // 1155 · √(1 + (π·1.6 ÷ 30.48)²) = 1170.6, rounded up to 5
	}
	require.Contains(t, toy.Said(rows[4:5]), "At ECU: cut back 30 mm; drain, sleeved, to ECU.s1: into the crimp of 15B; heat-shrink 8/2 mm")
	require.Contains(t, toy.Said(rows[5:6]), "At CKP: cut back 30 mm; cut the screen off and insulate it")
	require.Regexp(t, "[Ss]creening braid with jacket,? .*over wires (of|from 1.6 mm to) 3.2 mm", toy.Words(Shopping(a)))
}
