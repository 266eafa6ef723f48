package read

import (
	"strings"

	"golang.org/x/text/unicode/norm"
)

// alike gives a form in which names that print the same are equal: composed,
// wide and raised forms made plain (NFKC), spaces single, and Greek and
// Cyrillic capitals and letters that look like Latin ones turned into those.
func alike(name string) string {
	return lookalikes.Replace(strings.Join(strings.Fields(norm.NFKC.String(name)), " "))
}

// lookalikes pairs letters that share their shape (Unicode TR 39 calls them
// confusable; this is the common part of its table, from memory).
var lookalikes = strings.NewReplacer(
	"Α", "A", "Β", "B", "Ε", "E", "Ζ", "Z", "Η", "H", "Ι", "I", "Κ", "K", "Μ", "M", "Ν", "N", "Ο", "O", "Ρ", "P", "Τ", "T", "Υ", "Y", "Χ", "X", "ο", "o",
	"А", "A", "В", "B", "Е", "E", "К", "K", "М", "M", "Н", "H", "О", "O", "Р", "P", "С", "C", "Т", "T", "Х", "X",
	"а", "a", "е", "e", "о", "o", "р", "p", "с", "c", "у", "y", "х", "x", "і", "i", "‐", "-", "‑", "-", "–", "-", "—", "-", "−", "-",
)
