package circuit

import (
	"fmt"
	"math"
)

// lacks is the part of its lowest voltage by which a converter may be under it and works yet.
const lacks = 1e-9

// intake is the power that the input of a converter takes at the voltages as they stand, W.
func (w *work) intake(e *Element) float64 {
	watts := 0.0
	if out := &w.elements[e.Control]; out.Kind == Limited {
		v := w.between(&w.branches[e.Control])
		amps, _ := out.limitedFlow(v)
		watts = math.Max(0, -amps*v)
	}
	return watts/e.Efficiency + e.Standing
}

// mostIntake is the most power that the input of a converter takes, W.
func (w *work) mostIntake(e *Element) float64 {
	out := &w.network.Elements[e.Control]
	return out.Volts*out.Amps/e.Efficiency + e.Standing
}

// dead tells an input that does not work, and an output without one that does.
func (w *work) dead(i int) bool {
	switch e := &w.elements[i]; {
	case e.Kind == Intake:
		return w.cut[i]
	case e.Kind == Limited && w.feeds[i] >= 0:
		return w.elements[w.feeds[i]].Kind != Intake || w.cut[w.feeds[i]]
	}
	return false
}

// stop makes a converter work, or not.
func (w *work) stop(i int, cut bool) {
	w.cut[i] = cut
	w.retake(i)
}

// retake makes the branch of an element that is not as it was, and with the input of a
// converter that of its output.
func (w *work) retake(i int) {
	w.take(i)
	if e := &w.network.Elements[i]; e.Kind == Intake {
		w.take(e.Control)
	}
}

// restore lets all converters work.
func (r *relays) restore() {
	for _, i := range r.intakes {
		r.stop(i, false)
	}
}

// shed stops the converter that is furthest below its lowest voltage, and tells whether
// there was one. None that is stopped starts again while the contacts stand as they do:
// what cannot hold up its feed stays off, and nothing chatters.
func (r *relays) shed() bool {
	worst, least := -1, 1-lacks
	for _, i := range r.intakes {
		if e := &r.elements[i]; r.takes(i) {
			if part := r.between(&r.branches[i]) / e.Floor; part < least {
				worst, least = i, part
			}
		}
	}
	if worst < 0 {
		return false
	}
	r.stop(worst, true)
	return true
}

// giveUp stops, of converters that find no rest since they feed one another, the one that
// lacks most, and tells whether there was one.
func (r *relays) giveUp() bool {
	worst, most := -1, -1.0
	for _, i := range r.intakes {
		if part := math.Abs(r.missing(i)) / r.most(i); r.takes(i) && part > most {
			worst, most = i, part
		}
	}
	if worst < 0 {
		return false
	}
	r.stop(worst, true)
	return true
}

// checkIntake tells what is wrong with the input of a converter.
func (n *Network) checkIntake(e *Element) error {
	switch {
	case e.Control < 0 || e.Control >= len(n.Elements) || n.Elements[e.Control].Kind != Limited:
		return fmt.Errorf("circuit: input %s has no output that is limited", e.Name)
	case !(e.Efficiency > 0 && e.Efficiency <= 1):
		return fmt.Errorf("circuit: input %s needs an efficiency above 0, up to 1", e.Name)
	case e.Standing < 0:
		return fmt.Errorf("circuit: input %s takes less than nothing", e.Name)
	}
	for i := range n.Elements {
		if other := &n.Elements[i]; other != e && other.Kind == Intake && other.Control == e.Control {
			return fmt.Errorf("circuit: inputs %s and %s have one output", e.Name, other.Name)
		}
	}
	return nil
}
