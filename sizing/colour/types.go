// Package colour holds the colours of insulation, how alike two of them look,
// and the assignment of a base colour and tracer to every wire. Letters follow
// IEC 60757; a pair is written base/tracer with a slash (OG/BK).
package colour

// Pair is a wire's colour: the base and an optional tracer.
type Pair struct {
	Base   string // IEC 60757 letters
	Tracer string // "" when plain
}

// String gives RD or OG/BK.
func (p Pair) String() string {
	if p.Tracer == "" {
		return p.Base
	}
	return p.Base + "/" + p.Tracer
}

// Choice is a wire's colour with its reason.
type Choice struct {
	Pair   Pair
	Reason string // "ground: BK by practice", "unlike its 14 neighbours by at least 18.3"
	Given  bool
}
