package change

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/record"
	"example.com/loomfolio/sizing/result"
)

// Marks names the wires and fuses whose state is set anew; others keep theirs.
type Marks map[string]harness.KeptState

// Freeze writes the choices down as a record. What was built stays as it was
// built until it is marked anew; what is built and no longer described is retired
// and stays for one more revision of the description; what was planned and is no
// longer described is left out. Comments stay with their lines. The old record is
// nil where there is none.
func Freeze(h *harness.Harness, r *result.Result, old *record.Record, marks Marks) record.Record {
	f := &freezer{h: h, r: r, marks: marks, names: map[string]bool{}, wires: map[int]*record.Wire{}, fuses: map[int]*record.Fuse{}, count: map[record.Key]int{}}
	out := record.Record{Top: record.Explained(), Title: h.Info.Title, Revision: h.Info.Revision, Variant: h.Info.Variant, Digest: h.Digest}
	if old != nil {
		out.Top, out.Foot = old.Top, old.Foot
		for i := range old.Wires {
			f.wires[old.Wires[i].Line] = &old.Wires[i]
		}
		for i := range old.Fuses {
			f.fuses[old.Fuses[i].Line] = &old.Fuses[i]
		}
	}
	for i := range h.Wires {
		f.names[h.Wires[i].Name] = true
	}
	for i := range h.Wires {
		out.Wires = append(out.Wires, f.wire(&h.Wires[i]))
	}
	f.sleeves(out.Wires)
	out.Wires = f.made(out.Wires)
	for i := range r.Fuses {
		if !h.OwnFuse(&h.Elements[r.Fuses[i].Element]) {
			out.Fuses = append(out.Fuses, f.fuse(i))
		}
	}
	if old != nil {
		out.Wires = append(out.Wires, f.retired(old)...)
	}
	return out.Sorted()
}

type freezer struct {
	h     *harness.Harness
	r     *result.Result
	marks Marks
	names map[string]bool      // of the wires as they are described
	wires map[int]*record.Wire // of the old record, by line; those that are described are taken out
	fuses map[int]*record.Fuse
	count map[record.Key]int // wires of one key so far
}

// key numbers the wires that share both ends.
func (f *freezer) key(circuit, from, to string) record.Key {
	k := record.Key{Circuit: circuit, From: from, To: to}
	f.count[k]++
	n := f.count[k]
	k.Ordinal = n
	return k
}

func (f *freezer) wire(w *harness.Wire) record.Wire {
	kept, c := &w.Kept, &f.r.Wires[w.ID]
	out := record.Wire{
		Key:   f.key(f.h.Circuits[w.Circuit].Key, f.h.Terminals[w.From].Full, f.h.Terminals[w.To].Full),
		State: harness.Planned, Name: w.Name, Gauge: c.Gauge, Insulation: c.Insulation,
		Base: f.r.Colours[w.ID].Pair.Base, Tracer: f.r.Colours[w.ID].Pair.Tracer,
		Length: f.r.Ways[w.ID].Length, Imperial: f.h.Sheet.Imperial,
	}
	mark := f.marks[w.Name]
	if kept.State == harness.Built && mark == "" {
		out.State, out.Gauge, out.Insulation = kept.State, kept.Gauge, kept.Insulation
		if !f.names[kept.Name] {
			out.Name = kept.Name
		}
		out.Base, out.Tracer, out.Length = kept.Base, kept.Tracer, kept.Length
	}
	if mark != "" {
		out.State = mark
	}
	if line := f.wires[kept.Line]; line != nil {
		out.Remarks = line.Remarks
		delete(f.wires, kept.Line)
	}
	return out
}

// made leaves the wires that are made here: the vehicle's own are on no line.
func (f *freezer) made(lines []record.Wire) []record.Wire {
	out := lines[:0:0]
	for i := range lines {
		if !f.h.Wires[i].Existing {
			out = append(out, lines[i])
		}
	}
	return out
}

// sleeves notes which wires look alike by choice, so that a later run does not take them for a
// clash that a hand made. Those that are noted stay where all colours are to be told apart; where
// all wires are told by their sleeves none are noted.
func (f *freezer) sleeves(lines []record.Wire) {
	switch f.r.Purchase.For {
	case "few":
		for _, p := range f.r.Purchase.Pairs {
			if !p.ByRule {
				lines[p.A].Sleeves = append(lines[p.A].Sleeves, lines[p.B].Name)
			}
		}
	case "clear":
		for i := range lines {
			lines[i].Sleeves = f.h.Wires[i].Kept.Sleeves
		}
	}
}

func (f *freezer) fuse(i int) record.Fuse {
	u := &f.r.Fuses[i]
	kept := f.h.Elements[u.Element].Kept
	out := record.Fuse{Name: u.Name, State: harness.Planned, Rating: u.Rating, Body: u.Body}
	mark := f.marks[u.Name]
	if kept.State == harness.Built && mark == "" {
		out.State, out.Rating, out.Body = kept.State, kept.Rating, kept.Body
	}
	if mark != "" {
		out.State = mark
	}
	if line := f.fuses[kept.Line]; line != nil {
		out.Remarks = line.Remarks
	}
	return out
}

// retired gives the lines on wires that are built and no longer described. One
// that was retired under another revision has been seen to and goes.
func (f *freezer) retired(old *record.Record) []record.Wire {
	var out []record.Wire
	for i := range old.Wires {
		l := old.Wires[i]
		if f.wires[l.Line] == nil || l.State == harness.Planned {
			continue
		}
		if l.State == harness.Retired && old.Revision != f.h.Info.Revision {
			continue
		}
		l.State, l.Key = harness.Retired, f.key(l.Circuit, l.From, l.To)
		out = append(out, l)
	}
	return out
}
