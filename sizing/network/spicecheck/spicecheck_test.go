package spicecheck

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestParse(t *testing.T) {
	out := "No. of Data Rows : 1\nv(1) = 1.255361827340283e+01\nv(12) = -4e-3\nv1#branch = -9.2e+00\nx1 = 1.26e+01\nv(x3) = 2\nngspice-39 done\n"
	require.Equal(t, map[int]float64{1: 12.55361827340283, 12: -0.004}, Parse(out))
}

func FuzzParse(f *testing.F) {
	f.Add("v(1) = 1.2e+01\n")
	f.Add("v( = \n = \nv(9) = x")
	f.Fuzz(func(t *testing.T, out string) { Parse(out) })
}
