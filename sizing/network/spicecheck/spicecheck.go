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

// Differences lists the nodes for which ngspice finds another voltage than the
// state has. The folder is for its files.
func Differences(folder string, h *harness.Harness, s network.State) ([]string, error) {
	var text bytes.Buffer
	if err := network.Netlist(&text, h, s); err != nil {
		return nil, err
	}
	numbers := network.SpiceNodes(s)
	if slices.Max(numbers) <= 0 {
		return nil, nil // nothing but the reference
	}
	got, err := Run(folder, text.Bytes())
	if err != nil {
		return nil, fmt.Errorf("%w\n%s", err, text.String())
	}
	var out []string
	for node, number := range numbers {
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
	return out, nil
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
	path := filepath.Join(folder, "network.cir")
	if err := os.WriteFile(path, netlist, 0o600); err != nil {
		return nil, err
	}
	cmd := exec.Command("ngspice", "-b", path)
	cmd.Dir = folder
	out, err := cmd.CombinedOutput()
	if err != nil {
		return nil, fmt.Errorf("ngspice: %w\n%s", err, out)
	}
	return Parse(string(out)), nil
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
