package cost

import (
	"math"

	"example.com/loomfolio/sizing/fit/buying"
	"example.com/loomfolio/sizing/fit/fitted"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/purchase"
	"example.com/loomfolio/sizing/result"
)

// weights tell how much each wire has to do with something, by WireID.
type weights map[harness.WireID]float64

// sharing knows which wires a line of the shopping list is for.
type sharing struct {
	h      *harness.Harness
	r      *result.Result
	lines  map[[2]string]weights // by group and text, where the ends decide
	fuses  map[string]weights
	parts  map[string]weights
	units  map[string]weights
	runs   map[string]weights
	wires  map[string]weights
	anyone weights
}

// circuits shares the shopping list among the circuits.
func circuits(h *harness.Harness, r *result.Result, m mass) []purchase.Sum {
	out := make([]purchase.Sum, len(h.Circuits))
	for i := range out {
		out[i].Name = h.Circuits[i].Name
	}
	for w, g := range m.wires {
		out[h.Wires[w].Circuit].Mass += g
	}
	s := newSharing(h, r)
	pieces := make([]float64, len(out))
	for i := range r.Shopping {
		if it := &r.Shopping[i]; it.Bought() {
			share(h, out, pieces, it, s.of(it))
		}
	}
	for i := range out {
		out[i].Pieces = int(math.Round(pieces[i]))
	}
	return out
}

// share gives each circuit its part of a line, wire by wire in their order; pieces are not rounded yet.
func share(h *harness.Harness, out []purchase.Sum, pieces []float64, it *fitted.Item, by weights) {
	sum := 0.0
	for w := range h.Wires {
		sum += by[harness.WireID(w)]
	}
	for w := range h.Wires {
		part := by[harness.WireID(w)]
		if part == 0 {
			continue
		}
		to := &out[h.Wires[w].Circuit]
		part /= sum
		to.Money += part * it.Sum
		switch {
		case it.Unit != "m":
			pieces[h.Wires[w].Circuit] += part * it.Buy
		case it.Group == "wire" || it.Group == "cables":
			to.Metres += part * it.Buy
		}
	}
}

func newSharing(h *harness.Harness, r *result.Result) *sharing {
	s := &sharing{h: h, r: r, lines: map[[2]string]weights{}, fuses: map[string]weights{}, parts: map[string]weights{}, units: map[string]weights{}, runs: map[string]weights{}, wires: map[string]weights{}, anyone: weights{}}
	for w := range h.Wires {
		id := harness.WireID(w)
		if !s.built(id) {
			s.anyone[id] = 1
			s.wires[h.Wires[w].Name] = weights{id: 1}
			s.ends(id)
		}
	}
	if len(s.anyone) == 0 { // all is built: what is bought all the same is for every wire
		for w := range h.Wires {
			s.anyone[harness.WireID(w)] = 1
		}
	}
	for i := range r.Splices {
		sp := &r.Splices[i]
		s.several(s.lines, [2]string{"terminals", buying.BarrelLine(sp)}, sp.Wires)
		s.several(s.lines, [2]string{"shrink", sp.Shrink}, sp.Wires)
	}
	for i := range r.Fuses {
		s.named(s.fuses, r.Fuses[i].Name, r.Fuses[i].Wires)
	}
	for i := range r.Runs {
		s.named(s.runs, buying.Between(h, r.Runs[i].Run), r.Runs[i].Wires)
		s.several(s.lines, [2]string{"shrink", r.Runs[i].Boot}, r.Runs[i].Wires)
	}
	for i := range h.Units {
		s.named(s.units, h.Units[i].Name, h.Units[i].Wires)
	}
	s.reels()
	return s
}

func (s *sharing) built(w harness.WireID) bool { return harness.IsBuilt(s.r.Kept, int(w)) }

// ends notes what the two ends of a wire are bought in, and on which parts they are.
func (s *sharing) ends(w harness.WireID) {
	for n := range s.r.Ends[w] {
		e := &s.r.Ends[w][n]
		if p := s.h.PartOf(e.Terminal); p != nil {
			add(s.parts, p.Ref, w, 1)
		}
		if e.Crimp != fitted.Barrel {
			add(s.lines, [2]string{"terminals", buying.TerminalLine(e)}, w, 1)
		}
		if e.Shrink != "" {
			add(s.lines, [2]string{"shrink", e.Shrink}, w, float64(e.ShrinkLen))
		}
	}
}

// reels notes by their lengths the wires that a reel is bought for.
func (s *sharing) reels() {
	for i := range s.r.Reels {
		reel := &s.r.Reels[i]
		for _, w := range reel.Wires {
			if !s.built(w) {
				add(s.lines, [2]string{"wire", reel.Name()}, w, float64(s.r.Ways[w].Length))
			}
		}
	}
}

// several notes that one thing is for several wires, one part for each.
func (s *sharing) several(in map[[2]string]weights, key [2]string, wires []harness.WireID) {
	for _, w := range wires {
		if !s.built(w) && key[1] != "" {
			add(in, key, w, 1)
		}
	}
}

func (s *sharing) named(in map[string]weights, name string, wires []harness.WireID) {
	for _, w := range wires {
		if !s.built(w) {
			add(in, name, w, 1)
		}
	}
}

func add[K comparable](in map[K]weights, key K, w harness.WireID, part float64) {
	if in[key] == nil {
		in[key] = weights{}
	}
	in[key][w] += part
}

// of gives the wires that a line is for.
func (s *sharing) of(it *fitted.Item) weights {
	if by := s.lines[[2]string{it.Group, it.What}]; by != nil {
		return by
	}
	out := weights{}
	for _, u := range it.Users {
		by := s.known(u.Name)
		sum := 0.0
		for w := range s.h.Wires {
			sum += by[harness.WireID(w)]
		}
		for w, part := range by {
			out[w] += part / sum * max(u.Count, 1e-9)
		}
	}
	if len(out) == 0 {
		return s.anyone
	}
	return out
}

// known finds the wires behind a name.
func (s *sharing) known(name string) weights {
	for _, in := range []map[string]weights{s.fuses, s.parts, s.units, s.runs, s.wires} {
		if by := in[name]; by != nil {
			return by
		}
	}
	return nil
}
