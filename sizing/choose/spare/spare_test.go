package spare_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

// asBuilt gives a vehicle with every gauge and every rating given as it was chosen, and
// some wires in another size.
func asBuilt(h *harness.Harness, r *result.Result, other []chosen.Thicker) *harness.Harness {
	n := *h
	n.Wires, n.Parts = slices.Clone(h.Wires), slices.Clone(h.Parts)
	for w := range n.Wires {
		n.Wires[w].Gauge = r.Wires[w].Gauge
	}
	for _, t := range other {
		n.Wires[t.Wire].Gauge = t.Gauge
	}
	for i := range r.Fuses {
		f := &r.Fuses[i]
		p := &n.Parts[f.Part]
		if p.Panel == nil {
			p.Rating, p.Body = f.Rating, bodyOf(f)
			continue
		}
		panel := *p.Panel
		panel.Rating = maps.Clone(panel.Rating)
		if panel.Rating == nil {
			panel.Rating = map[string]unit.Ampere{}
		}
		panel.Rating[f.Position] = f.Rating
		p.Panel = &panel
	}
	return &n
}

func bodyOf(f *chosen.Fuse) string {
	if f.Breaker {
		return ""
	}
	return f.Body
}

// enlarged sizes a vehicle with one load's current, and what it takes while it starts, k times
// as large.
func enlarged(t *testing.T, h *harness.Harness, e harness.ElementID, k float64) *result.Result {
	t.Helper()
	n := *h
	n.Elements, n.Parts = slices.Clone(h.Elements), slices.Clone(h.Parts)
	x := &n.Elements[e]
	x.Amps *= unit.Ampere(k)
	p := &n.Parts[x.Part]
	if i := slices.IndexFunc(p.Elements, func(id harness.ElementID) bool { return n.Elements[id].Kind == harness.Load }); i >= 0 && p.Elements[i] == e {
		p.Starts.Amps *= unit.Ampere(k)
	}
	r, err := sizing.Size(&n, nil)
	require.NoError(t, err)
	return r
}

// slightly is how much of a limit a drop may pass: others' wires get warmer too, and the
// currents of all loads follow their volts.
const slightly = 1.01

// said lists the findings by name, level and first subject, but for drops that are no more
// than so many times their limit.
func said(r *result.Result, times float64) map[string]bool {
	out := map[string]bool{}
	for _, p := range r.Findings {
		drop, limit := 0.0, 0.0
		for _, n := range p.Numbers {
			switch n.Name {
			case "drop_v":
				drop = n.Value
			case "limit_v":
				limit = n.Value
			}
		}
		if limit > 0 && drop <= times*limit {
			continue
		}
		out[p.Slug+" "+p.Level.String()+" "+strings.Join(p.Subjects[:min(1, len(p.Subjects))], "")] = true
	}
	return out
}

// newly lists what is said of one result and not of another.
func newly(was, now *result.Result, times float64) []string {
	had, out := said(was, times), []string{}
	for what := range said(now, times) {
		if !had[what] {
			out = append(out, what)
		}
	}
	slices.Sort(out)
	return out
}

// soft are the findings that a note speaks of beside what is safe, and that a fuse which opens
// in time all the same is no more three times below a short, whose way is warmer.
func soft(what string) bool {
	return strings.HasPrefix(what, "drop-over-limit ") || strings.HasPrefix(what, "gauge-given-too-thin warning") || strings.HasPrefix(what, "alternator-overloaded ") ||
		strings.HasPrefix(what, "key-off-drain ") || strings.HasPrefix(what, "gauge-on-shared-ground ") || strings.HasPrefix(what, "regulator-starved ") || strings.HasPrefix(what, "short-may-not-open advice ")
}

// weaker are those of soft but that of an alternator: what it no longer gives, the load no
// longer gets, and the fuse no longer carries.
func weaker(what string) bool {
	return soft(what) && !strings.HasPrefix(what, "alternator-overloaded ")
}

// eachSpare visits what is said of the samples, with the vehicle as it is built: every
// sixth from a first one, or every twentieth in short tests.
func eachSpare(t *testing.T, first int, visit func(t *testing.T, h *harness.Harness, r, built *result.Result, s chosen.Spare)) {
	for _, sample := range samples.List() {
		h, r := worked.Out(t, sample)
		built := enlarged(t, asBuilt(h, r, nil), 0, 1)
		step := 6
		if testing.Short() {
			step = 20
		}
		for i, s := range r.Spares {
			if i%step != first {
				continue
			}
			t.Run(sample.Name+" "+h.Elements[s.Element].Name, func(t *testing.T) { visit(t, h, r, built, s) })
		}
	}
}

// TestNothingChangesUpTo sizes the samples as they are built with each load just below and
// just above what is said of it: below nothing is found, above something is.
func TestNothingChangesUpTo(t *testing.T) {
	eachSpare(t, 0, func(t *testing.T, h *harness.Harness, r, built *result.Result, s chosen.Spare) {
		room := float64(s.UpTo/s.Amps) - 1
		if room < 0.005 || h.Elements[s.Element].Kind == harness.Charger {
			return
		}
		as := asBuilt(h, r, nil)
		require.Empty(t, newly(built, enlarged(t, as, s.Element, 1+room*0.98), slightly), "%v", s.Limits[0])
		require.NotEmpty(t, newly(built, enlarged(t, as, s.Element, 1+room*1.15+0.02), 1), "%v", s.Limits[0])
	})
}

// TestSafeIsSafe: the same for what is safe, with the wires that the warmth asks for:
// below, nothing opens, is overloaded or gets too hot; above, something does.
func TestSafeIsSafe(t *testing.T) {
	eachSpare(t, 1, func(t *testing.T, h *harness.Harness, r, built *result.Result, s chosen.Spare) {
		room := float64(s.Safe/s.Amps) - 1
		if room < 0.005 {
			return
		}
		as := asBuilt(h, r, s.Warm)
		require.Empty(t, slices.DeleteFunc(newly(built, enlarged(t, as, s.Element, 1+room*0.98), slightly), soft), "%v", s.Limits)
		if s.Amps > 0.2 { // a charge lamp is in series with what it excites
			above := newly(built, enlarged(t, as, s.Element, 1+room*1.05+0.02), 1)
			require.NotEmpty(t, slices.DeleteFunc(above, weaker), "%v", s.Limits)
		}
	})
}
