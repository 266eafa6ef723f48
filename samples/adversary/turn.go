package adversary

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// turned gives the sketch as it is written: with every length given where it has no
// places, and with the plus on the bodywork where it is Positive.
func (s *Sketch) turned() *Sketch {
	t := *s
	t.Circuits, t.Parts = nil, nil
	for _, c := range s.Circuits {
		t.Circuits = append(t.Circuits, &Circuit{c.Key, c.Name, c.Class, s.legs(c)})
	}
	for _, p := range s.Parts {
		t.Parts = append(t.Parts, &Entry{p.Name, s.fields(p)})
	}
	if s.Bare {
		t.Places, t.Runs = nil, nil
	}
	return &t
}

func (s *Sketch) fields(p *Entry) Fields {
	f := slices.Clone(p.Fields)
	if s.Bare {
		f = f.With("at", "")
	}
	if !s.Positive {
		return f
	}
	if inside := f.Get("inside"); inside != "" {
		f = f.With("inside", swapWords(inside, "from:", "to:"))
	}
	return f
}

func swapWords(text, a, b string) string {
	return strings.NewReplacer(a, b, b, a).Replace(text)
}

func (s *Sketch) legs(c *Circuit) []Leg {
	var out []Leg
	for _, leg := range c.Legs {
		leg = s.measured(leg)
		if s.Positive {
			leg = s.opposite(leg)
		}
		out = append(out, leg)
	}
	return out
}

// measured gives each wire its length where there are no places to measure by.
func (s *Sketch) measured(leg Leg) Leg {
	out := slices.Clone(leg)
	for i := 1; i < len(out) && s.Bare; i++ {
		if out[i].Part() == out[i-1].Part() || out[i].Get("length") != "" {
			continue
		}
		out[i].Fields = append(Fields{{"length", millimetres(s.between(out[i-1].Part(), out[i].Part()))}}, out[i].Fields...)
	}
	return out
}

// between is the way over the runs and what hangs out at both ends, in mm.
func (s *Sketch) between(a, b string) int {
	return s.distance[[2]string{s.at(a), s.at(b)}] + 300
}

func (s *Sketch) at(part string) string {
	if p := s.Part(part); p != nil {
		return p.Get("at")
	}
	return ""
}

func millimetres(n int) string { return fmt.Sprintf("%d mm", n) }

// opposite turns a leg round for a vehicle with its plus on the bodywork. Written from
// the live side, a diode is said by its ends; of loads a bare name is left to the reader.
func (s *Sketch) opposite(leg Leg) Leg {
	var out Leg
	for _, stop := range leg {
		p := s.Part(stop.To)
		if out = append(out, stop); p != nil && p.Kind() == "diode" && !s.FromGround {
			out[len(out)-1].To = stop.To + ".a"
			out = append(out, Stop{To: stop.To + ".k"})
		}
	}
	for i := range out {
		out[i].To = s.Written(out[i].To)
	}
	if !s.FromGround {
		return out
	}
	slices.Reverse(out)
	for i := len(out) - 1; i > 0; i-- {
		out[i].Fields = out[i-1].Fields
	}
	out[0].Fields = nil
	return out
}

var other = map[string]string{"+": "-", "-": "+", "a": "k", "k": "a", "85": "86", "86": "85"}

// Written gives a stop's name as it stands in the text.
func (s *Sketch) Written(stop string) string {
	part, terminal, dotted := strings.Cut(stop, ".")
	p := s.Part(part)
	if !s.Positive || !dotted || p == nil {
		return stop
	}
	plain := []string{"switch", "ignition-switch", "connector", "fuse-panel", "bus", "module"}
	if swapped := other[terminal]; swapped != "" && !slices.Contains(plain, p.Kind()) {
		return part + "." + swapped
	}
	return stop
}

// Clone gives a copy to be changed.
func (s *Sketch) Clone() *Sketch {
	c := *s
	was := map[*Circuit]*Circuit{}
	c.Parts, c.Places, c.Circuits, c.States, c.Devices = nil, nil, nil, nil, nil
	for _, p := range s.Parts {
		c.Parts = append(c.Parts, &Entry{p.Name, slices.Clone(p.Fields)})
	}
	for _, p := range s.Places {
		c.Places = append(c.Places, &Entry{p.Name, slices.Clone(p.Fields)})
	}
	for _, x := range s.Circuits {
		was[x] = x.clone()
		c.Circuits = append(c.Circuits, was[x])
	}
	for _, x := range s.States {
		c.States = append(c.States, &State{x.Name, slices.Clone(x.Set)})
	}
	for _, d := range s.Devices {
		e := *d
		e.Circuit = was[d.Circuit]
		c.Devices = append(c.Devices, &e)
	}
	c.Runs, c.distance = slices.Clone(s.Runs), maps.Clone(s.distance)
	return &c
}

func (c *Circuit) clone() *Circuit {
	d := *c
	d.Legs = nil
	for _, leg := range c.Legs {
		var copied Leg
		for _, s := range leg {
			copied = append(copied, Stop{s.To, slices.Clone(s.Fields)})
		}
		d.Legs = append(d.Legs, copied)
	}
	return &d
}
