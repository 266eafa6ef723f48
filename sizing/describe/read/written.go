package read

import (
	"errors"
	"strings"
	"unicode"

	"gopkg.in/yaml.v3"
)

// Shape tells what a value is.
type Shape int

// The shapes.
const (
	Single Shape = iota
	Pairs
	Series
	Pointer
)

// Point is a place in the text, line and column from 1, in characters.
type Point struct{ Line, Column int }

// Before tells whether a place comes before another.
func (p Point) Before(q Point) bool {
	return p.Line < q.Line || p.Line == q.Line && p.Column < q.Column
}

// Written is a value as it stands in the text: how its characters are written is kept,
// unlike in what is read from it.
type Written struct {
	Shape  Shape
	Text   string // of Single and Pointer: its characters; a new line begins at each \n, without its indent
	Value  string // of Single: what it says
	Body   string // of Single written with | or >: the lines below it, without their indent
	Marks  string // the anchor (and tag) before it, such as &lamp
	Flow   bool   // of Pairs and Series: in brackets; of Single: it stands within brackets
	Keys   []*Written
	Items  []*Written // of Pairs: the values of the keys
	Indent int        // of a block's keys or dashes, in characters
	Start  Point
	End    Point // behind the last character
}

// Comment is a comment, from its # on.
type Comment struct {
	At   Point
	Text string
	Own  bool // nothing stands before it in its line
}

// Sheet is a text with its values and comments as they are written.
type Sheet struct {
	Lines    []string // without their ends
	Root     *Written
	Comments []Comment // in the order of the text
}

var errUnread = errors.New("the text is written in a way that cannot be followed")

// AsWritten follows a text that YAML can read: one document. It resolves no alias
// and reports no problem of form, for which Open is there.
func AsWritten(text []byte) (*Sheet, error) {
	lines := splitLines(text)
	root, err := decode(strings.Join(lines, "\n"))
	if err != nil {
		return nil, err
	}
	if root == nil {
		return nil, errUnread
	}
	s := follower{lines: make([][]rune, len(lines)), said: make([][]bool, len(lines))}
	for i, line := range lines {
		s.lines[i] = []rune(line)
		s.said[i] = make([]bool, len(s.lines[i]))
	}
	top, err := s.follow(root, -1, false)
	if err != nil {
		return nil, err
	}
	return &Sheet{Lines: lines, Root: top, Comments: s.comments()}, nil
}

// follower finds the characters that belong to each node.
type follower struct {
	lines [][]rune
	said  [][]bool // characters that belong to a value
	row   int
	col   int // from 0
}

func (s *follower) here() Point { return Point{s.row + 1, s.col + 1} }

// sign gives the character at the place, 0 at a line's end.
func (s *follower) sign() rune {
	if s.row >= len(s.lines) || s.col >= len(s.lines[s.row]) {
		return 0
	}
	return s.lines[s.row][s.col]
}

// take notes the character at the place as part of a value, and goes on.
func (s *follower) take() {
	if s.sign() != 0 {
		s.said[s.row][s.col] = true
	}
	s.col++
}

// blanks goes to the next character that is neither blank nor in a comment.
func (s *follower) blanks() {
	for s.row < len(s.lines) {
		c := s.sign()
		switch {
		case c == 0 || c == '#':
			s.row, s.col = s.row+1, 0
		case unicode.IsSpace(c):
			s.col++
		default:
			return
		}
	}
}

// follow goes through a node; parent is the indent of the block that it stands in.
func (s *follower) follow(n *yaml.Node, parent int, flow bool) (*Written, error) {
	s.row, s.col = max(n.Line-1, 0), max(n.Column-1, 0)
	w := &Written{Start: s.here(), Value: n.Value, Flow: flow}
	w.Marks = s.marks(n)
	var err error
	switch n.Kind {
	case yaml.AliasNode:
		w.Shape, w.Text = Pointer, "*"+n.Value
		for range []rune(w.Text) {
			s.take()
		}
	case yaml.ScalarNode:
		err = s.one(n, w, parent)
	case yaml.MappingNode, yaml.SequenceNode:
		err = s.many(n, w, parent)
	default:
		err = errUnread
	}
	if w.End == (Point{}) {
		w.End = s.here()
	}
	return w, err
}

// marks takes the anchor and the tag before a node.
func (s *follower) marks(n *yaml.Node) string {
	if n.Anchor == "" && n.Style&yaml.TaggedStyle == 0 {
		return ""
	}
	var marks []string
	for s.sign() == '&' || s.sign() == '!' {
		from := s.col
		for c := s.sign(); c != 0 && !unicode.IsSpace(c) && !strings.ContainsRune(",[]{}", c); c = s.sign() {
			s.take()
		}
		marks = append(marks, string(s.lines[s.row][from:s.col]))
		row, col := s.row, s.col
		if s.blanks(); s.row >= len(s.lines) || missing(n) && n.Value == "" {
			s.row, s.col = row, col
			break
		}
	}
	return strings.Join(marks, " ")
}

// many follows the keys and values of a mapping, or the items of a list.
func (s *follower) many(n *yaml.Node, w *Written, parent int) error {
	w.Shape = Series
	if n.Kind == yaml.MappingNode {
		w.Shape = Pairs
	}
	bracket := s.sign()
	w.Flow = n.Style&yaml.FlowStyle != 0
	w.Indent = s.col
	braced := bracket == '[' || bracket == '{'
	if w.Flow {
		w.Indent = parent
	}
	if w.Flow && braced {
		s.col++
	}
	for i, c := range n.Content {
		x, err := s.follow(c, w.Indent, w.Flow)
		if err != nil {
			return err
		}
		if w.Shape == Pairs && i%2 == 0 {
			w.Keys = append(w.Keys, x)
		} else {
			w.Items = append(w.Items, x)
		}
	}
	if len(n.Content) > 0 {
		last := w.Items[len(w.Items)-1]
		s.row, s.col = last.End.Line-1, last.End.Column-1
	}
	if !w.Flow {
		return nil
	}
	return s.shut(bracket)
}

// shut goes behind the bracket that closes a list or mapping. A pair by itself in a
// list, [a: b], has none.
func (s *follower) shut(bracket rune) error {
	want := map[rune]rune{'[': ']', '{': '}'}[bracket]
	if want == 0 {
		return nil
	}
	for {
		row, col := s.row, s.col
		switch s.blanks(); s.sign() {
		case ',', ':', '?':
			s.col++
		case want:
			s.col++
			return nil
		default:
			s.row, s.col = row, col
			return errUnread
		}
	}
}

// one follows a single value.
func (s *follower) one(n *yaml.Node, w *Written, parent int) error {
	switch {
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		return s.block(w, parent)
	case n.Style&yaml.DoubleQuotedStyle != 0:
		return s.quoted(w, '"')
	case n.Style&yaml.SingleQuotedStyle != 0:
		return s.quoted(w, '\'')
	case n.Value == "":
		return nil
	}
	row, col := s.row, s.col
	for _, c := range n.Value {
		if unicode.IsSpace(c) {
			continue
		}
		for s.row < len(s.lines) && (s.sign() == 0 || unicode.IsSpace(s.sign())) {
			if s.sign() == 0 {
				s.row, s.col = s.row+1, 0
			} else {
				s.take()
			}
		}
		if s.sign() != c {
			return errUnread
		}
		s.take()
	}
	w.Text = s.cut(row, col)
	return nil
}

// cut gives the text from a place to here, each new line without its indent.
func (s *follower) cut(row, col int) string {
	var parts []string
	for r := row; r <= s.row; r++ {
		from, to := 0, len(s.lines[r])
		if r == row {
			from = col
		}
		if r == s.row {
			to = s.col
		}
		part := string(s.lines[r][from:to])
		if r > row {
			part = strings.TrimLeft(part, " \t")
		}
		if r < s.row {
			if bare := strings.TrimRight(part, " \t"); !strings.HasSuffix(bare, `\`) {
				part = bare
			}
		}
		parts = append(parts, part)
	}
	return strings.Join(parts, "\n")
}

// quoted follows a text in quotes, over lines if need be.
func (s *follower) quoted(w *Written, quote rune) error {
	row, col := s.row, s.col
	if s.sign() != quote {
		return errUnread
	}
	s.take()
	for s.row < len(s.lines) {
		switch c := s.sign(); {
		case c == 0:
			s.row, s.col = s.row+1, 0
		case c == '\\' && quote == '"':
			s.take()
			if s.sign() != 0 {
				s.take()
			}
		case c == quote && quote == '\'' && s.col+1 < len(s.lines[s.row]) && s.lines[s.row][s.col+1] == quote:
			s.take()
			s.take()
		case c == quote:
			s.take()
			w.Text = s.cut(row, col)
			return nil
		default:
			s.take()
		}
	}
	return errUnread
}

// block follows a text written with | or >: its head, then the lines below that are
// set in.
func (s *follower) block(w *Written, parent int) error {
	row, col := s.row, s.col
	deeper, keep := 0, false
	if s.sign() != '|' && s.sign() != '>' {
		return errUnread
	}
	for s.take(); strings.ContainsRune("+-0123456789", s.sign()) && s.sign() != 0; s.take() {
		keep = keep || s.sign() == '+'
		if s.sign() >= '0' && s.sign() <= '9' {
			deeper = int(s.sign() - '0')
		}
	}
	w.Text = s.cut(row, col)
	w.End = s.here()
	in := max(parent, 0) + deeper
	if deeper == 0 {
		in = s.setIn(row+1, parent)
	}
	last := row
	for r := row + 1; r < len(s.lines) && (bare(s.lines[r]) || indentOf(string(s.lines[r])) >= in); r++ {
		if keep || !bare(s.lines[r]) || len(s.lines[r]) > in {
			last = r
		}
	}
	var body []string
	for r := row + 1; r <= last; r++ {
		for i := range s.said[r] {
			s.said[r][i] = true
		}
		body = append(body, string(s.lines[r][min(in, len(s.lines[r])):]))
	}
	if len(body) > 0 {
		w.Body = strings.Join(body, "\n") + "\n"
		w.End = Point{last + 1, len(s.lines[last]) + 1}
	}
	return nil
}

// setIn gives the indent of the text that begins at a row.
func (s *follower) setIn(row, parent int) int {
	in := 0
	for r := row; r < len(s.lines); r++ {
		in = max(in, indentOf(string(s.lines[r])))
		if !bare(s.lines[r]) {
			break
		}
	}
	return max(in, parent+1, 1)
}

func bare(line []rune) bool { return strings.Trim(string(line), " ") == "" }

// comments gathers what begins with # outside of all values.
func (s *follower) comments() []Comment {
	var out []Comment
	for row, line := range s.lines {
		for col, c := range line {
			if c == '#' && !s.said[row][col] {
				out = append(out, Comment{
					At: Point{row + 1, col + 1}, Text: strings.TrimRightFunc(string(line[col:]), unicode.IsSpace),
					Own: strings.TrimSpace(string(line[:col])) == "",
				})
				break
			}
		}
	}
	return out
}
