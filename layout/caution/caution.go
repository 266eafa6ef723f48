// Package caution words what whoever works on the vehicle must know before anything
// else, fitted to the vehicle: in full for the cover and the board, and in one line for
// the margin of every other sheet, which may be all that somebody has in hand.
//
// In: the model. Out: sentences. They always hold, whatever is described; only the names
// of the leads, and the batteries' number, follow the vehicle.
package caution

import (
	"fmt"

	"example.com/loomfolio/sizing/harness"
)

// Full are the sentences for the cover, in order.
func Full(h *harness.Harness) []string {
	l := leadsOf(h)
	return []string{
		fmt.Sprintf("Disconnect %s before any work%s take the %s lead off first, put it on last.", l.batteries, l.warning, l.first),
		fmt.Sprintf("Every live (%s) lead needs a fuse close to the battery; the cranking cable alone may do without: short, clamped, covered, clear of metal. A chafed lead without a fuse burns.", l.live),
		"Never fit a larger fuse than the fuse map allows.",
		"Airbags and belt pretensioners: never probe, measure or alter them; a meter can fire them.",
		"An electric fuel pump needs a cut-off that stops it when the engine stops and in a crash.",
		"Traction and other systems of 60 V DC and above, mains voltage, and that side of an inverter or charger are not covered: keep away.",
		"Lamps, signals and brakes are regulated: legal requirements override this packet.",
		"Sizes hold only for the vehicle as it is described, and by the design rules used.",
		"Check every size against the parts makers' data and the codes in force where the vehicle is used.",
		"Safety-related work must be done by a qualified, licensed person.",
	}
}

// Short are the cautions in one line, the longest first: take the first that fits.
func Short(h *harness.Harness) []string {
	l := leadsOf(h)
	return []string{
		fmt.Sprintf("Caution: disconnect %s, %s lead first. Not for airbag circuits, 60 V DC and above, or mains. Legal requirements override this sheet. "+
			"Safety-related work: a qualified, licensed person.", l.batteries, l.first),
		fmt.Sprintf("Caution: %s lead off first. No airbag, 60 V DC or mains work. Legal requirements override this; safety work: qualified, licensed person.", l.first),
		fmt.Sprintf("Caution: %s lead off first. No airbag, 60 V or mains work. The law overrides this; safety work: qualified, licensed person.", l.first),
		"No airbag, 60 V or mains work. The law overrides this; safety work: licensed person.",
	}
}

// LastOn names the lead that goes on the battery last, as it comes off first: "negative
// (grounded)".
func LastOn(h *harness.Harness) string { return leadsOf(h).first }

// leads are the battery's leads as this vehicle has them.
type leads struct{ batteries, first, live, warning string }

func leadsOf(h *harness.Harness) leads {
	l := leads{batteries: "the battery", first: "negative", live: "positive", warning: ":"}
	if h.System.PositiveEarth {
		l.first, l.live = "positive", "negative"
		l.warning = ". This vehicle has POSITIVE GROUND (positive earth):"
	}
	if h.System.WiredReturn {
		l.first += " (return)"
	} else {
		l.first += " (grounded)"
	}
	n := 0
	for _, p := range h.Parts {
		if p.Kind == harness.Battery {
			n++
		}
	}
	if n > 1 {
		l.batteries = "every battery"
	}
	return l
}

// First is what to see to while power is let in for the first time.
func First() string {
	return "A helper at the battery lead, a fire extinguisher at hand."
}

// Live is what to see to while a live vehicle is measured.
func Live(h *harness.Harness) string {
	text := "A probe that slips burns a wire: one hand, no rings, fuses in."
	for _, s := range h.States {
		if s.Engine == harness.EngineRunning || s.Engine == harness.EngineCranking {
			return text + " Before the engine turns: out of gear, handbrake on, open air, sleeves and leads clear of belts and fans; a fan starts by itself."
		}
	}
	return text
}
