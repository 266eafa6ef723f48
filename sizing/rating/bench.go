package rating

import "example.com/loomfolio/sizing/unit"

// Pitch gives the width in mm that a label under a fuse of a body may have in a
// panel where the fuses stand side by side; a body that is not listed takes that of a blade.
func Pitch(body string) unit.Millimetre {
	wide := 0.0
	for _, r := range rows("pitches.csv") {
		if r["body"] == body || wide == 0 && r["body"] == "blade" {
			wide = r.number("pitch_mm")
		}
	}
	return unit.Millimetre(wide)
}

// Pack gives how many pieces, or metres, of a group of the shopping list are sold
// together; 0 where they are sold one by one.
func Pack(group string, imperial bool) float64 {
	for _, r := range rows("packs.csv") {
		switch {
		case r["group"] != group:
		case r["pieces"] != "":
			return r.number("pieces")
		case imperial:
			return r.number("stick_ft") * 0.3048
		default:
			return r.number("stick_m")
		}
	}
	return 0
}

// Clamp gives the smallest cushioned clamp that goes round a bundle; false where
// none of the list does.
func Clamp(bundle unit.Millimetre) (holds unit.Millimetre, ok bool) {
	for _, r := range rows("clamps.csv") {
		if holds = unit.Millimetre(r.number("holds_mm")); holds >= bundle {
			return holds, true
		}
	}
	return 0, false
}

// Greatest distances along a bundle: of its supports (FAA AC 43.13-1B, 11-96a:
// 24 in), and of its ties, which it needs where supports stand over 12 in apart (11-158b).
const (
	SupportEvery unit.Millimetre = 24 * 25.4
	TieEvery     unit.Millimetre = 12 * 25.4
)
