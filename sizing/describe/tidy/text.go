package tidy

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/loomfolio/sizing/describe/read"
)

// text gives a value or key of one line as it is written; ok is false where it takes
// more lines. flow tells whether it is to stand within brackets.
func text(w *read.Written, flow bool) (out string, ok bool) {
	out = w.Text
	if w.Shape == read.Single {
		out, ok = one(w, flow)
		if !ok {
			return "", false
		}
	}
	if w.Marks != "" {
		out = strings.TrimRight(w.Marks+" "+out, " ")
	}
	return out, true
}

// one gives a single value in one line.
func one(w *read.Written, flow bool) (string, bool) {
	switch {
	case w.Text == "" && flow:
		return "~", true // nothing may stand between commas
	case w.Text == "":
		return "", true
	case w.Text[0] == '|' || w.Text[0] == '>':
		return "", false
	case w.Text[0] == '"':
		return w.Text, !strings.Contains(w.Text, "\n")
	case w.Text[0] == '\'':
		if !strings.ContainsAny(w.Value, "\"\\\n") && plainly(w.Value) {
			return `"` + w.Value + `"`, !strings.Contains(w.Text, "\n")
		}
		return w.Text, !strings.Contains(w.Text, "\n")
	}
	if strings.Contains(w.Text, "\n") {
		return w.Value, !strings.Contains(w.Value, "\n") && len(w.Value) < joined && safe(w.Value, w.Flow, flow)
	}
	if !safe(w.Text, w.Flow, flow) {
		return quote(w.Value), true
	}
	return w.Text, true
}

// joined is how long a text over several lines may be to be written in one.
const joined = 80

// plainly tells of a text that it holds no character that quotes would change.
func plainly(s string) bool {
	return utf8.ValidString(s) && !strings.ContainsFunc(s, func(c rune) bool { return !unicode.IsPrint(c) })
}

// safe tells whether a plain text stays what it is when it goes into brackets or out.
func safe(s string, from, to bool) bool {
	switch {
	case from == to:
		return true
	case to:
		return !strings.ContainsAny(s, ",[]{}?") && !strings.HasSuffix(s, ":") && !strings.HasPrefix(s, "-") && !strings.HasPrefix(s, ":")
	}
	return s != "-" && s != "?" && s != ":" && !strings.HasPrefix(s, "- ") && !strings.HasPrefix(s, "? ")
}

// quote puts a text of one line in quotes.
func quote(s string) string {
	if strings.ContainsAny(s, `"\`) || !plainly(s) {
		return "'" + strings.ReplaceAll(s, "'", "''") + "'"
	}
	return `"` + s + `"`
}

// keyText gives a key with its colon.
func keyText(w *read.Written, flow bool) string {
	if w.Shape == read.Pointer {
		return w.Text + " :"
	}
	out, ok := text(w, flow)
	if !ok {
		out = quote(strings.TrimRight(strings.ReplaceAll(w.Value, "\n", " "), " "))
	}
	return out + ":"
}

// flat gives a value in one line, in brackets where it is a mapping or list; ok is
// false where comments stand in it, or lines.
func flat(e *entry, flow bool) (out string, ok bool) {
	if e.in == nil && e.value.Shape != read.Pairs && e.value.Shape != read.Series {
		return text(e.value, flow)
	}
	marks, open, shut := "", "{", "}"
	if e.value.Marks != "" {
		marks = e.value.Marks + " "
	}
	if e.value.Shape == read.Series {
		open, shut = "[", "]"
	}
	if e.in == nil {
		return marks + open + shut, true
	}
	if len(e.in.tail) > 0 {
		return "", false
	}
	var parts []string
	for _, x := range e.in.entries {
		part, ok := flat(x, true)
		if !ok || len(x.before)+len(x.side)+len(x.after) > 0 {
			return "", false
		}
		if x.key != nil {
			part = pairText(x, part)
		}
		parts = append(parts, part)
	}
	return marks + open + strings.Join(parts, ", ") + shut, true
}

// pairText gives a key and its value within brackets.
func pairText(x *entry, value string) string {
	return strings.TrimRight(keyText(x.key, true)+" "+value, " ")
}

// comments empties an entry and all in it of what is said beside them, in order.
func (e *entry) comments() []string {
	var out []string
	for _, line := range e.before {
		if line != "" {
			out = append(out, line)
		}
	}
	out = append(out, e.side...)
	if e.in != nil {
		for _, x := range e.in.entries {
			out = append(out, x.comments()...)
		}
		for _, line := range e.in.tail {
			if line != "" {
				out = append(out, line)
			}
		}
		e.in.tail = nil
	}
	out = append(out, e.after...)
	e.before, e.side, e.after = nil, nil, nil
	return out
}
