package kind

import (
	"flag"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
)

var update = flag.Bool("update", false, "write the table of kinds in samples/FORMAT.md anew")

// TestFormatListsTheKinds holds the table of kinds in samples/FORMAT.md to this one.
func TestFormatListsTheKinds(t *testing.T) {
	const file, begin, end = "../../../samples/FORMAT.md", "<!-- kinds -->\n", "<!-- end of kinds -->\n"
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	head, rest, ok := strings.Cut(string(text), begin)
	require.True(t, ok)
	have, tail, ok := strings.Cut(rest, end)
	require.True(t, ok)
	if *update {
		have = Table()
		require.NoError(t, os.WriteFile(file, []byte(head+begin+have+end+tail), 0o644))
	}
	require.Equal(t, Table(), have, "-update renews it")
}

func TestEveryRowIsWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range All() {
		for _, word := range append(strings.Fields(r.Nicknames), string(r.Kind)) {
			require.False(t, seen[word], "%s stands for two kinds", word)
			seen[word] = true
		}
		of, ok := Of(r.Kind)
		require.True(t, ok)
		require.Equal(t, r.Kind, of.Kind)
		require.NotEmpty(t, r.List, r.Kind)
		require.NotEmpty(t, r.Format.Terminals, r.Kind)
		for _, key := range strings.Fields(r.Needs) {
			require.True(t, r.Fits(key), "%s needs %s, and has no such key", r.Kind, key)
		}
		require.NotEqual(t, "", r.ClassOf(r.Behaves))
		if r.Inside == Load {
			require.Equal(t, Works, r.Role, r.Kind)
			require.NotEmpty(t, r.Behaves, "%s: how it behaves", r.Kind)
			require.Equal(t, "+ -", r.Terminals, r.Kind)
		}
	}
	_, ok := Of("no kind")
	require.False(t, ok)
}

// TestClassesAtContacts: FAA AC 43.13-1B table 11-4 tells lamps, motors, inductive and
// resistive loads apart; relays, valves and horns are coils.
func TestClassesAtContacts(t *testing.T) {
	for k, want := range map[harness.Kind]Class{
		harness.Lamp: Lamps, harness.Motor: Motors, harness.Starter: Motors, harness.Coil: Inductive, harness.Solenoid: Inductive,
		harness.Horn: Inductive, harness.Heater: Resistive, harness.Outlet: Resistive, harness.Module: Resistive,
	} {
		r, _ := Of(k)
		require.Equal(t, want, r.ClassOf(r.Behaves), k)
	}
	lamp, _ := Of(harness.Lamp)
	require.Equal(t, Lamps, lamp.ClassOf(harness.AsResistance), "however its current is computed")
	outlet, _ := Of(harness.Outlet)
	require.Equal(t, Motors, outlet.ClassOf(harness.AsMotor))
}

func TestNicknames(t *testing.T) {
	require.Equal(t, harness.Lamp, Meant("Bulb"))
	require.Empty(t, Meant("lamp"))
}
