package heat

import (
	"encoding/csv"
	"flag"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.com/loomfolio/sizing/unit"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the comparison anew")

// published is one row of testdata/published.csv. The air temperatures are not
// stated by the sources; each set has the one that fits (the conductor's too in
// the thin-wall and truck sets).
type published struct {
	set, size      string
	wire           Wire
	amps           unit.Ampere
	conductor, air unit.Celsius
	miss           string // why the row is known not to fit
}

// table reads a CSV file as rows by column name.
func table(t testing.TB, name string) []map[string]string {
	file, err := os.Open("testdata/" + name)
	require.NoError(t, err)
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	var out []map[string]string
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, key := range lines[0] {
			row[key] = line[i]
		}
		require.NotEmpty(t, row["source"])
		out = append(out, row)
	}
	return out
}

func figure(t testing.TB, text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

func wireOf(conductor, outside, ohmPerKM float64) Wire {
	return Wire{unit.Millimetre(conductor), unit.Millimetre(outside), unit.OhmPerMetre(ohmPerKM / 1000)}
}

func publishedRows(t testing.TB) []published {
	var out []published
	for _, r := range table(t, "published.csv") {
		n := func(key string) float64 { return figure(t, r[key]) }
		out = append(out, published{
			r["set"], r["size"], wireOf(n("conductor_mm"), n("outside_mm"), n("ohm_per_km_20c")),
			unit.Ampere(n("amps")), unit.Celsius(n("conductor_c")), unit.Celsius(n("air_c")), r["miss"],
		})
	}
	return out
}

// off gives how far the model lies from the published current, 0.1 is 10 % over.
func (p published) off() float64 {
	return float64(p.wire.Current(p.conductor, p.air)/p.amps) - 1
}

// Every published current of a single wire within a tenth. The rows marked as
// misses in the table stay misses, and on the safe side.
func TestPublishedCurrents(t *testing.T) {
	rows := publishedRows(t)
	require.Len(t, rows, 29+10+7+6+1)
	var misses []string
	for _, p := range rows {
		if p.miss != "" {
			misses = append(misses, p.set+" "+p.size)
		}
		name := fmt.Sprintf("%s %s: %g A", p.set, p.size, float64(p.amps))
		limit := 0.10
		if p.set == "boat-105" {
			limit = 0.13 // neither its own dimensions nor its conductor's resistance are published
		}
		if p.miss == "" {
			require.LessOrEqual(t, math.Abs(p.off()), limit, name)
			continue
		}
		require.Less(t, p.off(), -limit, name+": no miss any more")
		require.Greater(t, p.off(), -0.15, name)
	}
	require.Equal(t, []string{"AVSS 1.25", "AESSX 1.25"}, misses)
}

// The air of the AESSX rows is not stated: 81 C, a rise of 39 K and so nearly
// the 40 K of the 80 C class, brings most rows within a tenth, with the least mean.
func TestAirOfTheHotClass(t *testing.T) {
	fits := func(air unit.Celsius) (within int, mean float64) {
		for _, p := range publishedRows(t) {
			if p.set != "AESSX" {
				continue
			}
			p.air = air
			mean += math.Abs(p.off()) / 6
			if math.Abs(p.off()) <= 0.1 {
				within++
			}
		}
		return within, mean
	}
	best, mean := fits(81)
	require.Equal(t, 5, best)
	for air := unit.Celsius(40); air < 120; air++ {
		n, m := fits(air)
		require.LessOrEqual(t, n, best, air)
		require.GreaterOrEqual(t, m, mean, air)
	}
}

// The whole comparison as text, so that a change of the model shows what it moves.
func TestComparison(t *testing.T) {
	var b strings.Builder
	b.WriteString("set        size    conductor air  published   model    off  at published\n")
	worst, sum, count := map[string]float64{}, map[string]float64{}, map[string]int{}
	var sets []string
	for _, p := range publishedRows(t) {
		off := p.off()
		fmt.Fprintf(&b, "%-10s %-6s  %5g C  %5g C  %6.1f A  %6.1f A  %+5.1f%%  %6.1f C\n", p.set, p.size, float64(p.conductor), float64(p.air),
			float64(p.amps), float64(p.wire.Current(p.conductor, p.air)), 100*off, float64(p.wire.Temperature(p.amps, p.air)))
		if count[p.set] == 0 {
			sets = append(sets, p.set)
		}
		worst[p.set] = math.Max(worst[p.set], math.Abs(off))
		sum[p.set] += math.Abs(off)
		count[p.set]++
	}
	for _, s := range sets {
		fmt.Fprintf(&b, "%-10s %2d rows, largest %4.1f%%, mean %4.1f%%\n", s, count[s], 100*worst[s], 100*sum[s]/float64(count[s]))
	}
	b.WriteString("\nshare of its single current that each of so many equal loaded wires may carry\n" + factorText())
	golden(t, "comparison.txt", b.String())
}

func golden(t *testing.T, name, text string) {
	if *update {
		require.NoError(t, os.WriteFile("testdata/"+name, []byte(text), 0o644))
	}
	want, err := os.ReadFile("testdata/" + name)
	require.NoError(t, err)
	require.Equal(t, string(want), text)
}
