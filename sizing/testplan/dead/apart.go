package dead

import (
	"slices"

	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/loose"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/unit"
)

// Metal joins what no probe can tell apart with everything mated: wires, joins, plugs,
// grounds, straps and, worked, the contacts of switches; by TerminalID.
func Metal(h *harness.Harness, worked bool) forest.Forest {
	f := forest.New(len(h.Terminals))
	for _, w := range h.Wires {
		f.Join(int(w.From), int(w.To))
	}
	for i := range h.Elements {
		e := &h.Elements[i]
		joins := e.Kind == harness.Join || e.Kind == harness.Contact
		if joins && (e.When.Kind == harness.Always || worked && e.When.Kind == harness.InPosition) {
			f.Join(int(e.A), int(e.B))
		}
		if e.Kind == harness.Resistance && Passes(h, e.ID) {
			f.Join(int(e.A), int(e.B))
		}
	}
	return f
}

// toGround asks of every piece of metal that it does not beep to ground: from each fuse's
// load side with what switches join to it, from the source's metal, and from what no fuse
// reaches.
func (k *check) toGround(rest, worked *wiring) error {
	ground := k.ground(rest)
	if ground == harness.None {
		return nil
	}
	nets := Metal(k.h, true)
	done := map[int]bool{nets.Root(int(ground)): true}
	var ask []harness.TerminalID
	for _, f := range k.r.Fuses {
		ask = append(ask, k.h.Elements[f.Element].B, k.h.Elements[f.Element].A)
	}
	for _, p := range k.r.Proof.Points {
		ask = append(ask, p.At)
	}
	for _, t := range ask {
		root := nets.Root(int(t))
		if done[root] || k.at[t] == proof.None {
			continue
		}
		done[root] = true
		if err := k.apart(worked, proof.Apart{A: t, B: ground, Ground: true, Switch: k.switches(nets, root)}); err != nil {
			return err
		}
	}
	return nil
}

// apart adds what must not beep, unless metal joins the two: a switch to ground, which its
// own part tells.
func (k *check) apart(d *wiring, one proof.Apart) error {
	ohms, off, metal, err := d.between(one.A, one.B)
	if err != nil || metal {
		return err
	}
	off = append(off, k.unknown(one)...)
	one.Ohms, one.Off, one.Note = unit.Ohm(ohms), off, Unplug(k.h, off)
	k.out.Apart = append(k.out.Apart, one)
	return nil
}

// unknown are the parts of which nobody knows whether they join what must not beep: they
// must be off for that to hold.
func (k *check) unknown(one proof.Apart) []harness.PartID {
	sides := [2][]harness.PartID{k.openAt(one.A), k.openAt(one.B)}
	if !one.Ground && (len(sides[0]) == 0 || len(sides[1]) == 0) {
		return nil // what hangs on one of two alone joins nothing to the other
	}
	return sides[0]
}

// openAt lists the parts of the unknown ends that wires and contacts join to a terminal.
func (k *check) openAt(t harness.TerminalID) []harness.PartID {
	reach := loose.Beyond(k.h, []harness.TerminalID{t})
	var out []harness.PartID
	for _, end := range loose.Ends(k.h) {
		if p := k.h.Terminals[end].Part; reach.Has(end) && !slices.Contains(out, p) {
			out = append(out, p)
		}
	}
	return out
}

// switches are those whose contacts join a piece of metal.
func (k *check) switches(nets forest.Forest, root int) []harness.PartID {
	var out []harness.PartID
	for i := range k.h.Elements {
		e := &k.h.Elements[i]
		if e.Kind == harness.Contact && e.When.Kind == harness.InPosition && nets.Root(int(e.A)) == root && !slices.Contains(out, e.Part) {
			out = append(out, e.Part)
		}
	}
	return out
}

// neighbours asks of terminals that lie side by side in a plug, panel or part that they
// do not beep to one another; each pair of nets once.
func (k *check) neighbours(rest *wiring) error {
	nets := Metal(k.h, false)
	ground := k.ground(rest)
	asked := map[[2]int]bool{}
	for i := range k.h.Parts {
		for _, pair := range k.beside(&k.h.Parts[i]) {
			x, y := nets.Root(int(pair[0])), nets.Root(int(pair[1]))
			key := [2]int{min(x, y), max(x, y)}
			onGround := ground != harness.None && (x == nets.Root(int(ground)) || y == nets.Root(int(ground)))
			if x == y || asked[key] || onGround || k.at[pair[0]] == proof.None || k.at[pair[1]] == proof.None {
				continue
			}
			asked[key] = true
			if err := k.apart(rest, proof.Apart{A: pair[0], B: pair[1]}); err != nil {
				return err
			}
		}
	}
	return nil
}

// beside lists the pairs of a part's terminals that lie side by side: by its rows where
// they are given, else in the order of its terminals; of a plug on its feed half; of a
// relay the two sides of its open contact as well.
func (k *check) beside(p *harness.Part) [][2]harness.TerminalID {
	by, rows := k.rows(p)
	var out [][2]harness.TerminalID
	add := func(a, b string) {
		x, okX := by[a]
		y, okY := by[b]
		if okX && okY {
			out = append(out, [2]harness.TerminalID{x, y})
		}
	}
	for i, row := range rows {
		for j, name := range row {
			if j > 0 {
				add(row[j-1], name)
			}
			if i > 0 && j < len(rows[i-1]) {
				add(rows[i-1][j], name)
			}
		}
	}
	for _, id := range p.Elements {
		if e := &k.h.Elements[id]; e.Kind == harness.Contact && e.When.Kind == harness.Energised {
			out = append(out, [2]harness.TerminalID{e.A, e.B})
		}
	}
	return out
}

// rows are a part's terminals as they lie, by their names or cavities.
func (k *check) rows(p *harness.Part) (map[string]harness.TerminalID, [][]string) {
	by := map[string]harness.TerminalID{}
	var order []string
	for _, t := range p.Terminals {
		x := &k.h.Terminals[t]
		name := x.Name
		if x.Cavity != "" {
			name = x.Cavity
		}
		if _, twice := by[name]; !twice {
			by[name] = t
			order = append(order, name)
		}
	}
	switch {
	case p.Panel != nil:
		return by, p.Panel.Layout
	case len(p.Rows) > 0:
		return by, p.Rows
	}
	return by, [][]string{order}
}
