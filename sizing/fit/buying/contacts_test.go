package buying

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/choose/chosen"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// shop is a basket with parts whose contacts carry so much.
func shop(buy string, parts ...harness.Part) *basket {
	h, c := &harness.Harness{System: harness.System{Volts: 12}}, &chosen.Chosen{}
	h.Practice.Buy.For = buy
	for i, p := range parts {
		p.ID = harness.PartID(i)
		h.Parts = append(h.Parts, p)
		c.Contacts = append(c.Contacts, chosen.Contact{Part: p.ID, Amps: p.Holder})
		h.Parts[i].Holder = 0
	}
	return &basket{h: h, c: c, at: map[[2]string]int{}}
}

// carries is a part whose contact carries so much.
func carries(kind harness.Kind, amps unit.Ampere, change ...func(*harness.Part)) harness.Part {
	p := harness.Part{Kind: kind, Holder: amps}
	for _, f := range change {
		f(&p)
	}
	return p
}

func given(r unit.Ampere) func(*harness.Part) { return func(p *harness.Part) { p.Rating = r } }

func bought(b *basket) []string {
	b.contacts()
	var out []string
	for _, it := range b.sorted() {
		out = append(out, it.What)
	}
	return out
}

// Contacts of one make are bought in few ratings: none below what it carries, a switch at most
// one step up, a plug-in relay up to 40 A, a given rating as it is; where all is bought as it
// is least, nothing changes. Common practice, no source.
func TestContactsInFewRatings(t *testing.T) {
	r, s := harness.Relay, harness.Switch
	for _, c := range []struct {
		buy   string
		parts []harness.Part
		want  []string
	}{
		{"few", []harness.Part{carries(r, 12), carries(r, 18), carries(r, 22), carries(r, 38)}, []string{"relay, 12 V, make contact, at least 40 A"}},
		{"few", []harness.Part{carries(r, 12), carries(r, 38), carries(r, 48)}, []string{"relay, 12 V, make contact, at least 15 A", "relay, 12 V, make contact, at least 50 A"}},
		{"few", []harness.Part{carries(r, 12), carries(r, 120)}, []string{"relay, 12 V, make contact, at least 15 A", "relay, 12 V, make contact, at least 150 A"}},
		{"few", []harness.Part{carries(r, 12), carries(r, 1, given(20))}, []string{"relay, 12 V, make contact, 20 A", "relay, 12 V, make contact, at least 15 A"}},
		{"clear", []harness.Part{carries(r, 12), carries(r, 18)}, []string{"relay, 12 V, make contact, at least 15 A", "relay, 12 V, make contact, at least 20 A"}},
		{"", []harness.Part{carries(r, 12), carries(r, 18)}, []string{"relay, 12 V, make contact, at least 15 A", "relay, 12 V, make contact, at least 20 A"}},
		{"few", []harness.Part{carries(s, 0.2), carries(s, 8), carries(s, 12)}, []string{"switch, 0 positions, 0 terminals, at least 1 A", "switch, 0 positions, 0 terminals, at least 15 A"}},
		{"few", []harness.Part{carries(s, 0.2), carries(s, 4)}, []string{"switch, 0 positions, 0 terminals, at least 1 A", "switch, 0 positions, 0 terminals, at least 5 A"}}, // 5 A contacts do worse with milliamps
		{"few", []harness.Part{carries(s, 18), carries(s, 22, func(p *harness.Part) { p.Momentary = true })}, []string{"switch, 0 positions, 0 terminals, at least 20 A", "switch, 0 positions, 0 terminals, momentary, at least 25 A"}},
		{"few", []harness.Part{carries(s, 18, func(p *harness.Part) { p.PartNumber = "8" }), carries(s, 22)}, []string{"switch, 0 positions, 0 terminals, at least 20 A, No. 8", "switch, 0 positions, 0 terminals, at least 25 A"}},
		{"few", []harness.Part{carries(s, 0)}, []string{"switch, 0 positions, 0 terminals"}},
	} {
		require.Equal(t, c.want, bought(shop(c.buy, c.parts...)), "%v", c.want)
	}
}
