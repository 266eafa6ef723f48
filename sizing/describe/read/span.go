package read

import (
	"strings"

	"gopkg.in/yaml.v3"

	"example.com/loomfolio/sizing/source"
)

// span gives the place of a node: the whole of a value that stands on one
// line, the first key or item of a mapping or list that does not.
func (r *Reader) span(n *yaml.Node) source.Span {
	if o := r.shared.origins[n]; o.from != nil {
		s := r.span(o.from)
		s.Use = o.use
		return s
	}
	if n.Kind == yaml.AliasNode {
		return r.token(n)
	}
	line := []rune(r.lineOf(n))
	from := begins(n, line)
	rest := line[from:]
	switch {
	case n.Kind == yaml.ScalarNode && missing(n):
		rest = nil
	case n.Kind == yaml.ScalarNode && n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) != 0:
		rest = rest[:quotedWidth(rest)]
	case n.Kind == yaml.ScalarNode && n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) == 0 && strings.HasPrefix(string(rest), n.Value):
		rest = []rune(n.Value)
	case n.Kind == yaml.MappingNode || n.Kind == yaml.SequenceNode:
		if n.Style&yaml.FlowStyle == 0 && len(n.Content) > 0 && n.Content[0].Line >= n.Line {
			return r.span(n.Content[0])
		}
		rest = rest[:r.flowWidth(n, from+1, rest)]
	}
	return r.at(n, from+1, max(source.Width(strings.TrimRight(string(rest), " \t")), 1))
}

// begins is where a value begins in its line, behind the name that it may have for reuse.
func begins(n *yaml.Node, line []rune) int {
	from := min(max(n.Column-1, 0), len(line))
	rest, named := strings.CutPrefix(string(line[from:]), "&"+n.Anchor)
	value := strings.TrimLeft(rest, " \t")
	if n.Anchor == "" || !named || value == "" || value == rest {
		return from
	}
	return len(line) - source.Width(value)
}

// at makes a span on the line of a node, in its file.
func (r *Reader) at(n *yaml.Node, column, width int) source.Span {
	s := source.At(max(n.Line, 1), column, width)
	s.File = r.fileOf(n)
	return s
}

// token is the place of the sign at the start of a node, to the next blank.
func (r *Reader) token(n *yaml.Node) source.Span {
	rest := string([]rune(r.lineOf(n))[min(max(n.Column-1, 0), source.Width(r.lineOf(n))):])
	if i := strings.IndexAny(rest, " \t,]}"); i > 0 {
		rest = rest[:i]
	}
	return r.at(n, max(n.Column, 1), max(source.Width(rest), 1))
}

// lineOf gives the line on which a node is written.
func (r *Reader) lineOf(n *yaml.Node) string {
	if o := r.shared.origins[n]; o.from != nil {
		return r.lineOf(o.from)
	}
	return r.file.In(source.Span{File: r.fileOf(n)}).Line(n.Line)
}

// quotedWidth is the width of the quoted text at the start of a line's rest.
func quotedWidth(rest []rune) int {
	for i := 1; i < len(rest); i++ {
		switch {
		case rest[0] == '"' && rest[i] == '\\':
			i++
		case rest[i] == rest[0] && rest[0] == '\'' && i+1 < len(rest) && rest[i+1] == '\'':
			i++
		case rest[i] == rest[0]:
			return i + 1
		}
	}
	return len(rest)
}

// flowWidth is the width of a bracketed list or mapping, to the end of its
// first line at most.
func (r *Reader) flowWidth(n *yaml.Node, column int, rest []rune) int {
	end := 1
	for _, c := range n.Content {
		if c.Line != n.Line {
			return len(rest)
		}
		s := r.span(c)
		end = max(end, s.Start.Column+s.Width-column)
	}
	for i := min(end, len(rest)); i < len(rest); i++ {
		if rest[i] == ']' || rest[i] == '}' {
			return i + 1
		}
	}
	return len(rest)
}

// Piece gives a part of a word with its own place, where the text stands in
// the file as it was read; else with the place of the whole.
func (r *Reader) Piece(w Word, e Entry, text string, from int) Word {
	line := r.lineOf(e.value)
	column := w.Span.Start.Column - 1
	rest := string([]rune(line)[min(column, source.Width(line)):])
	at := strings.Index(rest, w.Text)
	if at < 0 || source.Width(rest[:at]) >= w.Span.Width {
		return Word{Text: text, Span: w.Span}
	}
	start := at + from + strings.Index(w.Text[from:], text)
	return Word{Text: text, Span: w.Span.Moved(column+1+source.Width(rest[:start]), source.Width(text))}
}
