package convention

import (
	"fmt"
	"strings"
)

// Table prints the conventions and the functions for samples/FORMAT.md.
func Table() string {
	var b strings.Builder
	b.WriteString("| word | whose custom | ground | feed |\n|---|---|---|---|\n")
	for _, s := range Sets() {
		fmt.Fprintf(&b, "| `%s` | %s: %s | %s | %s |\n", s.Word, s.Title, s.Remark, s.Ground, or(s.Feed, "as built in"))
	}
	b.WriteString("\n| function | what the wire does | known by | colours |\n|---|---|---|---|\n")
	for _, f := range Functions() {
		fmt.Fprintf(&b, "| `%s` | %s | %s | %s |\n", f.Word, f.Says, or(f.knownBy(), "–"), f.colours())
	}
	return b.String()
}

// knownBy lists the terminals and the names by which a function is found.
func (f Function) knownBy() string {
	var out []string
	for _, p := range f.Terminals {
		p, beside, also := strings.Cut(p, "&")
		p = strings.TrimPrefix(p, "*.")
		if also {
			p += " beside " + beside
		}
		out = append(out, p)
	}
	for _, n := range f.Names {
		out = append(out, `"`+n+`"`)
	}
	return strings.Join(out, ", ")
}

// colours lists what each set gives, those of a later edition only where they differ.
func (f Function) colours() string {
	var out []string
	given := map[string]string{}
	for _, s := range Sets() {
		r, ok := s.For(f.Word)
		if !ok {
			continue
		}
		pair := strings.TrimSuffix(r.Base+"/"+r.Tracer, "/")
		if given[s.base] == pair {
			continue
		}
		given[s.base] = pair
		out = append(out, s.Word+" "+strings.Replace(pair, "/*", " with any tracer", 1))
	}
	return or(strings.Join(out, ", "), "none: those that are published contradict each other")
}

func or(text, otherwise string) string {
	if text == "" {
		return otherwise
	}
	return text
}
