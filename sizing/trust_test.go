package sizing_test

import (
	"io"
	"os"
	"path/filepath"
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
	"example.com/loomfolio/sizing/figures"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/source"
)

// The files of testdata/trust are descriptions on which a careful electrician has
// something to say, or nothing though it looks odd. Lines that begin with #! say what:
//
//	#! says LEVEL SLUG at "TEXT": WORDS … WORDS   a finding that begins where TEXT does
//	#! never SLUG                                 an advice that must not come
//	#! WHAT NAME at least (at most) NUMBER        a figure; see measured and boundsOf
//	#! refused                                    nothing may be computed
//	#! sound "OLD" -> "NEW"                       the same, wired rightly
//	#! sound: WHAT NAME at most NUMBER            a figure of that
//	#! state NAME: LOAD 13.6 V, RELAY holds …      what is seen in a state; see showing
//
// Errors and warnings are those said and no others; what is wired rightly has none. That
// holds of the least sizes as of what is bought above them.

// expectation is what one file says of itself.
type expectation struct {
	says         []saying
	never        []string
	bounds       []bound
	shown        []showing
	refused      bool
	sound        []string // old, new, old, new
	soundBounds  []bound
	unrecognised []string
}

type saying struct {
	level, slug, at string
	words           []string
}

type bound struct {
	what, name string
	least      bool
	limit      float64
}

var (
	saysLine  = regexp.MustCompile(`^says (error|warning|advice) ([a-z0-9-]+) at ("(?:[^"\\]|\\.)*"): (.+)$`)
	neverLine = regexp.MustCompile(`^never ([a-z0-9-]+)$`)
	soundLine = regexp.MustCompile(`^sound ("(?:[^"\\]|\\.)*") -> ("(?:[^"\\]|\\.)*")$`)
	boundLine = regexp.MustCompile(`^(sound: )?([a-z ]+) ([A-Za-z0-9.+-]+) at (least|most) ([0-9.]+)$`)
)

func expected(t *testing.T, text string) expectation {
	var x expectation
	for _, line := range strings.Split(text, "\n") {
		line, ok := strings.CutPrefix(line, "#! ")
		switch m := []string(nil); {
		case !ok:
		case line == "refused":
			x.refused = true
		case match(saysLine, line, &m):
			x.says = append(x.says, saying{m[1], m[2], unquoted(t, m[3]), strings.Split(m[4], " … ")})
		case match(neverLine, line, &m):
			x.never = append(x.never, m[1])
		case match(soundLine, line, &m):
			x.sound = append(x.sound, unquoted(t, m[1]), unquoted(t, m[2]))
		case match(stateLine, line, &m):
			x.shown = append(x.shown, readShowing(m))
		case match(boundLine, line, &m):
			limit, err := strconv.ParseFloat(m[5], 64)
			require.NoError(t, err)
			into := &x.bounds
			if m[1] != "" {
				into = &x.soundBounds
			}
			*into = append(*into, bound{m[2], m[3], m[4] == "least", limit})
		default:
			x.unrecognised = append(x.unrecognised, line)
		}
	}
	return x
}

func match(r *regexp.Regexp, line string, m *[]string) bool {
	*m = r.FindStringSubmatch(line)
	return *m != nil
}

func unquoted(t *testing.T, s string) string {
	out, err := strconv.Unquote(s)
	require.NoError(t, err, s)
	return out
}

// workedOut gives all that is said of a description when it is bought so, and its result where there is one.
func workedOut(t *testing.T, text, as string) (*harness.Harness, *result.Result, source.Problems) {
	d, problems := describe.Parse("trust.yaml", []byte(text))
	if problems.HasErrors() {
		return nil, nil, problems
	}
	h, found := check.Check(d)
	if h == nil {
		return nil, nil, append(problems, found...)
	}
	r, err := sizing.Size(worked.Buying(h, as), append(problems, found...))
	require.NoError(t, err)
	if r.Unusable {
		return nil, nil, r.Findings
	}
	require.NoError(t, figures.JSON(io.Discard, h, r), "every figure is a number")
	return h, r, r.Findings
}

// TestTrust: every file says what it must, where it must, and no more; wired rightly it says nothing.
func TestTrust(t *testing.T) {
	files, err := filepath.Glob("testdata/trust/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".yaml"), func(t *testing.T) {
			t.Parallel()
			raw, err := os.ReadFile(file)
			require.NoError(t, err)
			text := string(raw)
			x := expected(t, text)
			require.Empty(t, x.unrecognised)
			for _, as := range worked.Bought() {
				judge(t, text, as, x)
				if len(x.sound) > 0 {
					judgeSound(t, text, as, x)
				}
			}
		})
	}
}

func judge(t *testing.T, text, as string, x expectation) {
	h, r, found := workedOut(t, text, as)
	require.Equal(t, x.refused, r == nil, "%v", listed(found))
	for _, s := range x.says {
		at := slices.IndexFunc(found, func(p source.Problem) bool {
			return p.Slug == s.slug && p.Level.String() == s.level && p.Span.Start == placeOf(t, text, s.at)
		})
		require.GreaterOrEqual(t, at, 0, "no %s %s at %q among\n%s", s.level, s.slug, s.at, listed(found))
		for _, words := range s.words {
			require.Contains(t, found[at].Summary+"; "+found[at].Detail, words)
		}
	}
	graver := func(s saying) bool { return s.level != "advice" }
	require.Len(t, grave(found), len(slices.Collect(filtered(x.says, graver))), "and no more: \n%s", listed(found))
	silent(t, found, x.never)
	held(t, h, r, boundsOf(x.bounds, as))
	if as == "clear" { // volts and amperes follow the sizes
		seen(t, h, r, x.shown)
	}
}

func filtered[T any](list []T, keep func(T) bool) func(func(T) bool) {
	return func(yield func(T) bool) {
		for _, x := range list {
			if keep(x) && !yield(x) {
				return
			}
		}
	}
}

func judgeSound(t *testing.T, text, as string, x expectation) {
	body := regexp.MustCompile(`(?m)^#!.*\n`).ReplaceAllString(text, "")
	for i := 0; i < len(x.sound); i += 2 {
		require.Equal(t, 1, strings.Count(body, x.sound[i]), "%q stands once", x.sound[i])
		body = strings.Replace(body, x.sound[i], x.sound[i+1], 1)
	}
	h, r, found := workedOut(t, body, as)
	require.NotNil(t, r, "%s", listed(found))
	require.Empty(t, grave(found), "wired rightly:\n%s", listed(found))
	var never []string
	for _, s := range x.says {
		never = append(never, s.slug)
	}
	silent(t, found, append(never, x.never...))
	held(t, h, r, boundsOf(x.soundBounds, as))
}

func silent(t *testing.T, found source.Problems, never []string) {
	for _, slug := range never {
		require.False(t, slices.ContainsFunc(found, func(p source.Problem) bool { return p.Slug == slug }), "never %s:\n%s", slug, listed(found))
	}
}

// grave are the errors and warnings.
func grave(found source.Problems) []source.Problem {
	return slices.Collect(filtered(found, func(p source.Problem) bool { return p.Level != source.Advice }))
}

func listed(found source.Problems) string {
	var out []string
	for _, p := range found {
		out = append(out, p.Level.String()+" ["+p.Slug+"] "+strconv.Itoa(p.Span.Start.Line)+":"+strconv.Itoa(p.Span.Start.Column)+" "+p.Summary)
	}
	return strings.Join(out, "\n")
}

// placeOf finds the one place of a text outside the lines that begin with #!.
func placeOf(t *testing.T, text, at string) source.Pos {
	var places []source.Pos
	for i, line := range strings.Split(text, "\n") {
		if before, _, ok := strings.Cut(line, at); ok && !strings.HasPrefix(line, "#!") {
			require.Equal(t, 1, strings.Count(line, at), "%q stands once", at)
			places = append(places, source.Pos{Line: i + 1, Column: len([]rune(before)) + 1})
		}
	}
	require.Len(t, places, 1, "%q stands once", at)
	return places[0]
}

// boundsOf leaves out how thick a wire, how large a fuse or a stud, is at most where more may be bought.
func boundsOf(bounds []bound, as string) []bound {
	return slices.Collect(filtered(bounds, func(b bound) bool {
		return as == "clear" || b.least || b.what != "area" && b.what != "good for" && b.what != "fuse" && b.what != "stud"
	}))
}

// held compares figures with their bounds.
func held(t *testing.T, h *harness.Harness, r *result.Result, bounds []bound) {
	for _, b := range bounds {
		got := measured(t, h, r, b.what, b.name)
		if b.least {
			require.GreaterOrEqual(t, got, b.limit, "%s %s", b.what, b.name)
		} else {
			require.LessOrEqual(t, got, b.limit, "%s %s", b.what, b.name)
		}
	}
}

// measured gives a figure: the area of a wire in mm², what it is good for and what it carries
// in A, a fuse's rating and the most that its wires allow in A, a load's current in A and its
// least volts, the metric size of a ground's stud.
func measured(t *testing.T, h *harness.Harness, r *result.Result, what, name string) float64 {
	switch what {
	case "area":
		return float64(r.Wires[wire(t, h, name)].Area)
	case "good for":
		return float64(r.Wires[wire(t, h, name)].Ampacity)
	case "carries":
		return float64(r.Wires[wire(t, h, name)].Amps)
	case "fuse":
		return float64(fuseCalled(t, r, name).Rating)
	case "fuse allowed":
		return float64(fuseCalled(t, r, name).MostAllowed)
	case "load":
		return float64(load(t, r, name).Amps)
	case "volts":
		return float64(load(t, r, name).Volts)
	case "stud":
		for _, g := range r.Grounds {
			if h.Parts[g.Part].Ref == name {
				m, err := strconv.ParseFloat(strings.TrimPrefix(g.Stud, "M"), 64)
				require.NoError(t, err)
				return m
			}
		}
	}
	t.Fatalf("no %s of %s", what, name)
	return 0
}
