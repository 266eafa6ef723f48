package part

import (
	"strconv"

	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/unit"
)

// inside makes the joints written under `inside:`.
func (b *builder) inside() {
	for _, in := range b.w.Inside {
		if len(in.Join) > 0 {
			b.join(in)
			continue
		}
		from, ok1 := b.known(in.From)
		to, ok2 := b.known(in.To)
		if !ok1 || !ok2 || from == to {
			continue
		}
		behaves := harness.Behaviour(in.Behaves.Or(string(b.behaves())))
		b.load(b.unique(b.between(in.From.Text, in.To.Text)), from, to, in.Draws.V, behaves)
	}
}

func (b *builder) join(in describe.Inside) {
	first, ok := b.known(in.Join[0])
	for _, w := range in.Join[1:] {
		other, ok2 := b.known(w)
		if ok && ok2 && first != other {
			b.element(harness.Element{Kind: harness.Join, Name: b.unique(b.between(in.Join[0].Text, w.Text)), A: first, B: other})
		}
	}
}

// known gives a terminal named under inside:; one that terminals: lacks is a problem.
func (b *builder) known(w read.Word) (harness.TerminalID, bool) {
	id, ok := b.has(w.Text)
	if !ok && w.Given() {
		b.Unknown("unknown-terminal", "terminal of "+b.p.Ref, w, Names(b.made.Terminals))
	}
	return id, ok
}

// unique makes a second joint between the same terminals tell itself apart.
func (b *builder) unique(name string) string {
	base := name
	for n := 2; ; n++ {
		taken := false
		for _, e := range b.made.Elements {
			taken = taken || e.Name == name
		}
		if !taken {
			return name
		}
		name = base + "#" + strconv.Itoa(n)
	}
}

func (b *builder) behaves() harness.Behaviour {
	if b.w.Behaves.Given() {
		return harness.Behaviour(b.w.Behaves.Text)
	}
	if row, _ := kind.Of(b.p.Kind); row.Behaves != "" {
		return row.Behaves
	}
	return harness.AsCurrent
}

// load adds a load; watts are turned into amperes at their voltage.
func (b *builder) load(name string, from, to harness.TerminalID, draw unit.Draw, behaves harness.Behaviour) {
	sys := b.side(from, to)
	at := draw.At
	if at == 0 {
		at = b.p.Draws.At // at-volts: of the part
	}
	if at == 0 {
		at = sys.Running
	}
	amps := draw.Amps
	if amps == 0 {
		amps = unit.Ampere(float64(draw.Watts) / float64(at))
	}
	b.element(harness.Element{
		Kind: harness.Load, Name: name, A: from, B: to,
		Amps: amps, AtVolts: at, Behaves: behaves, Floor: b.floor(behaves, sys),
	})
}

// floor is the voltage below which a load takes current as a resistance.
func (b *builder) floor(behaves harness.Behaviour, sys harness.System) unit.Volt {
	share := floorShare
	switch {
	case b.p.WorksAbove > 0:
		return b.p.WorksAbove
	case behaves == harness.AsPower:
		share = lowShare
	}
	return unit.Volt(share * float64(sys.Volts))
}
