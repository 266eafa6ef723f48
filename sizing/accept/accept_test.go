package accept

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// car has two circuits; the file's second line is where its lamp stands.
func car() *harness.Harness {
	return &harness.Harness{
		File:   source.NewFile("car.yaml", []byte("parts:\n  LAMP: {}\n")),
		Places: []harness.Place{{Key: "dash", Name: "Dash", Span: source.At(8, 1, 4)}},
		Parts:  []harness.Part{{Ref: "LAMP", Span: source.At(2, 3, 4)}},
		Wires:  []harness.Wire{{Name: "1A", Span: source.At(5, 1, 2)}, {Name: "1B", Span: source.At(6, 1, 2), GaugeSpan: source.At(6, 9, 2)}, {Name: "2A"}},
		Circuits: []harness.Circuit{
			{Key: "horn", Number: "1", Name: "Horn", Wires: []harness.WireID{0, 1}},
			{Key: "tail", Number: "2", Name: "Tail lamps", Wires: []harness.WireID{2}},
		},
	}
}

var rules = []source.Rule{
	{Slug: "odd", Level: source.Advice, Least: source.Advice}, {Slug: "alike", Level: source.Warning, Least: source.Advice}, {Slug: "bare", Level: source.Error, Least: source.Error},
}

func advice(slug string, subjects ...string) source.Problem {
	return source.Problem{Slug: slug, Level: source.Advice, Summary: slug + strings.Join(subjects, " "), Subjects: subjects}
}

func at(line, column int, p source.Problem) source.Problem {
	p.Span = source.At(line, column, 4)
	return p
}

func graver(level source.Level, p source.Problem) source.Problem {
	p.Level = level
	return p
}

func all(p source.Problem) source.Problem {
	p.Gathers = true
	return p
}

func TestSettle(t *testing.T) {
	for name, c := range map[string]struct {
		found   source.Problems
		accept  string // finding@name, with commas between
		open    string
		because string
	}{
		"nothing accepted":              {source.Problems{advice("odd", "1A")}, "", "advice odd", ""},
		"by a subject":                  {source.Problems{advice("odd", "1A"), advice("odd", "2A")}, "odd@1A", "advice odd", "r0"},
		"by a terminal's part":          {source.Problems{advice("odd", "LAMP.+")}, "odd@LAMP", "", "r0"},
		"not by the head of a name":     {source.Problems{advice("odd", "1AB")}, "odd@1A", "advice accept-unused, advice odd", ""},
		"by what stands at its place":   {source.Problems{at(2, 3, advice("odd"))}, "odd@LAMP", "", "r0"},
		"by the wire of a given gauge":  {source.Problems{{Slug: "odd", Level: source.Advice, Span: source.At(6, 9, 2)}}, "odd@1B", "", "r0"},
		"by a place, key or name":       {source.Problems{at(8, 1, advice("odd")), at(8, 1, advice("odd", "x"))}, "odd@Dash", "", "r0|r0"},
		"by its circuit":                {source.Problems{advice("odd", "1A", "1B"), advice("odd", "1A", "2A")}, "odd@horn", "advice odd", "r0"},
		"by its circuit's number":       {source.Problems{advice("odd", "2A")}, "odd@2", "", "r0"},
		"by nothing":                    {source.Problems{advice("odd")}, "odd@", "", "r0"},
		"by nothing, though it has one": {source.Problems{advice("odd", "1A")}, "odd@", "advice accept-unused, advice odd", ""},
		"the first reason stands":       {source.Problems{advice("odd", "1A", "2A")}, "odd@1A,odd@2A", "", "r0"},
		"no longer there":               {nil, "odd@1A", "advice accept-unused", ""},
		"no such finding":               {source.Problems{advice("odd", "1A")}, "od@1A", "error accept-unknown, advice odd", ""},
		"an error":                      {source.Problems{graver(source.Error, advice("bare", "1A"))}, "bare@1A", "error accept-too-grave, error bare", ""},
		"an error that is not there":    {nil, "bare@1A", "error accept-too-grave", ""},
		"a warning":                     {source.Problems{graver(source.Warning, advice("alike", "1A"))}, "alike@1A", "error accept-too-grave, warning alike", ""},
		"both, of one name":             {source.Problems{graver(source.Warning, advice("alike", "1A", "2A")), advice("alike", "1A", "1B")}, "alike@1A", "warning alike", "r0"},
		"a mild one that is not there":  {nil, "alike@1A", "advice accept-unused", ""},
		"several, each accepted":        {source.Problems{all(advice("odd", "1A", "2A"))}, "odd@1A,odd@2A", "", "r0; r1"},
		"several, by their circuit":     {source.Problems{all(advice("odd", "1A", "1B"))}, "odd@horn", "", "r0"},
		"several, one new":              {source.Problems{all(advice("odd", "1A", "2A"))}, "odd@1A", "advice accept-unused, advice odd", ""},
	} {
		t.Run(name, func(t *testing.T) {
			h := car()
			for i, one := range strings.FieldsFunc(c.accept, func(r rune) bool { return r == ',' }) {
				slug, on, _ := strings.Cut(one, "@")
				h.Accept = append(h.Accept, harness.Accept{Finding: slug, At: on, Because: "r" + string(rune('0'+i))})
			}
			open, accepted := Settle(h, c.found, rules)
			var left, because []string
			for _, p := range open.Sorted() {
				left = append(left, p.Level.String()+" "+p.Slug)
			}
			for _, a := range accepted {
				because = append(because, a.Because)
				require.Equal(t, source.Advice, a.Level)
			}
			require.Equal(t, c.open, strings.Join(left, ", "))
			require.Equal(t, c.because, strings.Join(because, "|"))
		})
	}
}

// TestNothingGraveIsEverTakenOff: whatever is accepted, by whatever name.
func TestNothingGraveIsEverTakenOff(t *testing.T) {
	var found source.Problems
	for _, slug := range []string{"odd", "alike", "bare"} {
		for _, level := range []source.Level{source.Error, source.Warning, source.Advice} {
			for _, p := range []source.Problem{advice(slug, "1A"), all(advice(slug, "1A", "2A")), advice(slug)} {
				p.Summary += " as " + level.String()
				found = append(found, graver(level, p))
			}
		}
	}
	h := car()
	for _, slug := range []string{"odd", "alike", "bare"} {
		for _, name := range []string{"", "1A", "2A", "horn", "tail", "LAMP"} {
			h.Accept = append(h.Accept, harness.Accept{Finding: slug, At: name, Because: "r"})
		}
	}
	open, accepted := Settle(h, found, rules)
	require.NotEmpty(t, accepted)
	for _, level := range []source.Level{source.Error, source.Warning} {
		require.GreaterOrEqual(t, open.Count(level), found.Count(level))
	}
}

func TestMisspeltFindingsGetAGuess(t *testing.T) {
	h := car()
	h.Accept = []harness.Accept{{Finding: "alke", At: "1A", Because: "r"}}
	open, _ := Settle(h, nil, rules)
	require.Contains(t, open[0].Detail, "did you mean alike?")
}
