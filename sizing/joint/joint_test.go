package joint

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
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
		{"a tab", harness.Part{Kind: harness.Lamp}, "+", false, Joint{Receptacle, "6.3", false}},
		{"a wider one", harness.Part{Kind: harness.Lamp, Tab: "9.5"}, "+", false, Joint{Receptacle, "9.5", true}},
		{"a stud", harness.Part{Kind: harness.Lamp, Stud: "M5"}, "+", false, Joint{Ring, "M5", true}},
		{"a stud and a tab, on the tab", harness.Part{Kind: harness.Starter, Stud: "M8", Tab: "6.3"}, "50", false, Joint{Receptacle, "6.3", true}},
		{"a stud and a tab, on the stud", harness.Part{Kind: harness.Starter, Stud: "M8", Tab: "6.3"}, "30", false, Joint{Ring, "M8", true}},
		{"a fuse in line", harness.Part{Kind: harness.Fuse}, "1", false, Joint{Fitting: ButtSplice}},
		{"a bolted fuse", harness.Part{Kind: harness.Fuse}, "1", true, Joint{Ring, "M8", false}},
		{"a contact", harness.Part{Kind: harness.Module, Family: "1.5 series"}, "7", false, Joint{Contact, "1.5 series", false}},
		{"a panel's feed", harness.Part{Kind: harness.FusePanel, Panel: &harness.Panel{Feeds: []harness.PanelFeed{{Name: "main"}}}}, "main", false, Joint{Ring, "M6", false}},
		{"a panel's way", harness.Part{Kind: harness.FusePanel, Panel: &harness.Panel{}}, "3", false, Joint{Receptacle, "6.3", false}},
	} {
		require.Equal(t, c.want, Of(model(c.part, c.at), 1, c.bolted), c.name)
	}
	require.Equal(t, Joint{Fitting: Ring, Size: "M6"}, Of(model(harness.Part{}, ""), 0, false), "the chassis")
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
