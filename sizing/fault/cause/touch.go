package cause

import (
	"cmp"
	"slices"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
	"example.com/loomfolio/sizing/proof"
)

// touch gives the place where two terminals may touch, made where it is new.
func (l *lister) touch(a, b harness.TerminalID) int {
	key := [2]harness.TerminalID{min(a, b), max(a, b)}
	n, there := l.touched[key]
	if !there {
		n = len(l.out.Touches)
		l.touched[key] = n
		l.out.Touches = append(l.out.Touches, network.Bridge{A: a, B: b})
	}
	return n
}

// neighbours enters what lies side by side in plugs, and then in runs.
func (l *lister) neighbours() {
	seen := map[[2]int]bool{}
	for i := range l.h.Parts {
		p := &l.h.Parts[i]
		for _, pair := range beside(p) {
			a, okA := l.cavity(p, pair[0])
			b, okB := l.cavity(p, pair[1])
			if okA && okB {
				l.pair(seen, a, b, p.Ref+"."+pair[0]+"~"+p.Ref+"."+pair[1], p.ID, harness.None)
			}
		}
	}
	for r := range l.h.Runs {
		wires := l.along(harness.RunID(r))
		for i := 1; i < len(wires); i++ {
			a, b := &l.h.Wires[wires[i-1]], &l.h.Wires[wires[i]]
			l.pair(seen, a.To, b.To, a.Name+"~"+b.Name, harness.None, a.ID)
		}
	}
}

// pair enters two terminals that touch, once for each pair of metals.
func (l *lister) pair(seen map[[2]int]bool, a, b harness.TerminalID, element string, part harness.PartID, wire harness.WireID) {
	x, y := l.metal.Root(int(a)), l.metal.Root(int(b))
	key := [2]int{min(x, y), max(x, y)}
	if x == y || seen[key] {
		return
	}
	seen[key] = true
	at := l.differ(a, b, always)
	if at.state == harness.None {
		return
	}
	c := l.blank(element, proof.Short, "short")
	c.Part, c.Wire, c.Ohms, c.Touch = part, wire, ShortOhms, l.touch(a, b)
	l.add(c, at)
}

// beside lists the cavities of a part that lie side by side or one over the other.
func beside(p *harness.Part) [][2]string {
	rows := p.Rows
	if len(rows) == 0 && p.Kind == harness.Connector {
		rows = [][]string{p.Cavities}
	}
	var out [][2]string
	for y, row := range rows {
		for x, name := range row {
			if x > 0 {
				out = append(out, [2]string{row[x-1], name})
			}
			if y > 0 && x < len(rows[y-1]) {
				out = append(out, [2]string{rows[y-1][x], name})
			}
		}
	}
	return out
}

// cavity is the terminal of a cavity, of a connector the side on which it is fed.
func (l *lister) cavity(p *harness.Part, name string) (harness.TerminalID, bool) {
	for _, t := range p.Terminals {
		if x := &l.h.Terminals[t]; x.Name == name || x.Cavity == name {
			return t, true
		}
	}
	return 0, false
}

// along lists the wires of a run in their order.
func (l *lister) along(run harness.RunID) []harness.WireID {
	var out []harness.WireID
	for w := range l.lie {
		for _, s := range l.lie[w].Shares {
			if s.Run == run {
				out = append(out, harness.WireID(w))
				break
			}
		}
	}
	slices.SortFunc(out, cmp.Compare)
	return out
}
