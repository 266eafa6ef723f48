package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/cmd/loomfolio/explain"
	"example.com/loomfolio/layout"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/samples"
	"example.com/loomfolio/sizing/figures"
)

var (
	update = flag.Bool("update", false, "write the golden files anew")
	dump   = flag.String("dump", "", "write what the goldens digest into this folder, whole, to compare two versions line by line")
)

// piece is a part of what the program gives that has a name: a list of figures, a sheet.
type piece struct{ name, text string }

// TestOutputStandsStill holds every figure, every reason and every mark on every sheet of the samples, for all
// readers, to testdata/golden: a line a list of figures and a line a sheet, with the digest of its
// text. A failure names the lists and sheets that differ. -dump writes the texts themselves.
func TestOutputStandsStill(t *testing.T) {
	for _, s := range samples.List() {
		t.Run(s.Name, func(t *testing.T) {
			if testing.Short() && (s.Name == "kestrel" || s.Name == "camper") {
				t.Skip("the large samples take their time")
			}
			pieces := append(append(figurePieces(t, s.Name), saidPieces(t, s.Name)...), sheetPieces(t, s.Name)...)
			if *dump != "" {
				require.NoError(t, os.WriteFile(filepath.Join(*dump, s.Name+".txt"), []byte(joined(pieces)), 0o644))
			}
			file := filepath.Join("testdata", "golden", s.Name+".txt")
			if *update {
				require.NoError(t, os.WriteFile(file, []byte(digests(pieces)), 0o644))
			}
			want, err := os.ReadFile(file)
			require.NoError(t, err)
			for _, line := range differing(string(want), digests(pieces)) {
				t.Error(line)
			}
		})
	}
}

// figurePieces gives the figures, a piece a key of the document. They are digested to the last
// bit: other processors than this one's kind join a product and a sum in one rounding, so that
// only the names of the lists can be held there.
func figurePieces(t *testing.T, name string) []piece {
	h, r := kept(t, name)
	var text bytes.Buffer
	require.NoError(t, figures.JSON(&text, h, r))
	in := json.NewDecoder(&text)
	_, err := in.Token() // {
	require.NoError(t, err)
	var out []piece
	for in.More() {
		key, err := in.Token()
		require.NoError(t, err)
		var value json.RawMessage
		require.NoError(t, in.Decode(&value))
		if runtime.GOARCH != "amd64" {
			value = nil
		}
		out = append(out, piece{fmt.Sprintf("figures %s", key), string(value)})
	}
	return out
}

// sheetPieces gives every reader's sheets and the loom board, a piece a sheet.
func sheetPieces(t *testing.T, name string) []piece {
	h, r := kept(t, name)
	var out []piece
	for _, reader := range layout.Readers() {
		out = append(out, packetPieces(reader, planned(t, name, reader, ""))...)
	}
	board, err := layout.Board(h, r, layout.Options{For: layout.Archive, FileName: name + ".yaml"})
	require.NoError(t, err)
	return append(out, packetPieces("board", board)...)
}

// saidPieces gives what explain says of every part, and of one wire in step: each wire's
// comparison with other practices chooses all gauges anew.
func saidPieces(t *testing.T, name string) []piece {
	h, r := kept(t, name)
	var wires, parts bytes.Buffer
	const step = 20
	for i := 0; i < len(h.Wires); i += step {
		require.NoError(t, explain.Explain(&wires, h, r, h.Wires[i].Name))
	}
	for i := range h.Parts {
		require.NoError(t, explain.Explain(&parts, h, r, h.Parts[i].Ref))
	}
	return []piece{{"explain wires", wires.String()}, {"explain parts", parts.String()}}
}

func packetPieces(of string, p *sheet.Packet) []piece {
	whole := sheet.Dump(*p)
	var out []piece
	for i, text := range strings.Split("\n"+whole, "\nsheet ") {
		name := of + " head"
		if i > 0 {
			name = fmt.Sprintf("%s sheet %d %q", of, i, p.Sheets[i-1].Title)
		}
		out = append(out, piece{name, text})
	}
	return out
}

func digests(pieces []piece) string {
	var b strings.Builder
	for _, p := range pieces {
		digest := sha256.Sum256([]byte(p.text))
		if p.text == "" {
			digest = [sha256.Size]byte{}
		}
		fmt.Fprintf(&b, "%x %s\n", digest[:8], p.name)
	}
	return b.String()
}

func joined(pieces []piece) string {
	var b strings.Builder
	for _, p := range pieces {
		fmt.Fprintf(&b, "== %s\n%s\n", p.name, p.text)
	}
	return b.String()
}

// mostNamed keeps a failure readable: one sheet more numbers all that follow anew.
const mostNamed = 30

// differing says of each piece that is new, gone or another which it is, and how it is renewed.
// A digest of nothing but zeros agrees with every other.
func differing(want, have string) []string {
	wanted, found := byName(want), byName(have)
	var out []string
	for _, line := range strings.Split(strings.TrimSpace(have), "\n") {
		digest, name, _ := strings.Cut(line, " ")
		before, known := wanted[name]
		switch {
		case !known:
			out = append(out, "new: "+name)
		case before != digest && strings.Trim(digest, "0") != "":
			out = append(out, "differs: "+name)
		}
	}
	for _, line := range strings.Split(strings.TrimSpace(want), "\n") {
		if _, name, _ := strings.Cut(line, " "); found[name] == "" {
			out = append(out, "gone: "+name)
		}
	}
	if more := len(out) - mostNamed; more > 0 {
		out = append(out[:mostNamed:mostNamed], fmt.Sprintf("and %d more", more))
	}
	if len(out) > 0 {
		out = append(out, "-dump DIR writes the texts, before and after, to compare; where the change is meant, -update renews the digests")
	}
	return out
}

func byName(digests string) map[string]string {
	out := map[string]string{}
	for _, line := range strings.Split(strings.TrimSpace(digests), "\n") {
		digest, name, _ := strings.Cut(line, " ")
		out[name] = digest
	}
	return out
}

func TestGoldenNamesWhatDiffers(t *testing.T) {
	before := []piece{{"figures wires", "[1]"}, {"archive sheet 1 \"Cover\"", "a"}, {"archive sheet 2 \"Splices\"", "b"}}
	after := []piece{{"figures wires", "[1]"}, {"archive sheet 1 \"Cover\"", "c"}, {"archive sheet 2 \"Labels\"", "b"}}
	require.Empty(t, differing(digests(before), digests(before)))
	got := differing(digests(before), digests(after))
	require.Equal(t, []string{`differs: archive sheet 1 "Cover"`, `new: archive sheet 2 "Labels"`, `gone: archive sheet 2 "Splices"`}, got[:3])
}
