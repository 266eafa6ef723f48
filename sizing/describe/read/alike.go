package read

import (
	"strings"

	"golang.org/x/text/unicode/norm"

	"example.com/loomfolio/sizing/source"
)

// alike gives a form in which names that print the same are equal: composed,
// wide and raised forms made plain (NFKC), spaces single, and letters of other
// scripts that look like Latin ones turned into those.
func alike(name string) string {
	return source.Latin(strings.Join(strings.Fields(norm.NFKC.String(name)), " "))
}

// Folded gives the form in which names that count as the same are equal: as alike, and
// in lower case.
func Folded(name string) string { return strings.ToLower(alike(name)) }
