// Package spicecheck is for tests: it solves a state's netlist once more with
// ngspice, a general circuit simulator, and compares every node's voltage.
// It is no part of the program.
package spicecheck

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/network"
)

// How near each voltage must be: the relative part, and a floor in volts for
// nodes that lie at almost nothing.
const (
	relative = 1e-6
	floor    = 1e-9
)

// Compare fails the test where ngspice finds another voltage than the state
// has. Without ngspice the test is skipped, unless CI is set in the environment.
func Compare(t testing.TB, h *harness.Harness, s network.State) {
	t.Helper()
	Need(t)
	found, err := Differences(t.TempDir(), h, s)
	if err != nil {
		t.Fatalf("state %s: %v", s.Name, err)
	}
	for _, d := range found {
		t.Errorf("state %s: %s", s.Name, d)
	}
}

// Case is a state to compare.
type Case struct {
	Name    string
	Harness *harness.Harness
	State   network.State
}

// CompareAll is Compare for many states, in one run of ngspice.
func CompareAll(t testing.TB, cases []Case) {
	t.Helper()
	Need(t)
	netlists := make([][]byte, len(cases))
	for i, c := range cases {
		var text bytes.Buffer
		if err := network.Netlist(&text, c.Harness, c.State); err != nil {
			t.Fatalf("%s: %v", c.Name, err)
		}
		netlists[i] = text.Bytes()
	}
	got, err := RunAll(t.TempDir(), netlists)
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range cases {
		for _, d := range differences(c.State, got[i]) {
			t.Errorf("%s: %s", c.Name, d)
		}
	}
}

// Differences lists the nodes for which ngspice finds another voltage than the
// state has. The folder is for its files.
func Differences(folder string, h *harness.Harness, s network.State) ([]string, error) {
	var text bytes.Buffer
	if err := network.Netlist(&text, h, s); err != nil {
		return nil, err
	}
	if slices.Max(network.SpiceNodes(s)) <= 0 {
		return nil, nil // nothing but the reference
	}
	got, err := Run(folder, text.Bytes())
	if err != nil {
		return nil, fmt.Errorf("%w\n%s", err, text.String())
	}
	return differences(s, got), nil
}

func differences(s network.State, got map[int]float64) []string {
	var out []string
	for node, number := range network.SpiceNodes(s) {
		if number <= 0 {
			continue
		}
		volts := s.Solution.Volts[node]
		found, ok := got[number]
		if !ok {
			out = append(out, fmt.Sprintf("ngspice gives no voltage for node %d, %s", number, s.NodeNames[node]))
		} else if !(math.Abs(found-volts) <= relative*math.Abs(volts)+floor) {
			out = append(out, fmt.Sprintf("node %d, %s, is at %.12g V, by ngspice at %.12g V", number, s.NodeNames[node], volts, found))
		}
	}
	return out
}

// Need skips the test where ngspice is not installed; with CI set it fails it.
func Need(t testing.TB) {
	t.Helper()
	if _, err := exec.LookPath("ngspice"); err == nil {
		return
	} else if os.Getenv("CI") != "" {
		t.Fatal("ngspice must be installed here: ", err)
	}
	t.Skip("ngspice is not installed")
}

// Run solves a netlist with ngspice, in a folder for its files, and gives the
// voltages of the numbered nodes.
func Run(folder string, netlist []byte) (map[int]float64, error) {
	out, err := batch(folder, netlist)
	return Parse(out), err
}

// batch runs ngspice once.
func batch(folder string, netlist []byte) (string, error) {
	path := filepath.Join(folder, "network.cir")
	if err := os.WriteFile(path, netlist, 0o600); err != nil {
		return "", err
	}
	cmd := exec.Command("ngspice", "-b", path)
	cmd.Dir = folder
	var said bytes.Buffer
	cmd.Stderr = &said
	out, err := cmd.Output()
	if err != nil {
		return "", fmt.Errorf("ngspice: %w\n%s%s", err, &said, out)
	}
	return string(out), nil
}

// mark goes before each netlist's voltages in the output of RunAll.
const mark = "netlist number"

// RunAll solves many netlists in one run of ngspice, and gives the voltages of
// each. Their own control sections are left out.
func RunAll(folder string, netlists [][]byte) ([]map[int]float64, error) {
	var all bytes.Buffer
	all.WriteString("many networks\nR1 1 0 1\nV1 1 0 DC 1\n.control\nset numdgt=15\n")
	for i, text := range netlists {
		name := fmt.Sprintf("n%d.cir", i)
		alone, _, _ := bytes.Cut(text, []byte("\n.control"))
		if err := os.WriteFile(filepath.Join(folder, name), append(bytes.Clone(alone), "\n.end\n"...), 0o600); err != nil {
			return nil, err
		}
		fmt.Fprintf(&all, "source %s\nop\necho %s\nprint all\n", name, mark)
	}
	all.WriteString("quit\n.endc\n.end\n")
	out, err := batch(folder, all.Bytes())
	if err != nil {
		return nil, err
	}
	parts := strings.Split(out, mark)[1:]
	if len(parts) != len(netlists) {
		return nil, fmt.Errorf("ngspice solved %d of %d netlists", len(parts), len(netlists))
	}
	volts := make([]map[int]float64, len(parts))
	for i, part := range parts {
		volts[i] = Parse(part)
	}
	return volts, nil
}

// Parse reads the lines "v(12) = 1.26e+01" of ngspice's output.
func Parse(out string) map[int]float64 {
	volts := map[int]float64{}
	for _, line := range strings.Split(out, "\n") {
		name, value, ok := strings.Cut(line, " = ")
		name, isNode := strings.CutPrefix(strings.TrimSpace(name), "v(")
		number, err := strconv.Atoi(strings.TrimSuffix(name, ")"))
		if !ok || !isNode || err != nil {
			continue
		}
		if v, err := strconv.ParseFloat(strings.TrimSpace(value), 64); err == nil {
			volts[number] = v
		}
	}
	return volts
}
