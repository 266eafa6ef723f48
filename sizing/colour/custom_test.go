package colour

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
)

// asked are conventions by their words, in order.
func asked(words string) []harness.Convention {
	var out []harness.Convention
	for _, w := range strings.Fields(words) {
		out = append(out, harness.Convention{Set: w})
	}
	return out
}

// horn puts a source at a terminal, a contact into SW and a load into the horn H.
func (b *bench) horn(source string) {
	b.element("BAT", harness.EMF, source, "BAT.-")
	b.element("SW", harness.Contact, "SW.1", "SW.2")
	b.element("H", harness.Load, "H.+", "H.-")
}

// TestNumbersOfPlugsAreNoTerminals: a plug's cavity 54, a relay's 30 and a module's pin 15
// mean nothing that a convention knows.
func TestNumbersOfPlugsAreNoTerminals(t *testing.T) {
	b := build(car+"\nX9 connector\nK relay\nM module\nLS switch", `
		2A F1.2 X9.54.in 1
		2B X9.54.out L1.+ 1
		3A F2.2 K.30 1
		3B K.87 M.15 1
		4A LS.58 L2.+ 1`)
	b.element("BAT", harness.EMF, "F1.2", "BAT.-")
	b.element("BAT", harness.EMF, "F2.2", "BAT.-")
	b.element("K", harness.Contact, "K.30", "K.87")
	b.element("LS", harness.Contact, "F2.2", "LS.58")
	b.element("L1", harness.Load, "L1.+", "L1.-")
	b.element("L2", harness.Load, "L2.+", "L2.-")
	b.h.Practice.Conventions = asked("british iso-1724")
	task := newTask(b.h, b.ways, b.gauges, nil)
	for w, c := range task.custom {
		if name := b.h.Wires[w].Name; name != "4A" {
			require.Nil(t, c, name)
		}
	}
	require.Equal(t, "RD", task.custom[4].colour.String(), "a lighting switch's 58")
}

// TestTheSideStandsAtTheTerminals: L and R beside 49a, or beside a trailer socket's 58L, and
// nowhere else.
func TestTheSideStandsAtTheTerminals(t *testing.T) {
	wires := `
		2A IS.L L1.+ 1
		2B M.L L2.+ 1
		2C F1.2 IS.49a 1`
	for _, c := range []struct {
		wires string
		want  string
	}{{wires, "GN/RD"}, {strings.ReplaceAll(wires, "49a", "1"), ""}} {
		b := build(car+"\nIS switch\nM module", c.wires)
		b.h.Practice.Conventions = asked("british")
		task := newTask(b.h, b.ways, b.gauges, nil)
		got := ""
		if task.custom[0] != nil {
			got = task.custom[0].colour.String()
		}
		require.Equal(t, c.want, got)
		require.Nil(t, task.custom[1], "a module's L may be anything")
	}
}
