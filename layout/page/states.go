package page

import (
	"strings"

	"example.com/loomfolio/sizing/harness"
)

// letters are those that stand for no unit behind a figure and look like no figure.
const letters = "abcdefijknpqrtuwxyz"

// StateLetter is what a state is called in lists, by its place among all: a to z, then aa and on.
func StateLetter(i int) string {
	if n := len(letters); i >= n {
		return StateLetter(i/n-1) + StateLetter(i%n)
	}
	return letters[i : i+1]
}

// StateLetters names states by letter, three and more that follow one another as a span.
func StateLetters(states []int) string {
	var out []string
	for i := 0; i < len(states); {
		j := i
		for j+1 < len(states) && states[j+1] == states[j]+1 {
			j++
		}
		if j-i < 2 {
			j = i
			out = append(out, StateLetter(states[i]))
		} else {
			out = append(out, StateLetter(states[i])+"–"+StateLetter(states[j]))
		}
		i = j + 1
	}
	return strings.Join(out, " ")
}

// Settings says how a state is set: the switches that are not at rest and the engine.
func (a Ask) Settings(s harness.State) string {
	var words []string
	for id, pos := range s.Position {
		if p := a.Part(harness.PartID(id)); pos > 0 && p != nil && pos < len(p.Positions) {
			words = append(words, a.Plain(p)+" "+p.Positions[pos])
		}
	}
	if len(words) == 0 {
		words = append(words, "all at rest")
	}
	if s.Engine != "" {
		words = append(words, "engine "+string(s.Engine))
	}
	return strings.Join(words, ", ")
}
