package refuse

import "strings"

// pattern is one way of writing a word of the table.
type pattern struct {
	pieces  []piece
	within  bool // it may begin within a word: a compound
	capital bool // an abbreviation: capitals alone
}

// piece is a word of a pattern, or its beginning.
type piece struct {
	letters []rune
	open    bool // the word may go on
	solid   bool // it is one word, not two
	later   bool // other words may stand before it
}

// patternOf reads one pattern: words, "stem*" where a word may go on, "*word" in front
// where it may end a compound, "=word" where it must be written as one, "..." where other words may come between, capitals
// for what is taken in capitals alone.
func patternOf(text string) pattern {
	p := pattern{capital: strings.ToUpper(text) == text && strings.ToLower(text) != text}
	later := false
	for i, w := range strings.Fields(text) {
		if w == "..." {
			later = true
			continue
		}
		if i == 0 {
			w, p.within = strings.CutPrefix(w, "*")
		}
		w, solid := strings.CutPrefix(w, "=")
		stem, open := strings.CutSuffix(w, "*")
		if letters := fold(stem).letters; len(letters) > 0 {
			p.pieces = append(p.pieces, piece{letters, open, solid, later})
		}
		later = false
	}
	return p
}

// find gives the first place where a pattern stands in a text.
func (p pattern) find(f *folded, gone []bool) (from, to int, ok bool) {
	first := p.pieces[0].letters[0]
	if !f.some[first&0xff] {
		return 0, 0, false
	}
	for i, c := range f.letters {
		if c != first || !f.begins[i] && !p.within {
			continue
		}
		if end, ok := p.at(f, i); ok && p.holds(f, i, end, gone) {
			return i, end, true
		}
	}
	return 0, 0, false
}

// at matches the pieces from a place on and gives where they end.
func (p pattern) at(f *folded, i int) (end int, ok bool) {
	first := p.pieces[0].letters
	if !f.begins[i] && f.next(i+1) < i+len(first) {
		return 0, false // "repair bag" is no "air bag"
	}
	return rest(p.pieces, f, i)
}

func rest(pieces []piece, f *folded, i int) (end int, ok bool) {
	if len(pieces) == 0 {
		return i, f.ends(i)
	}
	p := pieces[0]
	for at := i; at < len(f.letters); at = f.next(at + 1) {
		if end, ok := p.take(pieces[1:], f, at); ok {
			return end, true
		}
		if !p.later {
			break
		}
	}
	return 0, false
}

// take matches a piece at one place, and what follows behind it or behind its word.
func (p piece) take(more []piece, f *folded, i int) (end int, ok bool) {
	if i+len(p.letters) > len(f.letters) || p.solid && f.next(i+1) < i+len(p.letters) {
		return 0, false
	}
	for k, c := range p.letters {
		if f.letters[i+k] != c {
			return 0, false
		}
	}
	i += len(p.letters)
	if len(more) > 0 && !more[0].later || !p.open {
		if end, ok := rest(more, f, i); ok {
			return end, true
		}
	}
	if p.open || len(more) > 0 && more[0].later {
		return rest(more, f, f.next(i))
	}
	return 0, false
}

// holds sees that a find is in capitals where it must be, and that nothing of it is
// taken by the stop-list.
func (p pattern) holds(f *folded, from, to int, gone []bool) bool {
	for i := from; i < to; i++ {
		if gone[i] || p.capital && !f.upper[i] {
			return false
		}
	}
	return true
}
