package diagnose

import (
	"fmt"
	"math"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// what says what is wrong, in a few words; what a joint costs is left out.
func what(h *harness.Harness, f *proof.Fault) string {
	a, b, touch := strings.Cut(f.Element, "~")
	switch {
	case touch:
		return a + " touches " + b
	case f.Wire != harness.None:
		return "wire " + f.Element + " " + wireWords[f.Kind]
	}
	if p := elementOf(h, f.Element); p != nil && p.Kind == harness.FuseLink {
		return "fuse " + f.Element + " " + fuseWords[f.Kind]
	}
	return f.Element + " " + otherWords[f.Kind]
}

var wireWords = map[proof.Kind]string{proof.Open: "open", proof.Joint: "with a bad joint", proof.Short: "shorted to ground"}

var fuseWords = map[proof.Kind]string{proof.Open: "open", proof.Burnt: "with a bad contact", proof.Joint: "with a bad contact", proof.Shorted: "bridged", proof.Welded: "bridged"}

var otherWords = map[proof.Kind]string{
	proof.Open: "open", proof.Joint: "with a bad joint", proof.Burnt: "with a bad contact", proof.Short: "shorted to ground", proof.Welded: "welded, does not open",
	proof.Stuck: "stuck, draws its coil current and does not move", proof.Unearthed: "off: what is grounded there has no ground", proof.Shorted: "shorted inside",
	proof.Flat: "flat", proof.Disconnected: "disconnected", proof.Dead: "gives nothing",
}

// elementOf finds an element by its name, nil where there is none.
func elementOf(h *harness.Harness, name string) *harness.Element {
	for i := range h.Elements {
		if h.Elements[i].Name == name {
			return &h.Elements[i]
		}
	}
	return nil
}

// where says where a fault lies.
func where(h *harness.Harness, f *proof.Fault) string {
	if f.Wire != harness.None {
		w := h.Wires[f.Wire]
		return h.Terminals[w.From].Full + " to " + h.Terminals[w.To].Full + ", " + circuit(h, w.Circuit)
	}
	if f.Part == harness.None {
		return ""
	}
	p := h.Parts[f.Part]
	if p.Name == p.Ref {
		return place(h, p.Place)
	}
	return joinedWith(", ", p.Name, place(h, p.Place))
}

func circuit(h *harness.Harness, c harness.CircuitID) string {
	if c == harness.None {
		return ""
	}
	return h.Circuits[c].Name
}

func place(h *harness.Harness, p harness.PlaceID) string {
	if p == harness.None {
		return ""
	}
	return h.Places[p].Name
}

// joinedWith joins what is not empty.
func joinedWith(between string, pieces ...string) string {
	var out []string
	for _, p := range pieces {
		if p != "" {
			out = append(out, p)
		}
	}
	return strings.Join(out, between)
}

// volts is as a meter shows it on its 20 V range, without the digits that say nothing.
func volts(v unit.Volt) string {
	if math.Abs(float64(v)) < .995 {
		return fmt.Sprintf("%.2f V", float64(v)+0)
	}
	return fmt.Sprintf("%.1f V", float64(v))
}

// band is a band of readings in words; the first and the last are open to one side.
func band(a proof.Answer, first, last bool) string {
	switch {
	case first:
		return "over " + volts(a.Low)
	case last:
		return "under " + volts(a.High)
	}
	return strings.TrimSuffix(volts(a.Low), " V") + " to " + volts(a.High)
}

// percent is a share as a whole number.
func percent(x float64) string {
	if x < .005 {
		return "<1 %"
	}
	return fmt.Sprintf("%.0f %%", 100*x)
}
