package tidy

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/describe/read"
)

// PartKeys gives of every part of a description the keys that are not left out, in one
// line as the format writes and orders them ("draws: 20 A, starts: 55 A for 0.4 s"), by the part's
// name. Texts over several lines, comments and marks are left out as well.
func PartKeys(text []byte, without ...string) map[string]string {
	out := map[string]string{}
	s, err := read.AsWritten(text)
	if err != nil {
		return out
	}
	for i, key := range s.Root.Keys {
		if parts := s.Root.Items[i]; key.Value == "parts" && parts.Shape == read.Pairs {
			for j, name := range parts.Keys {
				out[name.Value] = keysOf(parts.Items[j], without)
			}
		}
	}
	return out
}

func keysOf(w *read.Written, without []string) string {
	b := boxed(w)
	if b == nil || w.Shape != read.Pairs {
		return ""
	}
	order(b, section{path: "parts"})
	var keys []string
	for _, e := range b.entries {
		if value, ok := flat(e, true); ok && !slices.Contains(without, e.key.Value) {
			keys = append(keys, pairText(e, value))
		}
	}
	return strings.Join(keys, ", ")
}
