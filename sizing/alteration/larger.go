package alteration

import (
	"fmt"
	"strings"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// exchanged are the kinds of parts that people exchange for larger ones.
var exchanged = map[harness.Kind]bool{harness.Motor: true, harness.Heater: true, harness.Horn: true, harness.Outlet: true, harness.Lamp: true}

// larger speaks, once a circuit, of a larger load: of that which takes most; of lamps, of
// what more they may take together.
func (n *notes) larger() []proof.Change {
	best := make([]*chosen.Spare, len(n.h.Circuits))
	for i := range n.r.Spares {
		s := &n.r.Spares[i]
		e := &n.h.Elements[s.Element]
		c := n.circuitOf(n.loads[s.Element])
		if c == harness.None || !exchanged[n.h.Parts[e.Part].Kind] || s.Amps < worthSaying {
			continue
		}
		if b := best[c]; b == nil || s.Amps > b.Amps || n.lamps(s) && n.lamps(b) && s.Safe-s.Amps < b.Safe-b.Amps {
			best[c] = s
		}
	}
	var out []proof.Change
	for c, s := range best {
		if s != nil && s.Safe > 0 && !n.doubted(n.loads[s.Element]) && !n.weak(s) {
			out = append(out, n.spare(harness.CircuitID(c), s))
		}
	}
	return out
}

// weak tells that something on a load's way is too weak as it is, or that an error or a
// warning speaks of it.
func (n *notes) weak(s *chosen.Spare) bool {
	for i := range s.Limits {
		l := &s.Limits[i]
		if !l.Hard() {
			continue
		}
		if l.UpTo < s.Amps*0.999 || n.blamed[l.Name] || l.Element != harness.None && n.blamed[n.h.Parts[n.h.Elements[l.Element].Part].Ref] {
			return true
		}
	}
	return false
}

// worthSaying is the current from which a larger load is spoken of, A: nobody exchanges a
// tell-tale for a larger one; judgement, not published.
const worthSaying = 1

func (n *notes) lamps(s *chosen.Spare) bool { return n.h.Elements[s.Element].Behaves == harness.AsLamp }

// spare says how much larger one load may be.
func (n *notes) spare(c harness.CircuitID, s *chosen.Spare) proof.Change {
	e := &n.h.Elements[s.Element]
	p := &n.h.Parts[e.Part]
	hard := firstHard(s)
	out := proof.Change{
		Circuit: c, Part: p.ID, Alters: proof.Larger, First: hard.Rule, At: hard.Name,
		If:      fmt.Sprintf("%s above %s", p.Name, unit.Amps(float64(s.Amps))),
		Numbers: spareNumbers(s, hard), Names: n.named(append(s.Warm[:len(s.Warm):len(s.Warm)], hard.Thicker...)),
	}
	good := fmt.Sprintf("good for %s", down(s.Safe))
	room := s.Safe - s.Amps
	little := room < noRoom*s.Amps
	if n.lamps(s) {
		out.Alters, out.If = proof.MoreLamps, "more lamps (a trailer)"
		good = fmt.Sprintf("%s (%.0f W) more in all", down(room), watts(room, n.h.SystemOf(e).Volts))
		little = little || watts(room, n.h.SystemOf(e).Volts) < 1
	}
	if little {
		out.Then = "nothing to spare: " + n.cureText(hard) + n.unknown(s)
		return out
	}
	out.Then = good + n.besides(s) + "; beyond, " + n.cureText(hard) + n.unknown(s)
	return out
}

func spareNumbers(s *chosen.Spare, hard *chosen.Limit) []proof.Number {
	return []proof.Number{
		number("now_a", float64(s.Amps)), number("up_to_a", float64(s.UpTo)), number("safe_a", float64(s.Safe)), number("spare_a", max(0, float64(s.Safe-s.Amps))),
		number("lost_v", float64(s.Lost)), number("allowed_v", float64(s.Allowed)), number("next_fuse_a", float64(hard.Rating)),
	}
}

// noRoom is the share of a load below which its room is none worth speaking of.
const noRoom = 0.05

// down rounds a limit down, to what a meter shows.
func down(a unit.Ampere) unit.Ampere {
	step := 0.1
	if a < 1 {
		step = 0.01
	}
	return unit.Ampere(unit.Round(float64(int(float64(a)/step+1e-9))*step, 2))
}

func watts(a unit.Ampere, v unit.Volt) float64 { return float64(int(float64(a) * float64(v))) }

func firstHard(s *chosen.Spare) *chosen.Limit {
	for i := range s.Limits {
		if s.Limits[i].Hard() {
			return &s.Limits[i]
		}
	}
	return &s.Limits[0]
}

// besides says what has to be borne or fitted up to there: volts that are lost beyond what
// is allowed, wires that the load's own make warmer.
func (n *notes) besides(s *chosen.Spare) string {
	var parts []string
	if s.Allowed > 0 && s.Lost > s.Allowed*lossWorthSaying {
		parts = append(parts, fmt.Sprintf("%.2f V lost then, allowed %.2f V", float64(s.Lost), float64(s.Allowed)))
	}
	for i := range s.Limits {
		if l := &s.Limits[i]; l.Rule == chosen.ByAlternator && l.UpTo < s.Safe {
			parts = append(parts, fmt.Sprintf("the alternator falls short in %s from %s", l.Name, down(max(l.UpTo, 0))))
			break
		}
	}
	if len(s.Warm) > 0 {
		parts = append(parts, "with "+n.thickerText(s.Warm)+" for the warmth in the run")
	}
	if len(parts) == 0 {
		return ""
	}
	return " (" + strings.Join(parts, "; ") + ")"
}

// lossWorthSaying is how far above its limit a drop is spoken of: a meter on its 20 V range
// shows no less; judgement, not published.
const lossWorthSaying = 1.05

// cureText says what has to be fitted for more.
func (n *notes) cureText(l *chosen.Limit) string {
	switch l.Rule {
	case chosen.ByContinuous, chosen.ByStart:
		text := fmt.Sprintf("%s needs another holder", l.Name)
		if l.Rating > 0 {
			text = fmt.Sprintf("%s needs %s", l.Name, l.Rating)
		}
		if l.Rule == chosen.ByStart {
			text += " for the start"
		}
		if len(l.Thicker) > 0 {
			text += " and " + n.thickerText(l.Thicker)
		}
		return text
	case chosen.ByHeat:
		return n.thickerText(l.Thicker)
	case chosen.ByContact:
		return fmt.Sprintf("%s is rated for no more", l.Name)
	case chosen.ByUnrated:
		return fmt.Sprintf("%s needs a rating, or a relay", l.Name)
	}
	return l.Name
}

// listed is how many wires a note names by their sizes; of more it tells the number.
const listed = 6

// thickerText names wires by the size that they need.
func (n *notes) thickerText(list []chosen.Thicker) string {
	if len(list) > listed {
		return fmt.Sprintf("%d wires thicker", len(list))
	}
	var parts []string
	done := map[unit.Gauge]bool{}
	for _, t := range list {
		if done[t.Gauge] {
			continue
		}
		done[t.Gauge] = true
		var names []string
		for _, x := range list {
			if x.Gauge == t.Gauge {
				names = append(names, n.h.Wires[x.Wire].Name)
			}
		}
		size := t.Gauge.String()
		if !t.Gauge.Given() {
			size = "thicker than any listed size"
		}
		parts = append(parts, strings.Join(names, ", ")+" "+size)
	}
	return strings.Join(parts, ", ")
}

// named lists the wires that have to grow.
func (n *notes) named(list []chosen.Thicker) []string {
	names := []string{}
	for _, t := range list {
		names = append(names, n.h.Wires[t.Wire].Name)
	}
	return names
}

// unknown says what nobody has described: the rating of relays on the way, the start of a
// motor.
func (n *notes) unknown(s *chosen.Spare) (text string) {
	var names []string
	for _, p := range s.Unrated {
		if n.h.Parts[p].Kind == harness.Relay {
			names = append(names, n.h.Parts[p].Ref)
		}
	}
	switch len(names) {
	case 0:
	case 1:
		text = fmt.Sprintf("; %s states no rating", names[0])
	default:
		text = fmt.Sprintf("; %s state no rating", source.Some(names, ""))
	}
	if e := &n.h.Elements[s.Element]; e.Kind == harness.Load && e.Behaves == harness.AsMotor && n.h.Parts[e.Part].Starts.Amps <= 0 {
		text += "; its start is not described"
	}
	return text
}
