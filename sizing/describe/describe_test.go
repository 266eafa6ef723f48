package describe

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

func printed(d *Description, ps source.Problems) string {
	var b bytes.Buffer
	source.Print(&b, d.File, ps)
	return b.String()
}

func whole(t *testing.T) *Description {
	t.Helper()
	text, err := os.ReadFile("testdata/whole.yaml")
	require.NoError(t, err)
	d, ps := Parse("whole.yaml", text)
	require.Empty(t, ps, printed(d, ps))
	return d
}

func (d *Description) part(key string) Part {
	for _, p := range d.Parts {
		if p.Key.Text == key {
			return p
		}
	}
	return Part{}
}

func texts(words []read.Word) string {
	var out []string
	for _, w := range words {
		out = append(out, w.Text)
	}
	return strings.Join(out, " ")
}

func TestEveryKeyIsTakenIn(t *testing.T) {
	d := whole(t)
	require.Equal(t, "Radiator fan and fuel pump", d.Title.Text)
	require.Equal(t, source.At(2, 8, 26), d.Title.Span)
	require.Equal(t, "Kestrel GT/KG-014", d.Vehicle.Name.Text+"/"+d.Vehicle.Identity.Text)
	require.Equal(t, "Built over one winter.\nSee the folder.", d.Notes.Text)
	require.Equal(t, unit.Volt(12), d.System.Volts.V)
	require.Equal(t, unit.Volt(14.2), d.System.Running.V)
	require.Equal(t, "chassis", d.System.Return.Text)

	p := d.Practice
	require.Len(t, p.Drop, 3)
	require.Equal(t, unit.Volt(0.5), p.Drop[1].Limit.V.Volts)
	require.Equal(t, unit.Gauge{System: unit.Metric, Size: "2.5"}, p.Stock[1].Gauge.V)
	require.Equal(t, "OG", p.Stock[1].Colours[0].Colour.Text)
	require.Equal(t, unit.Millimetre(800), p.Stock[1].Colours[0].Left[1].V)
	require.Equal(t, unit.OhmPerMetre(0.00881), p.WireTypes[0].Sizes[0].Resistance.V)
	require.True(t, p.Mixed.Given())
	require.False(t, p.Mixed.V)

	require.Equal(t, unit.Celsius(95), d.Places[3].Ambient.V)
	require.Equal(t, "front left", texts(d.Places[3].Lies))
	require.InDelta(t, 1879.6, float64(d.Runs[1].Length.V), 1e-9)
	require.True(t, d.Runs[1].Flexes.V)
	require.Len(t, d.Parts, 26)

	require.Equal(t, "blade", d.part("MF1").HolderBody.Text)
	require.Equal(t, unit.Ampere(30), d.part("MF2").Holder.V)
	require.Equal(t, unit.Start{Amps: 55, For: 0.4}, d.part("FAN").Starts.V)
	require.Equal(t, unit.Watt(35), d.part("LMP").Draws.V.Watts)
	require.Equal(t, unit.Coil{Ohms: 85}, d.part("K1").Coil.V)
	require.True(t, d.part("K1").Changeover.V)
	require.Equal(t, [2]string{"1", "2"}, [2]string{d.part("SW1").Positions[1].Pairs[0][0].Text, d.part("SW1").Positions[1].Pairs[0][1].Text})
	require.Empty(t, d.part("SW1").Positions[0].Pairs)
	require.Equal(t, "3 4", texts(d.part("FP").Layout[1]))
	require.Equal(t, "3 4", texts(d.part("FP").Feeds[1].Positions))
	require.Equal(t, unit.Ampere(7.5), d.part("FP").Fuses[1].Rating.V)
	require.Equal(t, "GND GND2", texts(d.part("MOD").Inside[1].Join))
	require.Equal(t, unit.Ohm(4.7), d.part("R1").Ohms.V)
	require.Equal(t, "2.2 uF", d.part("C1").Value.Text)
	require.Equal(t, "1 2 3 4 5 6", texts(d.part("X1").Cavities))
	require.Equal(t, "0042", d.part("X1").PartNumber.Text)
	require.Equal(t, "A a NO on 012 087", texts(d.part("X2").Cavities))
	require.Equal(t, unit.Millimetre(300), d.part("SP1").Along.Distance.V)
	require.Equal(t, "#10", d.part("G2").Stud.Text)
	require.Equal(t, "a b off", texts(d.part("ODD").Terminals))
	require.Equal(t, "1", d.part("CB").Type.Text)

	legs := d.Circuits[0].Legs
	require.Len(t, legs, 3)
	require.Equal(t, read.Word{Text: "+", Span: source.At(91, 14, 1)}, legs[0].Stops[0].Terminal)
	require.Equal(t, read.Word{Text: "BAT", Span: source.At(91, 10, 3)}, legs[0].Stops[0].Part)
	require.False(t, legs[0].Stops[1].Terminal.Given())
	require.Equal(t, "NO", legs[2].Stops[2].Terminal.Text)
	stop := legs[2].Stops[3]
	require.Equal(t, "LMP.+ OG/BK gxl pair-3 s1 12Z bulkhead", texts([]read.Word{stop.To, stop.Colour, stop.Insulation, stop.Twist, stop.Screen, stop.Name, stop.Via[0]}))
	require.Equal(t, unit.Gauge{System: unit.AWG, Size: "12"}, stop.Gauge.V)
	require.Equal(t, "running", d.States[1].Engine.Text)
	require.Equal(t, "on", d.States[1].Settings[1].Value.Text)
	require.Empty(t, d.States[0].Settings)
	require.True(t, d.StatesSpan.Known())
}

// The reference list names what the reader knows, and each key once a section.
func TestKeysListWhatIsRead(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range Keys() {
		id := k.ID()
		require.False(t, seen[id], id)
		require.NotEmpty(t, k.Holds, id)
		seen[id] = true
	}
	require.True(t, seen["parts.draws"] && seen["circuits.legs.colour"] && seen["loomfolio"])
	for _, k := range kind.All() {
		for _, name := range strings.Fields(kind.Common + " " + k.Keys + " " + k.Needs) {
			require.True(t, seen["parts."+name], "%s of %s", name, k.Kind)
		}
	}
}

// Byte order mark and DOS line ends leave the columns right.
func TestMarkAndLineEndsKeepColumns(t *testing.T) {
	text, err := os.ReadFile("testdata/whole.yaml")
	require.NoError(t, err)
	d := whole(t)
	dos := append([]byte("\ufeff"), bytes.ReplaceAll(text, []byte("\n"), []byte("\r\n"))...)
	e, ps := Parse("dos.yaml", dos)
	require.Empty(t, ps, printed(e, ps))
	require.Equal(t, d.Title, e.Title)
	require.Equal(t, d.Circuits, e.Circuits)
	require.Equal(t, dos, e.File.Text)
}

func TestGaugeWithoutSystemFollowsTheSheet(t *testing.T) {
	for sheet, want := range map[string]unit.System{"mm2": unit.SAE, "awg": unit.AWG, "sae": unit.SAE} {
		text := strings.ReplaceAll(minimal, "parts:", "practice: {smallest: 14 ga}\nsheet: {gauge: "+sheet+"}\nparts:")
		d, ps := Parse("x", []byte(text))
		require.Empty(t, ps, printed(d, ps))
		require.Equal(t, unit.Gauge{System: want, Size: "14"}, d.Practice.Smallest.V)
	}
}

const minimal = "loomfolio: 1\ntitle: t\nsystem: {volts: 12}\nparts: {A: {kind: battery}}\ncircuits: {c: {legs: [[A.+, A.-]]}}\n"

// A key that holds something else at other kinds is read as its own kind has it; a box that
// nobody knows is a load once it draws something.
func TestOneWordHoldsWhatItsKindHas(t *testing.T) {
	read := func(keys string) (Part, string) {
		d, ps := Parse("x", []byte(strings.ReplaceAll(minimal, "{kind: battery}", "{kind: battery}, X: {"+keys+"}")))
		return d.Parts[1], slugList(ps)
	}
	box, said := read("kind: unknown, draws: 2 A, drop: 8 %, needs: 11.5 V")
	require.Empty(t, said)
	require.Equal(t, unit.Volt(11.5), box.NeedsVolts.V)
	require.True(t, box.Limit.Given())
	flasher, said := read("kind: flasher, needs: 1.2 A")
	require.Empty(t, said)
	require.Equal(t, unit.Ampere(1.2), flasher.Needs.V)
	_, said = read("kind: flasher, needs: 11.5 V")
	require.Equal(t, "bad-quantity", said)
	socket, said := read("kind: trailer-socket, type: iso-1724")
	require.Empty(t, said)
	require.Equal(t, "iso-1724", socket.Type.Text)
	_, said = read("kind: breaker, type: iso-1724")
	require.Equal(t, "unknown-word", said)
}
