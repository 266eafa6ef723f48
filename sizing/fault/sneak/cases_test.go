package sneak_test

import (
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing"
	"example.com/loomfolio/sizing/check"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/fault/sneak"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/source"
)

// wrong is a description with what is said of it.
type wrong struct {
	name, slug, kind string
	says, path       []string
	right            [][2]string
	text             string
}

var rightLine = regexp.MustCompile(`^#! right ("(?:[^"\\]|\\.)*") -> ("(?:[^"\\]|\\.)*")$`)

func wrongs(t *testing.T, file string) []wrong {
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	var out []wrong
	for _, section := range strings.Split(string(data), "\n== ")[1:] {
		head, body, _ := strings.Cut(section, "\n")
		name, of, _ := strings.Cut(head, " | ")
		w := wrong{name: name}
		w.slug, w.kind, _ = strings.Cut(of, ", ")
		for _, line := range strings.Split(body, "\n") {
			switch m := rightLine.FindStringSubmatch(line); {
			case m != nil:
				w.right = append(w.right, [2]string{unquoted(t, m[1]), unquoted(t, m[2])})
			case strings.HasPrefix(line, "#! says "):
				w.says = append(w.says, strings.Split(line[len("#! says "):], " … ")...)
			case strings.HasPrefix(line, "#! path "):
				w.path = strings.Split(line[len("#! path "):], " – ")
			default:
				require.False(t, strings.HasPrefix(line, "#!"), line)
				w.text += line + "\n"
			}
		}
		out = append(out, w)
	}
	return out
}

func unquoted(t *testing.T, s string) string {
	out, err := strconv.Unquote(s)
	require.NoError(t, err)
	return out
}

// whole adds what all descriptions have in common.
func whole(text string) string {
	text = strings.Replace(text, "parts:\n", "system: {volts: 12}\nparts:\n  BAT: {kind: battery, capacity: 60 Ah}\n  G0: {kind: ground}\n", 1)
	return "loomfolio: 1\ntitle: Sneak\n" + strings.Replace(text, "circuits:\n", "circuits:\n  earth: {number: 1, legs: [[G0, {to: BAT.-, length: 300 mm}]]}\n", 1)
}

func sized(t *testing.T, text string) (*harness.Harness, *result.Result) {
	t.Helper()
	d, problems := describe.Parse("test.yaml", []byte(whole(text)))
	require.False(t, problems.HasErrors(), "%v", problems)
	h, found := check.Check(d)
	require.NotNil(t, h, "%v", found)
	r, err := sizing.Size(worked.Buying(h, "clear"), found)
	require.NoError(t, err)
	return h, r
}

// slugs are the findings that tell sneak paths, here and elsewhere.
func slugs(t *testing.T) []string {
	rules, err := sneak.Rules()
	require.NoError(t, err)
	out := []string{"isolator-does-not-kill", "isolator-bypassed", "relay-never-releases", "short-circuit", "gauge-on-shared-ground", "relay-sides-swapped", "changeover-common", "loads-in-series",
		"common-without-wire", "park-contact-swapped", "motor-turns-one-way", "coil-between-feeds", "stop-releases-nothing"}
	for _, r := range rules {
		out = append(out, r.Slug)
	}
	return out
}

func said(r *result.Result, slug string) *source.Problem {
	i := slices.IndexFunc(r.Findings, func(p source.Problem) bool { return p.Slug == slug })
	if i < 0 {
		return nil
	}
	return &r.Findings[i]
}

// The ten sneak paths that a job names, the main relay that holds itself, the fan in the
// wind and the kicking coil, and what was meant to fool the search: each is found with path
// and cure, and wired rightly none is said.
func TestSneaksAreFound(t *testing.T) {
	for _, w := range wrongs(t, "testdata/wrong.txt") {
		t.Run(w.name, func(t *testing.T) {
			h, r := sized(t, w.text)
			s := theSneak(t, &w, r)
			texts := s.Says + " | " + s.Cure
			if w.slug != "-" {
				p := said(r, w.slug)
				require.NotNil(t, p, "%v", r.Findings)
				texts += " | " + p.Summary + " | " + p.Detail
			}
			for _, words := range w.says {
				require.Contains(t, texts, words)
			}
			require.True(t, passes(h, s, w.path), "%v is not on %v", w.path, stops(h, s))
			require.NotEmpty(t, w.right)
			text := w.text
			for _, edit := range w.right {
				require.Contains(t, text, edit[0])
				text = strings.ReplaceAll(text, edit[0], edit[1])
			}
			_, r = sized(t, text)
			for _, p := range r.Findings {
				require.NotContains(t, slugs(t), p.Slug, p.Summary)
				require.NotEqual(t, source.Error, p.Level, p.Summary)
			}
		})
	}
}

// theSneak gives the sneak path of the kind and finding that is expected.
func theSneak(t *testing.T, w *wrong, r *result.Result) *proof.Sneak {
	i := slices.IndexFunc(r.Proof.Sneaks, func(s proof.Sneak) bool {
		return s.Kind == w.kind && (s.Slug == w.slug || w.slug == "-" && s.Slug == "")
	})
	require.GreaterOrEqual(t, i, 0, "%+v\n%v", r.Proof.Sneaks, r.Findings)
	return &r.Proof.Sneaks[i]
}

func stops(h *harness.Harness, s *proof.Sneak) []string {
	var out []string
	for _, x := range s.Path {
		out = append(out, h.Terminals[x.At].Full)
	}
	return out
}

// passes tells that a path passes some terminals in their order.
func passes(h *harness.Harness, s *proof.Sneak, path []string) bool {
	all := stops(h, s)
	for _, name := range path {
		i := slices.Index(all, name)
		if i < 0 {
			return false
		}
		all = all[i+1:]
	}
	return true
}

// What looks like a sneak path to a search and is none, or is as everybody has it.
func TestSoundWaysAreLeftAlone(t *testing.T) {
	sound := wrongs(t, "testdata/sound.txt")
	require.Greater(t, len(sound), 10)
	for _, w := range sound {
		t.Run(w.name, func(t *testing.T) {
			_, r := sized(t, w.text)
			for _, p := range r.Findings {
				require.NotContains(t, slugs(t), p.Slug, p.Summary)
				require.NotEqual(t, source.Error, p.Level, p.Summary)
			}
			require.Empty(t, r.Proof.Looked.Left)
			require.Positive(t, r.Proof.Looked.Solved)
		})
	}
}
