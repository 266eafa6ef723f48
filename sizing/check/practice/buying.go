package practice

import (
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Length of a wire's marker along the wire: room for the far end and its part in
// small letters, four abreast on A4 and letter; common practice, no source.
const (
	markerLong       unit.Millimetre = 40
	markerLongInches unit.Millimetre = 1.625 * 25.4
)

// buying takes over how labels are made, how things are sold and what they cost.
func (c *reader) buying() {
	out, p := &c.out, c.written
	long := markerLong
	if c.sheet.Imperial {
		long = markerLongInches
	}
	out.Labels = harness.Labels{As: p.Labels.As.Or("wrap"), Length: p.Labels.Length.Or(long), Pitch: p.Labels.Pitch.V, Sheet: c.labelSheet(p.Labels)}
	out.Packs = map[string]float64{}
	for _, s := range p.Packs {
		out.Packs[s.Group.Text] = float64(s.Size.V.Pieces)
		if s.Size.V.Pieces == 0 {
			out.Packs[s.Group.Text] = float64(s.Size.V.Length) / 1000
		}
	}
	out.Currency = p.Currency.Text
	for _, x := range p.Prices {
		out.Prices = append(out.Prices, harness.Price{Item: x.Item.Text, Gauge: x.Gauge.V, Each: x.Each.V, Span: x.Each.Span})
	}
}
