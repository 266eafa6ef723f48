package sneak

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/source"
)

// What a fan gives that the wind turns: half the system's voltage, behind what its winding
// lets through when it stands still, five times its current. Judgement, not published.
const (
	windPart  = 0.5
	standPart = 5
)

// turning are the words for what the wind turns.
var turning = []string{"fan", "blower"}

// turned lets each fan be turned with everything at rest, and tells what it then feeds.
func (s *search) turned(rest *scene) error {
	for i := range s.h.Elements {
		e := &s.h.Elements[i]
		if e.Kind != harness.Load || e.Amps <= 0 || !s.windmill(&s.h.Parts[e.Part]) {
			continue
		}
		volts := windPart * s.nominal(e)
		ohms := s.nominal(e) / (standPart * float64(e.Amps))
		st, err := s.prepare(*rest, nil, []network.Source{{Element: e.ID, Volts: volts, Ohms: ohms}})
		if err != nil {
			return err
		}
		v, _, err := s.solve(st, rest)
		if err != nil {
			continue
		}
		s.Looked.Changes++
		s.feeds(rest, v, e)
	}
	return nil
}

// windmill tells a motor whose name says that the wind turns it.
func (s *search) windmill(p *harness.Part) bool {
	name := strings.ToLower(p.Ref + " " + p.Name)
	return p.Kind == harness.Motor && slices.ContainsFunc(turning, func(w string) bool { return strings.Contains(name, w) })
}

// feeds tells what a turned motor feeds: loads and coils that get a real current, or hold,
// and that without it take nothing.
func (s *search) feeds(rest *scene, v view, motor *harness.Element) {
	var loads []harness.ElementID
	amps := 0.0
	for _, id := range s.draws {
		e := &s.h.Elements[id]
		if e.ID == motor.ID || !s.on(e, v) || s.resting[id] {
			continue
		}
		loads = append(loads, id)
		amps = max(amps, math.Abs(v.Amps(id)))
	}
	if len(loads) == 0 {
		return
	}
	w := s.way(v, loads[0])
	names := s.elements(loads)
	says := fmt.Sprintf("with %s turned by the wind and nothing switched on, it feeds %s: %s", motor.Name, source.Some(names, ""), strings.Join(s.named(w), " – "))
	cure := fmt.Sprintf("feed %s by a contact of its own, or by a diode from where %s hangs", source.Some(names, ""), motor.Name)
	s.Problems = append(s.Problems, source.Problem{
		Slug: "turned-motor-feeds", Level: source.Advice, Span: s.h.Parts[motor.Part].Span, Summary: says, Detail: cure,
		Subjects: append([]string{motor.Name}, names...), Numbers: []source.Number{{Name: "amps", Value: amps}},
	})
	s.Sneaks = append(s.Sneaks, proof.Sneak{Kind: Turned, State: rest.name, Path: w.stops(), Loads: loads, Amps: amps, Says: says, Cure: cure, Slug: "turned-motor-feeds"})
}
