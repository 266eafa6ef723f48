package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing/figures"
)

// sampleFile writes a sample into a folder of its own and gives its path.
func sampleFile(t testing.TB, name string) string {
	for _, s := range samples.List() {
		if s.Name == name {
			path := filepath.Join(t.TempDir(), name+".yaml")
			require.NoError(t, os.WriteFile(path, s.Text, 0o600))
			return path
		}
	}
	t.Fatalf("there is no sample %s", name)
	return ""
}

// do runs the command as a shell would.
func do(args ...string) (code int, out, errs string) {
	var o, e bytes.Buffer
	code = run(args, strings.NewReader(""), &o, &e)
	return code, o.String(), e.String()
}

func TestHelpForANewcomer(t *testing.T) {
	for _, args := range [][]string{{}, {"help"}, {"--help"}, {"-h"}} {
		code, out, _ := do(args...)
		require.Equal(t, 0, code)
		for _, v := range verbs() {
			require.Contains(t, out, v.name)
		}
		require.Contains(t, out, "loomfolio sample first > my.yaml")
		require.Contains(t, out, "qualified, licensed person")
	}
	for _, v := range verbs() {
		for _, args := range [][]string{{"help", v.name}, {v.name, "-h"}} {
			if v.name == "help" && args[0] == "help" && len(args) == 2 && args[1] == "-h" {
				continue
			}
			code, out, _ := do(args...)
			require.Equalf(t, 0, code, "%v", args)
			require.Containsf(t, out, "loomfolio", "%v", args)
		}
	}
}

func TestUnusableCalls(t *testing.T) {
	first := sampleFile(t, "first")
	for _, c := range []struct {
		says string
		args []string
	}{
		{"did you mean packet?", []string{"paket", first}},
		{"packet takes one file", []string{"packet"}},
		{"packet takes one file", []string{"packet", first, first}},
		{"say where with -o", []string{"packet", "-"}},
		{"there is no file", []string{"check", filepath.Join(t.TempDir(), "none.yaml")}},
		{"there is no option --fro", []string{"packet", first, "--fro", "bench"}},
		{"option --paper needs a word after it", []string{"packet", first, "--paper"}},
		{"no sheets for \"builder\": take one of bench, customer, archive", []string{"packet", first, "--for", "builder"}},
		{"no paper \"A5\"", []string{"packet", first, "--paper", "A5"}},
		{"say what to print", []string{"figures", first}},
		{"say what to print", []string{"figures", first, "--json", "--csv", "wires"}},
		{"tables: wires", []string{"figures", first, "--csv", "wirse"}},
		{"there is no state", []string{"figures", first, "--netlist", "nowhere"}},
		{"--fault goes with --netlist STATE", []string{"figures", first, "--json", "--fault", "3B:open"}},
		{"there is no fault \"3B:opened\": figures FILE --csv faults lists them all", []string{"figures", first, "--netlist", "driving", "--fault", "3B:opened"}},
		{"SW1.1-2:burnt-10 changes nothing in state parked", []string{"figures", first, "--netlist", "parked", "--fault", "SW1.1-2:burnt-10"}},
		{"nothing is called", []string{"explain", first, "99Z"}},
		{"samples: first", []string{"sample", "none"}},
	} {
		code, out, errs := do(c.args...)
		require.Equalf(t, 2, code, "%v: %s%s", c.args, out, errs)
		require.Containsf(t, errs, c.says, "%v", c.args)
		require.Empty(t, out)
	}
}

func TestPacketIsWrittenBesideTheDescription(t *testing.T) {
	first := sampleFile(t, "first")
	code, out, errs := do("packet", first)
	require.Equalf(t, 0, code, "%s", errs)
	pdf := strings.TrimSuffix(first, ".yaml") + ".pdf"
	require.Contains(t, out, pdf)
	data, err := os.ReadFile(pdf)
	require.NoError(t, err)
	require.True(t, bytes.HasPrefix(data, []byte("%PDF-")))

	other := filepath.Join(t.TempDir(), "other.pdf")
	code, _, _ = do("packet", "-o", other, first, "--for", "archive")
	require.Equal(t, 0, code)
	again, err := os.ReadFile(other)
	require.NoError(t, err)
	require.Equal(t, data, again, "the same description gives the same bytes")
}

func TestNothingIsWrittenWhenTheDescriptionIsWrong(t *testing.T) {
	first := sampleFile(t, "first")
	pdf := strings.TrimSuffix(first, ".yaml") + ".pdf"
	code, _, errs := do("packet", first)
	require.Zero(t, code, errs)
	yesterday := read(t, pdf)
	text, err := os.ReadFile(first)
	require.NoError(t, err)
	broken := strings.Replace(string(text), "kind: relay", "kind: rellay", 1)
	require.NotEqual(t, string(text), broken)
	require.NoError(t, os.WriteFile(first, []byte(broken), 0o600))
	code, out, errs := do("packet", first)
	require.Equal(t, 2, code)
	require.Empty(t, out)
	require.Contains(t, errs, "relay")
	require.Equal(t, yesterday, read(t, pdf))
	left, err := filepath.Glob(filepath.Join(filepath.Dir(first), ".loomfolio-*"))
	require.NoError(t, err)
	require.Empty(t, left)
}

func TestFiguresJSONHasTheFixedKeys(t *testing.T) {
	code, out, errs := do("figures", sampleFile(t, "first"), "--json")
	require.Equalf(t, 0, code, "%s", errs)
	var doc map[string]any
	require.NoError(t, json.Unmarshal([]byte(out), &doc))
	for _, key := range strings.Fields("loomfolio title revision digest wires loads fuses relays contacts grounds splices ends runs states reels colours findings sources") {
		require.Contains(t, doc, key)
	}
	wire := doc["wires"].([]any)[0].(map[string]any)
	for _, key := range strings.Fields(`id circuit from to length_mm given_length system gauge area_mm2 diameter_mm insulation amps state drop_v
		temperature_c ampacity_a resistance_ohm protected_by base tracer runs reason found wants below`) {
		require.Contains(t, wire, key)
	}
	state := doc["states"].([]any)[0].(map[string]any)
	for _, key := range strings.Fields("name nodes amps_from residual_a elements") {
		require.Contains(t, state, key)
	}
	element := state["elements"].([]any)[0].(map[string]any)
	for _, key := range strings.Fields("name kind a b value") {
		require.Contains(t, element, key)
	}
	require.InDelta(t, 1, doc["loomfolio"], 0)
}

func TestFiguresCSVOpensAsATable(t *testing.T) {
	code, printed, errs := do("figures", sampleFile(t, "first"), "--csv", "wires")
	require.Equalf(t, 0, code, "%s", errs)
	for _, table := range strings.Fields("wires loads fuses relays grounds splices ends runs reels shopping findings sources") {
		out := tableOf(t, "first", table)
		rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
		require.NoError(t, err)
		require.NotEmpty(t, rows)
		if table == "wires" {
			require.Equal(t, printed, out)
			require.Contains(t, rows[0], "length_mm")
			require.Greater(t, len(rows), 10)
		}
	}
}

// tableOf gives a table of a sample's figures as the command prints it.
func tableOf(t *testing.T, name, table string) string {
	var out bytes.Buffer
	h, r := kept(t, name)
	require.NoError(t, figures.CSV(&out, figures.Of(h, r), table))
	return out.String()
}

func TestExplainNamesRuleAndSource(t *testing.T) {
	first := sampleFile(t, "first")
	_, out, _ := do("figures", first, "--csv", "wires")
	rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	require.NoError(t, err)
	code, out, errs := do("explain", first, rows[1][0])
	require.Equalf(t, 0, code, "%s", errs)
	for _, word := range []string{"Wire " + rows[1][0], "each rule", "each method", "ABYC E-11", "sources", "end a", "end b"} {
		require.Contains(t, out, word)
	}
	code, out, _ = do("explain", first, "FAN")
	require.Equal(t, 0, code)
	require.Contains(t, out, "load FAN")
}

func TestDescriptionFromStandardInput(t *testing.T) {
	var o, e bytes.Buffer
	text, err := os.ReadFile(sampleFile(t, "first"))
	require.NoError(t, err)
	code := run([]string{"check", "-"}, bytes.NewReader(text), &o, &e)
	require.Equalf(t, 0, code, "%s", e.String())
	require.Contains(t, o.String(), "circuits")
}

// The network of a fault is printed as it was solved: what is broken, and the fuse that it opens.
func TestNetlistOfAFault(t *testing.T) {
	first := sampleFile(t, "first")
	code, out, errs := do("figures", first, "--netlist", "driving", "--fault", "3B:open")
	require.Zero(t, code, errs)
	require.Contains(t, out, "* 3B (wire): open\n")
	code, out, errs = do("figures", first, "--netlist", "driving", "--fault", "3B:short")
	require.Zero(t, code, errs)
	require.Contains(t, out, "* MF1 (fuse): open\n")
	require.Regexp(t, `\* K1.30~chassis \(bridge\)\nR\S+ \d+ \d+ 0.01\d*\n`, out)
}
