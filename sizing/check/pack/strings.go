package pack

import "example.com/loomfolio/sizing/harness"

// Strings is what is known of batteries in series.
type Strings struct {
	Tops []harness.TerminalID // the highest plus of each string of two or more
	Taps []Tap
}

// Tap is the plus of a battery that another one stands on.
type Tap struct {
	At   harness.TerminalID
	Part float64 // of the string's voltage
}

// StringsOf finds the batteries in series.
func StringsOf(h *harness.Harness) Strings {
	p := newPack(h, nil)
	var out Strings
	for _, e := range p.batteries {
		chain := p.chain(e)
		n, k := len(chain), 0
		for chain[k] != e {
			k++
		}
		switch {
		case n > 1 && k == n-1:
			out.Tops = append(out.Tops, e.A)
		case n > 1:
			out.Taps = append(out.Taps, Tap{e.A, float64(k+1) / float64(n)})
		}
	}
	return out
}

func newPack(h *harness.Harness, given func(harness.PartID) Given) *pack {
	p := &pack{h: h, nets: netsOf(h), given: given}
	p.batteries = p.sources(harness.EMF)
	p.plusAt, p.minusAt = byNet(p.batteries, p.plusNet), byNet(p.batteries, p.minusNet)
	return p
}
