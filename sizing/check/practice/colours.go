package practice

import (
	"encoding/hex"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/check/say"
	"example.com/loomfolio/sizing/colour"
	"example.com/loomfolio/sizing/colour/convention"
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// Colour parses colour letters; ("", "") when none are written, or when they are
// wrong and were reported.
func Colour(r *say.Report, w read.Word) (base, tracer string) {
	if !w.Given() {
		return "", ""
	}
	pair, err := colour.Parse(w.Text)
	if err != nil {
		r.Fail("unknown-colour", w.Span, "write base and tracer in IEC 60757 letters, for example OG/BK", "%s", err.Error())
		return "", ""
	}
	return pair.Base, pair.Tracer
}

// palette reads the shades that replace the built-in ones.
func (c *reader) palette(pairs []describe.Pair) []harness.Shade {
	var out []harness.Shade
	for _, p := range pairs {
		letters, tracer := Colour(&c.Report, p.Key)
		b, err := hex.DecodeString(strings.TrimPrefix(p.Value.Text, "#"))
		switch {
		case tracer != "":
			c.Fail("unknown-colour", p.Key.Span, "name single colours: a tracer's shade is that of its own letters", "%q is two colours", p.Key.Text)
		case err != nil || len(b) != 3:
			c.Fail("bad-shade", p.Value.Span, "write red, green and blue as six hexadecimal digits in quotes, such as \"#a01020\"", "%q is no shade", p.Value.Text)
		case letters != "":
			out = append(out, harness.Shade{Letters: letters, RGB: [3]uint8{b[0], b[1], b[2]}})
		}
	}
	return out
}

// customary is the colour that the first convention with one gives to grounds or feeds,
// where the description gives none.
func customary(in []describe.Custom, usual string, of func(convention.Set) string) string {
	for _, c := range in {
		if set, ok := convention.Of(c.Word.Text); ok && of(set) != "" {
			return of(set)
		}
	}
	return usual
}

// customs reads conventions of the description's own.
func (c *reader) customs(pairs []describe.Pair) []harness.ColourRule {
	var out []harness.ColourRule
	for _, p := range pairs {
		if base, tracer := Colour(&c.Report, p.Value); base != "" {
			out = append(out, harness.ColourRule{Function: p.Key.Text, Base: base, Tracer: tracer})
		}
	}
	return out
}

// Function checks a circuit's function against the words that a convention knows.
func Function(r *say.Report, p *harness.Practice, w read.Word) string {
	if !w.Given() {
		return ""
	}
	known := convention.FunctionWords()
	for _, c := range p.Conventions {
		for _, own := range c.Own {
			known = append(known, own.Function)
		}
	}
	if !slices.Contains(known, w.Text) {
		advice := "the functions are: " + strings.Join(known, ", ")
		if near := source.Nearest(w.Text, known); near != "" {
			advice = "did you mean " + near + "?"
		} else if one := convention.Named(w.Text); one != "" {
			advice = "did you mean " + one + "?"
		}
		r.Fail("unknown-function", w.Span, advice, "no convention knows the function %q", w.Text)
	}
	return w.Text
}
