package colour

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/colour/convention"
	"example.com/loomfolio/sizing/forest"
	"example.com/loomfolio/sizing/harness"
)

// known is what a net does, and by what that is known.
type known struct{ function, by string }

// knowing finds out what the nets do.
type knowing struct {
	*task
	f     forest.Forest
	role  []role
	reach []int  // by net: how many contacts, fuses and diodes lie before it; -1 where no source reaches it
	loads []bool // by net: a load's terminal is on it
	load  []bool // by terminal: it is a load's
	said  [evidence]map[int][]known
}

// The kinds of evidence, the best first: where the better one has several answers, none
// is taken.
const (
	fromFunction = iota
	fromTerminal
	fromName
	evidence
)

// functions gives, by net, what it does: by the function that its circuit says, by
// terminals that mean one thing, or by a circuit's name that says no more and no less;
// then what fuses make of a feed.
func (t *task) functions(f forest.Forest, roles []role) map[int]known {
	k := &knowing{task: t, f: f, role: roles, reach: t.reach(f, roles), loads: make([]bool, len(f)), load: make([]bool, len(f))}
	for i := range k.said {
		k.said[i] = map[int][]known{}
	}
	for i := range t.h.Elements {
		if e := &t.h.Elements[i]; e.Kind == harness.Load && e.A != harness.Chassis && e.B != harness.Chassis {
			for _, x := range []harness.TerminalID{e.A, e.B} {
				k.load[x], k.loads[f.Root(int(x))] = true, true
			}
		}
	}
	for c := range t.h.Circuits {
		k.circuit(harness.CircuitID(c))
	}
	k.terminals()
	out := map[int]known{}
	for net := range f {
		if net == f.Root(net) {
			if one, ok := k.answer(net); ok {
				out[net] = one
			}
		}
	}
	k.fused(out)
	return out
}

// answer is what the best evidence says of a net, where it says one thing.
func (k *knowing) answer(net int) (known, bool) {
	for _, said := range k.said {
		list := said[net]
		for _, x := range list {
			if x.function != list[0].function {
				return known{}, false
			}
		}
		if len(list) > 0 {
			return list[0], true
		}
	}
	return known{}, false
}

// circuit notes what a circuit's nets do by its function, else by its name.
func (k *knowing) circuit(id harness.CircuitID) {
	c := &k.h.Circuits[id]
	word, tier, by := c.Task, fromFunction, ""
	if word == "" {
		tier, by = fromName, "known by the circuit's name"
		name := c.Name
		if name == "" {
			name = c.Key
		}
		word = k.named(name)
	}
	if word == "" {
		return
	}
	for _, net := range k.one(k.nets(id, convention.Known(word).Where)) {
		if !k.shared(net, id) || tier == fromFunction && !k.fromFuse(net) {
			k.said[tier][net] = append(k.said[tier][net], known{word, by})
		}
	}
}

// named gives the function that a name says in full: one of the description's own, or of
// the trade's; "" for none.
func (k *knowing) named(name string) string {
	for _, c := range k.h.Practice.Conventions {
		for _, own := range c.Own {
			if convention.Plain(own.Function) == convention.Plain(name) {
				return own.Function
			}
		}
	}
	return convention.Named(name)
}

// nets gives the nets of a circuit at a place, in the order of their wires.
func (k *knowing) nets(c harness.CircuitID, where convention.Where) []int {
	var out []int
	for _, w := range k.order {
		x := &k.h.Wires[w]
		net := k.f.Root(int(x.From))
		if x.Circuit == c && k.stands(net, where) && (where == convention.All || k.load[x.From] || k.load[x.To]) {
			out = withNumber(out, net)
		}
	}
	if where == convention.All {
		out = slices.DeleteFunc(out, func(net int) bool { return k.behindFuse(net, out) })
	}
	return out
}

// stands tells whether a net is at the place of a function.
func (k *knowing) stands(net int, where convention.Where) bool {
	if k.role[net] != free {
		return false
	}
	switch where {
	case convention.AtLoad:
		return k.reach[net] >= 0 && k.loads[net]
	case convention.Behind:
		return k.reach[net] < 0 && k.loads[net]
	case anywhere:
		return true
	}
	return k.reach[net] >= 0
}

// anywhere is where a net may stand that a terminal names.
const anywhere convention.Where = "anywhere"

// one leaves out the nets that meet another of the list at a load or switch: a function
// is what one of its wires does, and nothing says which.
func (k *knowing) one(nets []int) []int {
	at := map[harness.PartID][]int{}
	for i := range k.h.Terminals {
		x := &k.h.Terminals[i]
		net := k.f.Root(i)
		if x.Part != harness.None && slices.Contains(nets, net) && !passes(k.h.Parts[x.Part].Kind) {
			at[x.Part] = withNumber(at[x.Part], net)
		}
	}
	var out []int
	for _, net := range nets {
		alone := true
		for _, met := range at {
			alone = alone && (len(met) < 2 || !slices.Contains(met, net))
		}
		if alone {
			out = append(out, net)
		}
	}
	return out
}

// passes tells of kinds at which wires of one function may well meet.
func passes(kind harness.Kind) bool {
	return slices.Contains([]harness.Kind{harness.Splice, harness.Bus, harness.Ground, harness.Connector, harness.Fuse, harness.FusePanel, harness.Breaker}, kind)
}

// shared tells whether wires of another circuit lie on a net too.
func (k *knowing) shared(net int, c harness.CircuitID) bool {
	for w := range k.h.Wires {
		if x := &k.h.Wires[w]; x.Circuit != c && k.f.Root(int(x.From)) == net {
			return true
		}
	}
	return false
}

// terminals notes what the terminals say that mean one thing.
func (k *knowing) terminals() {
	for _, fn := range convention.Functions() {
		for _, pattern := range fn.Terminals {
			for i := range k.h.Terminals {
				x := &k.h.Terminals[i]
				net, where := k.f.Root(i), fn.Where
				if strings.Contains(pattern, ".") {
					where = anywhere // the terminal is the one
				}
				if x.Part != harness.None && k.stands(net, where) && k.meant(x, pattern) {
					k.said[fromTerminal][net] = append(k.said[fromTerminal][net], known{fn.Word, "known by " + x.Full})
				}
			}
		}
	}
}

// meant tells whether a terminal is the one that a pattern names (convention.Function).
func (k *knowing) meant(x *harness.Terminal, pattern string) bool {
	p := &k.h.Parts[x.Part]
	pattern, beside, also := strings.Cut(pattern, "&")
	kind, name, one := strings.Cut(pattern, ".")
	switch {
	case kind == "*" && p.Kind == harness.Relay || kind != "*" && kind != string(p.Kind):
		return false
	case one && marked(x) != name:
		return false
	}
	return !also || slices.ContainsFunc(p.Terminals, func(t harness.TerminalID) bool { return marked(&k.h.Terminals[t]) == beside })
}

// marked is what stands at a terminal, of a connector at its cavity.
func marked(x *harness.Terminal) string {
	if x.Cavity != "" {
		return x.Cavity
	}
	return x.Name
}

// fedFrom gives the net from which a fuse's other net is fed.
func (k *knowing) fedFrom(e *harness.Element) (from, to int) {
	a, b := k.f.Root(int(e.A)), k.f.Root(int(e.B))
	if k.reach[b] >= 0 && (k.reach[a] < 0 || k.reach[b] < k.reach[a]) {
		return b, a
	}
	return a, b
}

// behindFuse tells whether a fuse lies between a net and one of those given before it.
func (k *knowing) behindFuse(net int, nets []int) bool {
	for i := range k.h.Elements {
		if e := &k.h.Elements[i]; e.Kind == harness.FuseLink {
			if from, to := k.fedFrom(e); to == net && from != net && slices.Contains(nets, from) {
				return true
			}
		}
	}
	return false
}

// fromFuse tells whether a net begins at a fuse: where it serves several circuits it is
// their feed.
func (k *knowing) fromFuse(net int) bool {
	for i := range k.h.Elements {
		if e := &k.h.Elements[i]; e.Kind == harness.FuseLink {
			if from, to := k.fedFrom(e); to == net && from != net {
				return true
			}
		}
	}
	return false
}

// fused names what lies behind the fuses of a feed: live with the ignition, or always. A
// net that leads on to more fuses is main feed as long as it comes from the battery.
func (k *knowing) fused(out map[int]known) {
	for again := true; again; {
		again = false
		for i := range k.h.Elements {
			e := &k.h.Elements[i]
			if e.Kind != harness.FuseLink {
				continue
			}
			from, to := k.fedFrom(e)
			if from == to || out[to].function != "" || !k.stands(to, convention.All) || k.unsure(to) {
				continue
			}
			word := ""
			switch first := out[from].function; {
			case first == "ignition":
				word = "ignition-fused"
			case (k.role[from] == feed || first == "permanent") && k.behindMore(to):
				word = "permanent"
			case k.role[from] == feed || first == "permanent":
				word = "permanent-fused"
			default:
				continue
			}
			out[to], again = known{word, "known by the fuse " + e.Name + " before it"}, true
		}
	}
}

// unsure tells of a net that evidence says several things of: nothing more is guessed.
func (k *knowing) unsure(net int) bool {
	for _, said := range k.said {
		if len(said[net]) > 0 {
			return true
		}
	}
	return false
}

// behindMore tells whether a net feeds fuses.
func (k *knowing) behindMore(net int) bool {
	for i := range k.h.Elements {
		if e := &k.h.Elements[i]; e.Kind == harness.FuseLink {
			if from, to := k.fedFrom(e); from == net && to != net {
				return true
			}
		}
	}
	return false
}
