package finding

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// isolators asks of each isolator whether opening it while the engine runs
// stops anything that the key feeds: an isolator in the battery's lead alone
// leaves the alternator to keep the engine alive.
func (f *inspection) isolators() {
	running := f.fullestRunning()
	if running < 0 || len(f.ElementsOf(harness.Charger)) == 0 {
		return
	}
	for i := range f.H.Parts {
		p := &f.H.Parts[i]
		if p.Kind != harness.Isolator {
			continue
		}
		if open := f.H.Opened(p); open >= 0 {
			f.isolator(p, running, open)
		}
	}
}

// fullestRunning gives the state with the engine running in which the loads take
// most, -1 where there is none.
func (f *inspection) fullestRunning() int {
	best := -1
	for i := range f.H.States {
		if f.H.States[i].Engine == harness.EngineRunning && (best < 0 || f.c.Budgets[i].Loads > f.c.Budgets[best].Loads) {
			best = i
		}
	}
	return best
}

func (f *inspection) isolator(p *harness.Part, running, open int) {
	keyed := f.keyed(running)
	set := map[harness.PartID]int{p.ID: open}
	still, err := f.AsIf(running, harness.EngineOff, set)
	if err != nil || len(keyed) == 0 || f.anyOn(keyed, &still) {
		return // it does not isolate what the key feeds
	}
	st, err := f.AsIf(running, harness.EngineRunning, set)
	if err != nil {
		return
	}
	sum, names := 0.0, []string(nil)
	for _, id := range keyed {
		a := math.Abs(st.Amps[id])
		if !f.Awake(&f.H.Elements[id], a) {
			return // something that the key feeds has died
		}
		sum += a
		names = append(names, f.H.Elements[id].Name)
	}
	f.doesNotKill(p, f.H.States[running].Name, names, sum)
}

func (f *inspection) doesNotKill(p *harness.Part, state string, names []string, sum float64) {
	said := strings.Join(names[:min(len(names), 6)], ", ")
	if len(names) > 6 {
		said += fmt.Sprintf(" and %d more", len(names)-6)
	}
	f.add(source.Problem{
		Slug: "isolator-does-not-kill", Level: source.Advice, Span: p.Span,
		Summary:  fmt.Sprintf("%s open in %s does not stop the engine: the alternator still feeds %s (%s)", p.Ref, state, said, unit.Amps(sum)),
		Detail:   "where it must kill the engine, put a second pair of its contacts in the ignition feed; otherwise open it with the engine off only",
		Subjects: append([]string{p.Ref, state}, names...), Numbers: []source.Number{number("amps", sum)},
	})
}

// anyOn tells whether any of some loads is on in a solved state.
func (f *inspection) anyOn(loads []harness.ElementID, st *network.State) bool {
	return slices.ContainsFunc(loads, func(id harness.ElementID) bool {
		return f.Awake(&f.H.Elements[id], math.Abs(st.Amps[id]))
	})
}

// keyed lists the loads that draw in a running state and stop when the ignition
// switches go to rest; all that draw where there is no ignition switch.
func (f *inspection) keyed(running int) []harness.ElementID {
	rest := map[harness.PartID]int{}
	for i := range f.H.Parts {
		if f.H.Parts[i].Kind == harness.IgnitionSwitch {
			rest[f.H.Parts[i].ID] = 0
		}
	}
	st, err := f.AsIf(running, harness.EngineRunning, rest)
	if err != nil {
		return nil
	}
	var out []harness.ElementID
	for i := range f.H.Elements {
		e := &f.H.Elements[i]
		on := f.Awake(e, math.Abs(f.States[running].Amps[i]))
		if e.Kind == harness.Load && on && (len(rest) == 0 || !f.Awake(e, math.Abs(st.Amps[i]))) {
			out = append(out, e.ID)
		}
	}
	return out
}
