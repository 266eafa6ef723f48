// Package joint says what a wire is joined to a terminal with, before anything
// is known of the wire: a ring on a stud, a receptacle on a tab, a contact in a
// housing, a butt splice on a lead. In: the model. Out: one Joint a terminal, and
// the most copper that it takes, which the gauge keeps to where it can.
package joint

import (
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

// Fittings.
const (
	Ring         = "ring"
	Receptacle   = "receptacle"
	Contact      = "contact"
	ButtSplice   = "butt splice"
	SpliceBarrel = "splice barrel"
	Bullet       = "bullet"
	Ferrule      = "ferrule"
)

// Joint is what a terminal takes: a fitting and its size (a stud, a tab in mm, a
// family of contacts; "" where it has none). Given: the description says so.
// Shop is the heaviest wire that the shop's own terminals for it take, 0 where it has none.
type Joint struct {
	Fitting, Size string
	Given         bool
	Shop          unit.SquareMillimetre
}

// Most gives the largest area that the fitting takes; 0: no limit is listed.
func (j Joint) Most() unit.SquareMillimetre {
	switch j.Fitting {
	case Receptacle:
		most, _ := rating.TabLimit(j.Size)
		return max(most, j.Shop)
	case Contact:
		return max(mostContact, j.Shop)
	case Bullet:
		return max(mostBullet, j.Shop)
	}
	return 0
}

// mostContact is what the contacts of a housing take at most; common practice, no
// source: housings for thicker wire have studs or lugs.
const mostContact unit.SquareMillimetre = 6

// mostBullet is what bullets take at most, those with a yellow sleeve; common practice, no source.
const mostBullet unit.SquareMillimetre = 6

// Takes tells whether the fitting takes an area; sizes are rounded, so two parts
// in a hundred over the limit still pass.
func (j Joint) Takes(area unit.SquareMillimetre) bool {
	most := j.Most()
	return most <= 0 || area <= most*1.02
}

// What terminals take that are of no kind of part; common practice, no source.
var (
	chassisEnds = []kind.End{{Terminal: "*", Fitting: Ring, Size: "M6", Inches: "1/4"}}
	boltedEnds  = []kind.End{{Terminal: "*", Fitting: Ring, Size: "M8", Inches: "5/16"}} // of a fuse whose body is bolted on
)

// Holds tells whether a terminal of the shop's own goes where the joint is; of a
// contact that names no family, anywhere.
func (j Joint) Holds(s *harness.ShopTerminal) bool {
	return s.Fitting == j.Fitting && (strings.EqualFold(s.Size, j.Size) || s.Size == "" && j.Fitting == Contact)
}

// Of decides what a terminal takes. Bolted tells that its part is a fuse whose
// body is bolted on; the chassis itself takes a ring.
func Of(h *harness.Harness, t harness.TerminalID, bolted bool) Joint {
	return withShop(h, of(h, t, bolted))
}

// On is a ring on a stud that was chosen.
func On(h *harness.Harness, stud string) Joint { return withShop(h, Joint{Fitting: Ring, Size: stud}) }

func withShop(h *harness.Harness, j Joint) Joint {
	for i := range h.Practice.Terminals {
		if s := &h.Practice.Terminals[i]; j.Holds(s) {
			j.Shop = max(j.Shop, s.To)
		}
	}
	return j
}

func of(h *harness.Harness, t harness.TerminalID, bolted bool) Joint {
	p := h.PartOf(t)
	if p == nil {
		return usual(chassisEnds, "", h.Sheet.Imperial)
	}
	unsaid := usualOf(p, h.Terminals[t].Name, bolted, h.Sheet.Imperial)
	switch {
	case unsaid.Fitting == SpliceBarrel, unsaid.Fitting == Contact && p.Fitting == "" && p.Tab == "" && p.Stud == "":
		unsaid.Size = p.Family
		return unsaid
	case p.Family != "":
		return Joint{Fitting: Contact, Size: p.Family, Given: true}
	case p.Fitting != "":
		return Joint{Fitting: given[p.Fitting], Given: true}
	case p.Stud != "" && p.Tab != "" && unsaid.Fitting == Ring:
		return Joint{Fitting: Ring, Size: p.Stud, Given: true}
	case p.Tab != "":
		return Joint{Fitting: Receptacle, Size: p.Tab, Given: true}
	case p.Stud != "":
		return Joint{Fitting: Ring, Size: p.Stud, Given: true}
	}
	return unsaid
}

// given are the fittings for the words of the description.
var given = map[string]string{"butt": ButtSplice, "bullet": Bullet, "ferrule": Ferrule}

func usualOf(p *harness.Part, name string, bolted, imperial bool) Joint {
	if p.Panel != nil {
		for _, feed := range p.Panel.Feeds {
			if feed.Name == name {
				name = "feed"
			}
		}
	}
	if p.Kind == harness.Fuse && bolted {
		return usual(boltedEnds, name, imperial)
	}
	return usual(endsOf(p.Kind), name, imperial)
}

func endsOf(k harness.Kind) []kind.End {
	row, _ := kind.Of(k)
	return row.Ends
}

// usual finds what a terminal takes; one that is not listed has leads of its own.
func usual(ends []kind.End, terminal string, imperial bool) Joint {
	for _, e := range ends {
		if e.Terminal != terminal && e.Terminal != "*" {
			continue
		}
		if imperial {
			return Joint{Fitting: e.Fitting, Size: e.Inches}
		}
		return Joint{Fitting: e.Fitting, Size: e.Size}
	}
	return Joint{Fitting: ButtSplice}
}

// Stud is the stud of a ground that does not name its own.
func Stud(imperial bool) string { return usual(endsOf(harness.Ground), "", imperial).Size }
