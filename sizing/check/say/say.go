// Package say gathers the problems that the check and what lies under it find,
// and words alike what they have in common.
package say

import (
	"fmt"

	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/source"
)

// Report is what was found so far; ready to use as it is.
type Report struct{ Problems source.Problems }

// Say adds a problem. It stands in the report, so that notes can be set on it
// until the next one is added.
func (r *Report) Say(level source.Level, slug string, at source.Span, detail, format string, args ...any) *source.Problem {
	r.Problems = append(r.Problems, source.Problem{
		Slug: slug, Level: level, Span: at, Summary: fmt.Sprintf(format, args...), Detail: detail,
	})
	return &r.Problems[len(r.Problems)-1]
}

// Fail adds a problem of level error.
func (r *Report) Fail(slug string, at source.Span, detail, format string, args ...any) *source.Problem {
	return r.Say(source.Error, slug, at, detail, format, args...)
}

// Take adds what another report holds.
func (r *Report) Take(found source.Problems) { r.Problems = append(r.Problems, found...) }

// Unknown reports a name that nothing has, with the nearest that something has.
func (r *Report) Unknown(slug, what string, w read.Word, names []string) {
	detail := fmt.Sprintf("known here: %s", Listed(names))
	if twin, why := source.Twin(w.Text, names); twin != "" {
		detail = fmt.Sprintf("did you mean %s? They look alike: %s (%s)", twin, why, detail)
	} else if near := source.Nearest(w.Text, names); near != "" {
		detail = fmt.Sprintf("did you mean %s? (%s)", near, detail)
	}
	if len(names) == 0 {
		detail = fmt.Sprintf("the description names no %s at all", what)
	}
	r.Fail(slug, w.Span, detail, "no %s is called %q", what, w.Text)
}

// Listed joins names for a message, cut after a dozen.
func Listed(names []string) string {
	const most = 12
	out := ""
	for i, n := range names {
		if i == most {
			return out + fmt.Sprintf(" and %d more", len(names)-most)
		}
		if i > 0 {
			out += ", "
		}
		out += n
	}
	return out
}
