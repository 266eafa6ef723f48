package harness

import "strings"

// Side says where on the vehicle something lies: one of front and rear, one of
// left and right, both or neither. Left and right are those of who sits in the
// vehicle and looks ahead.
type Side uint8

// The sides; they are joined with |.
const (
	Front Side = 1 << iota
	Rear
	Left
	Right
)

// sideNames are the words of the sides in their order.
var sideNames = [...]string{"front", "rear", "left", "right"}

// SideOf is the side of a word of the format.
func SideOf(word string) (Side, bool) {
	for i, name := range sideNames {
		if name == word {
			return 1 << i, true
		}
	}
	return 0, false
}

// Is tells whether another side is among these.
func (s Side) Is(other Side) bool { return s&other != 0 }

// String is how the format writes it, such as "front left"; "" where nothing is said.
func (s Side) String() string {
	var words []string
	for i, name := range sideNames {
		if s.Is(1 << i) {
			words = append(words, name)
		}
	}
	return strings.Join(words, " ")
}
