package ampacity

import (
	"example.com/loomfolio/sizing/heat"
	"example.com/loomfolio/sizing/unit"
)

// single is the heat of wires with no other beside them: what each kind may carry,
// and the kinds made ready, by the air. It holds what was asked before.
type single struct {
	kinds   []heat.Wire
	carried map[singleKey]float64
	ready   map[singleKey]*heat.Loaded // the limit is 0
}

type singleKey struct {
	kind       int
	limit, air unit.Celsius
}

func newSingle(kinds []heat.Wire) *single {
	return &single{kinds: kinds, carried: map[singleKey]float64{}, ready: map[singleKey]*heat.Loaded{}}
}

// upTo gives what a kind may carry for ever up to a limit.
func (s *single) upTo(kind int, limit, air unit.Celsius) float64 {
	key := singleKey{kind, limit, air}
	a, ok := s.carried[key]
	if !ok {
		a = float64(s.kinds[kind].Current(limit, air))
		s.carried[key] = a
	}
	return a
}

// warmed gives the conductor's temperature at a current, or one that is no higher
// than its own where that is not above some other already.
func (s *single) warmed(kind int, a unit.Ampere, air, other unit.Celsius) unit.Celsius {
	key := singleKey{kind: kind, air: air}
	b := s.ready[key]
	if b == nil {
		b = heat.Alone(s.kinds[kind], air).Prepare(s.kinds, []int{kind}).Carrying(nil)
		s.ready[key] = b
	}
	if cooler, _ := b.Carries(0, kind, float64(a), other); cooler {
		return air
	}
	return s.kinds[kind].Temperature(a, air)
}
