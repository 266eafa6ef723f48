package harness

import "example.com/loomfolio/sizing/source"

// Picture is a photograph or a mark whose file the description names. Until its bytes
// are read it has the name alone.
type Picture struct {
	File string // as written, within the description's folder
	Span source.Span
	Form string // of Data: jpeg or png
	Data []byte // upright, eight bits a channel, red, green and blue, no larger than sheets need
	Wide int    // pixels
	High int
}

// There tells whether there is something to draw.
func (p *Picture) There() bool { return p != nil && len(p.Data) > 0 }
