package fit

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/fit/shed"
	"example.com/loomfolio/sizing/harness"
)

// 1.5 mm² lies in red and in blue (sleeves.csv): it takes red where red is bought for the same
// fitting and no blue is, blue where blue is bought anyway, and where nothing else is bought. By
// itself, and where few kinds are not asked for, blue.
func TestFewSleeves(t *testing.T) {
	for _, c := range []struct {
		buy, beside, want string
	}{
		{"few", "0.5", "red insulated"}, {"few", "2", "blue insulated"}, {"few", "", "blue insulated"},
		{"few", "4", "blue insulated"}, {"clear", "0.5", "blue insulated"},
	} {
		s := shed.New()
		s.H.Practice.Buy = harness.AsFew()
		s.H.Practice.Buy.For = c.buy
		s.Part("K1", harness.Relay)
		s.Part("K2", harness.Relay)
		s.Wire(s.At("K1", "86"), s.At("K2", "86"), shed.MM2("1.5"), 500)
		if c.beside != "" {
			s.Wire(s.At("K1", "87"), s.At("K2", "87"), shed.MM2(c.beside), 500)
		}
		out, _ := All(s.H, s.Ways, s.C)
		require.Equal(t, c.want, out.Ends[0][0].Crimp, "%s beside %s", c.buy, c.beside)
		if c.want == "red insulated" {
			require.Equal(t, "0.5-1.5 mm2", out.Ends[0][0].Size)
			require.Contains(t, out.Ends[0][0].Reason, "prove by pull test")
		}
	}
}

// What is crimped together, what the part names and what red does not cover keep their colours.
func TestFewSleevesLeaveAlone(t *testing.T) {
	s := shed.New()
	s.H.Practice.Buy = harness.AsFew()
	s.Part("K1", harness.Relay)
	s.Part("K2", harness.Relay).Sleeve = "blue"
	s.Part("K3", harness.Relay)
	s.Wire(s.At("K1", "85"), s.At("K3", "85"), shed.MM2("0.5"), 500)
	s.Wire(s.At("K1", "86"), s.At("K2", "86"), shed.MM2("1.5"), 500)
	s.Wire(s.At("K1", "87"), s.At("K3", "87"), shed.MM2("0.75"), 500)
	s.Wire(s.At("K1", "87"), s.At("K3", "30"), shed.MM2("0.75"), 500)
	out, _ := All(s.H, s.Ways, s.C)
	require.Equal(t, "blue insulated", out.Ends[1][1].Crimp, "given by the part")
	require.Equal(t, "blue insulated", out.Ends[1][0].Crimp, "blue is bought anyway")
	require.Equal(t, "blue insulated", out.Ends[2][0].Crimp, "two wires together fill more than one")
	require.Equal(t, "red insulated", out.Ends[2][1].Crimp)
}
