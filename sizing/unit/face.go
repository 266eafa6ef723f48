package unit

import (
	"fmt"
	"strings"
)

// Face is the size of something flat, width before height.
type Face struct{ Wide, High Millimetre }

// What a face can measure, mm: capitals of 2 mm go on the least, and the most goes on paper.
const (
	leastFace = 30
	mostFace  = 400
)

// ParseFace reads width and height: "110 x 70 mm", "4 1/2 x 2 3/4 in". Without a unit of its own
// the width has that of the height.
func ParseFace(text string) (Face, error) {
	wide, high, ok := strings.Cut(strings.NewReplacer("×", "x", "X", "x").Replace(plain(text)), "x")
	if !ok {
		return Face{}, fmt.Errorf("%q is not a width and a height; write both with an x between them, for example 110 x 70 mm", strings.TrimSpace(text))
	}
	h, err := ParseLength(high)
	if err != nil {
		return Face{}, err
	}
	if !strings.ContainsAny(wide, "abcdefghijklmnopqrstuvwyz\"'") {
		_, unit, _, _ := cutMixed(plain(high))
		wide += " " + unit
	}
	w, err := ParseLength(wide)
	if err != nil {
		return Face{}, err
	}
	for _, mm := range []Millimetre{w, h} {
		if mm < leastFace || mm > mostFace {
			return Face{}, fmt.Errorf("%q cannot be right for what one holds in the hand: each side is from %d to %d mm long", strings.TrimSpace(text), leastFace, mostFace)
		}
	}
	return Face{w, h}, nil
}
