package colour

import (
	"sort"
	"strconv"

	"example.com/loomfolio/sizing/harness"
)

// byName gives the wires in the order of their names.
func byName(h *harness.Harness) []harness.WireID {
	out := make([]harness.WireID, len(h.Wires))
	for i := range out {
		out[i] = harness.WireID(i)
	}
	sort.Slice(out, func(i, j int) bool { return earlier(h.Wires[out[i]].Name, h.Wires[out[j]].Name) })
	return out
}

// earlier orders names as people do: 2A before 12A.
func earlier(a, b string) bool {
	na, ra := leadingNumber(a)
	nb, rb := leadingNumber(b)
	if na != nb {
		return na < nb
	}
	if len(ra) != len(rb) {
		return len(ra) < len(rb)
	}
	if ra != rb {
		return ra < rb
	}
	return a < b
}

func leadingNumber(name string) (n int, rest string) {
	end := 0
	for end < len(name) && name[end] >= '0' && name[end] <= '9' {
		end++
	}
	n, _ = strconv.Atoi(name[:end])
	return n, name[end:]
}
