// Package accept takes advice off the list of findings where the description says that
// it has been looked at, and why. In: the model, which holds what the description
// accepts, the findings, and the catalogue of rules. Out: the findings that stay, with
// those on the list of accepted ones itself, and those that were accepted.
//
// It holds that no error and no warning is ever taken off. A finding is known by its rule
// and by a name that it concerns: one of its subjects, what stands at its place in
// the file, a part by any of its terminals, a circuit by all of the finding's wires. One
// that gathers several things of a kind stays until each of them is accepted, so that what
// joins them later is seen.
package accept

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
)

// Settle gives the findings that stay, sorted, and the accepted ones in the order in
// which they were found.
func Settle(h *harness.Harness, found source.Problems, rules []source.Rule) (open source.Problems, accepted []source.Accepted) {
	if len(h.Accept) == 0 {
		return found, nil
	}
	s := newSettler(h, found, rules)
	for _, a := range h.Accept {
		s.entry(a)
	}
	s.gathered()
	for i, p := range found {
		if because := s.because[i]; because != "" {
			accepted = append(accepted, source.Accepted{Problem: p, Because: because})
		} else {
			open = append(open, p)
		}
	}
	return append(open, s.own...).Sorted(), accepted
}

type settler struct {
	h       *harness.Harness
	found   source.Problems
	rules   map[string]source.Rule
	names   *names
	because map[int]string           // by index into found
	parts   map[int][]harness.Accept // of a finding that gathers: what is accepted of it
	own     source.Problems          // on the list itself
}

func newSettler(h *harness.Harness, found source.Problems, rules []source.Rule) *settler {
	s := &settler{h: h, found: found, rules: map[string]source.Rule{}, names: namesOf(h), because: map[int]string{}, parts: map[int][]harness.Accept{}}
	for _, r := range rules {
		s.rules[r.Slug] = r
	}
	return s
}

// entry finds what one line of the list speaks of.
func (s *settler) entry(a harness.Accept) {
	rule, known := s.rules[a.Finding]
	if !known {
		s.unknown(a)
		return
	}
	advice, graver := s.meant(a)
	switch {
	case len(advice) > 0:
		s.take(a, advice)
	case graver != nil:
		s.tooGrave(a, graver.Level, graver.Span)
	case rule.Least < source.Advice:
		s.tooGrave(a, rule.Level, source.Span{})
	default:
		s.unused(a)
	}
}

// meant gives the advice that an entry speaks of, and one that is more than advice.
func (s *settler) meant(a harness.Accept) (advice []int, graver *source.Problem) {
	for i := range s.found {
		p := &s.found[i]
		switch {
		case p.Slug != a.Finding || !s.names.concerns(p, a.At):
		case p.Level == source.Advice:
			advice = append(advice, i)
		case graver == nil:
			graver = p
		}
	}
	return advice, graver
}

// take notes the reason; of a finding that gathers several things it waits for the others.
func (s *settler) take(a harness.Accept, advice []int) {
	for _, i := range advice {
		if s.found[i].Gathers {
			s.parts[i] = append(s.parts[i], a)
		} else if s.because[i] == "" {
			s.because[i] = a.Because
		}
	}
}

// gathered accepts findings on several things of which each is accepted.
func (s *settler) gathered() {
	for i, list := range s.parts {
		p := &s.found[i]
		var left, reasons []string
		for _, subject := range p.Subjects {
			at := slices.IndexFunc(list, func(a harness.Accept) bool { return s.names.covers(a.At, subject) })
			if at < 0 {
				left = append(left, subject)
			} else if !slices.Contains(reasons, list[at].Because) {
				reasons = append(reasons, list[at].Because)
			}
		}
		if len(left) == 0 {
			s.because[i] = strings.Join(reasons, "; ")
			continue
		}
		s.waits(list[0], left)
	}
}

func (s *settler) unknown(a harness.Accept) {
	var slugs []string
	for slug := range s.rules {
		slugs = append(slugs, slug)
	}
	slices.Sort(slugs)
	detail := "write the word that stands in brackets behind the finding in what check prints"
	if near := source.Nearest(a.Finding, slugs); near != "" {
		detail = "did you mean " + near + "? Else " + detail
	}
	s.say(source.Error, "accept-unknown", a.Span, detail, "no finding is called %q", a.Finding)
}

func (s *settler) tooGrave(a harness.Accept, level source.Level, at source.Span) {
	article := map[source.Level]string{source.Error: "an error", source.Warning: "a warning"}[level]
	p := s.say(source.Error, "accept-too-grave", a.Span, "only advice can be accepted: put right what it says and take this line out", "%s%s is %s, which stays on the list", a.Finding, where(a), article)
	if at.Known() {
		p.Others = []source.Note{{Span: at, Text: "what it is said of"}}
	}
}

// unused says that nothing is there to be accepted, and of what the finding is said, if of anything.
func (s *settler) unused(a harness.Accept) {
	var said []string
	for i := range s.found {
		if p := &s.found[i]; p.Slug == a.Finding && p.Level == source.Advice {
			said = append(said, cmp.Or(s.names.first(p), "nothing by name"))
		}
	}
	detail := "take the line out: what it accepts is no longer there"
	if len(said) > 0 {
		detail = "it is said of " + strings.Join(slices.Compact(said), ", ") + ": say which under at:, or take the line out"
		if said[0] == "nothing by name" {
			detail = "it is said of nothing by name: leave at: out"
		}
	}
	s.say(source.Advice, "accept-unused", cmp.Or(a.AtSpan, a.Span), detail, "%s is not said%s", a.Finding, where(a))
}

func (s *settler) waits(a harness.Accept, left []string) {
	s.say(source.Advice, "accept-unused", cmp.Or(a.AtSpan, a.Span), "look at these too and accept them as well: "+strings.Join(left, ", "),
		"%s stays on the list: it is said of more than what is accepted", a.Finding)
}

func where(a harness.Accept) string {
	if a.At == "" {
		return ""
	}
	return " of " + a.At
}

func (s *settler) say(level source.Level, slug string, at source.Span, detail, format string, args ...any) *source.Problem {
	s.own = append(s.own, source.Problem{Slug: slug, Level: level, Span: at, Summary: fmt.Sprintf(format, args...), Detail: detail})
	return &s.own[len(s.own)-1]
}
