package joint

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/harness/kind"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/unit"
)

func model(p harness.Part, terminal string) *harness.Harness {
	return &harness.Harness{
		Parts:     []harness.Part{p},
		Terminals: []harness.Terminal{{Part: harness.None, Name: "chassis"}, {ID: 1, Part: 0, Name: terminal}},
	}
}

// What a part says wins over what its kind usually has; common practice, no source.
func TestWhatATerminalTakes(t *testing.T) {
	for _, c := range []struct {
		name   string
		part   harness.Part
		at     string
		bolted bool
		want   Joint
	}{
		{"a tab", harness.Part{Kind: harness.Lamp}, "+", false, Joint{Fitting: Receptacle, Size: "6.3", Given: false}},
		{"a wider one", harness.Part{Kind: harness.Lamp, Tab: "9.5"}, "+", false, Joint{Fitting: Receptacle, Size: "9.5", Given: true}},
		{"a stud", harness.Part{Kind: harness.Lamp, Stud: "M5"}, "+", false, Joint{Fitting: Ring, Size: "M5", Given: true}},
		{"a stud and a tab, on the tab", harness.Part{Kind: harness.Starter, Stud: "M8", Tab: "6.3"}, "50", false, Joint{Fitting: Receptacle, Size: "6.3", Given: true}},
		{"a stud and a tab, on the stud", harness.Part{Kind: harness.Starter, Stud: "M8", Tab: "6.3"}, "30", false, Joint{Fitting: Ring, Size: "M8", Given: true}},
		{"a fuse in line", harness.Part{Kind: harness.Fuse}, "1", false, Joint{Fitting: ButtSplice}},
		{"a bolted fuse", harness.Part{Kind: harness.Fuse}, "1", true, Joint{Fitting: Ring, Size: "M8", Given: false}},
		{"leads with bullets", harness.Part{Kind: harness.Lamp, Fitting: "bullet"}, "+", false, Joint{Fitting: Bullet, Given: true}},
		{"screws for ferrules", harness.Part{Kind: harness.Relay, Fitting: "ferrule"}, "30", false, Joint{Fitting: Ferrule, Given: true}},
		{"a contact", harness.Part{Kind: harness.Module, Family: "1.5 series"}, "7", false, Joint{Fitting: Contact, Size: "1.5 series", Given: false}},
		{"a module with leads", harness.Part{Kind: harness.Module, Fitting: "butt"}, "7", false, Joint{Fitting: ButtSplice, Given: true}},
		{"a module with tabs", harness.Part{Kind: harness.Module, Tab: "6.3"}, "7", false, Joint{Fitting: Receptacle, Size: "6.3", Given: true}},
		{"a module with a stud", harness.Part{Kind: harness.Module, Stud: "M5"}, "7", false, Joint{Fitting: Ring, Size: "M5", Given: true}},
		{"a panel's feed", harness.Part{Kind: harness.FusePanel, Panel: &harness.Panel{Feeds: []harness.PanelFeed{{Name: "main"}}}}, "main", false, Joint{Fitting: Ring, Size: "M6", Given: false}},
		{"a panel's way", harness.Part{Kind: harness.FusePanel, Panel: &harness.Panel{}}, "3", false, Joint{Fitting: Receptacle, Size: "6.3", Given: false}},
	} {
		require.Equal(t, c.want, Of(model(c.part, c.at), 1, c.bolted), c.name)
	}
	require.Equal(t, Joint{Fitting: Ring, Size: "M6"}, Of(model(harness.Part{}, ""), 0, false), "the chassis")
}

// On a sheet in inches a stud that nobody named is one in inches (which, common practice, no source); a named one
// stays. Tabs of 6.3 mm are 0.250 in (IEC 61210; the pair from memory).
func TestStudsOnSheetsInInches(t *testing.T) {
	for _, c := range []struct {
		part harness.Part
		at   string
		want string
	}{
		{harness.Part{Kind: harness.Battery}, "+", "5/16"},
		{harness.Part{Kind: harness.Isolator}, "1", "3/8"},
		{harness.Part{Kind: harness.Breaker}, "1", "#10"},
		{harness.Part{Kind: harness.Battery, Stud: "M8"}, "+", "M8"},
		{harness.Part{Kind: harness.Lamp}, "+", "6.3"},
	} {
		h := model(c.part, c.at)
		h.Sheet.Imperial = true
		require.Equal(t, c.want, Of(h, 1, false).Size, c.part.Kind)
		require.Equal(t, "1/4", Of(h, 0, false).Size, "the chassis")
	}
	require.Equal(t, []string{"M6", "1/4"}, []string{Stud(false), Stud(true)})
	for _, k := range kind.All() {
		require.NotEmpty(t, k.Ends, "%s: it says what its terminals take", k.Kind)
		for _, e := range k.Ends {
			require.Contains(t, []string{Ring, Receptacle, Contact, ButtSplice, SpliceBarrel, Ferrule}, e.Fitting, k.Kind)
			if e.Fitting == Ring {
				_, known := rating.StudOf(e.Inches)
				require.True(t, known, e.Inches)
			}
		}
	}
}

// IEC 61210, scope: flexible conductors up to 6 mm2 on tabs.
func TestWhatAFittingHolds(t *testing.T) {
	tab := Joint{Fitting: Receptacle, Size: "6.3"}
	require.True(t, tab.Takes(6))
	require.False(t, tab.Takes(10))
	require.True(t, Joint{Fitting: Ring, Size: "M8"}.Takes(70))
	require.False(t, Joint{Fitting: Contact}.Takes(10), "common practice, no source")
	require.Zero(t, Joint{Fitting: Ring, Size: "M8"}.Most())
}

// What the shop has goes before what the tables end at.
func TestTheShopsOwnTerminals(t *testing.T) {
	h := model(harness.Part{Kind: harness.Module, Family: "power"}, "7")
	h.Practice.Terminals = []harness.ShopTerminal{
		{Fitting: Contact, Size: "POWER", From: 6, To: 10}, {Fitting: Contact, Size: "signal", From: 10, To: 16}, {Fitting: Ring, Size: "M6", From: 1, To: 2.5},
	}
	j := Of(h, 1, false)
	require.Equal(t, Joint{Fitting: Contact, Size: "power", Shop: 10}, j, "its family alone, whatever the capitals")
	require.True(t, j.Takes(10))
	require.False(t, j.Takes(16))
	require.True(t, j.Holds(&harness.ShopTerminal{Fitting: Contact}), "of no family: anywhere")
	require.Equal(t, unit.SquareMillimetre(2.5), Of(h, 0, false).Shop, "the chassis takes a ring M6")
}
