package laid

import (
	"fmt"

	"example.com/loomfolio/layout/loom/placing"
	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// Words is the ask with the words for what lies on a loom.
type Words struct{ page.Ask }

// Length is a length in the units of the sheets.
func (a Words) Length(mm unit.Millimetre) string { return unit.LengthText(mm, a.H.Sheet.Imperial) }

// Across is a bundle's diameter: "⌀ 14.2 mm".
func (a Words) Across(mm unit.Millimetre) string {
	if a.H.Sheet.Imperial {
		return "⌀ " + unit.FineText(mm)
	}
	return "⌀ " + page.Figure(float64(mm), 1) + " mm"
}

// Parts lists the parts at a place, splices apart, in the order of the description.
func (a Words) Parts(p harness.PlaceID) (parts, splices []*harness.Part) {
	for _, id := range a.PartsAt(p) {
		if part := &a.H.Parts[id]; part.Kind == harness.Splice {
			splices = append(splices, part)
		} else {
			parts = append(parts, part)
		}
	}
	return parts, splices
}

// Refs are the references of parts as words that lead to them.
func (a Words) Refs(parts []*harness.Part) []placing.Word {
	var out []placing.Word
	for i, p := range parts {
		w := placing.Word{Said: p.Ref, To: partAnchors(p)}
		if i < len(parts)-1 {
			w.Said += ","
		}
		out = append(out, w)
	}
	return out
}

// partAnchors are the places that say more of a part, the best first.
func partAnchors(p *harness.Part) []string {
	var out []string
	for _, kind := range []string{"splice/", "ground/", "connector/", "part/"} {
		out = append(out, kind+p.Ref)
	}
	return out
}

// Cover is what goes over a run, with its least inside diameter: "braid 26 mm inside".
func (a Words) Cover(r harness.RunID) string {
	f := a.R.Runs[r]
	if f.CoverName == "" {
		return "no cover"
	}
	if f.Cover == 0 {
		return f.CoverName
	}
	return f.CoverName + " " + unit.BoreText(f.Cover, a.H.Sheet.Imperial) + " inside"
}

// SpliceBlock names a splice along a run with its distance from the run's start.
func (a Words) SpliceBlock(p *harness.Part) placing.Block {
	from := a.H.Places[a.H.Runs[p.Along.Run].From].Name
	head := placing.Row{Words: []placing.Word{{Said: p.Ref, To: partAnchors(p)}}, Style: sheet.Strong(sheet.SizeBody)}
	return placing.BlockOf(1, head, placing.Plain(fmt.Sprintf("%s from %s", a.Length(p.Along.Distance), from)))
}

// Along lists the splices on a run.
func (a Words) Along(r harness.RunID) []*harness.Part {
	var out []*harness.Part
	for _, id := range a.PartsAlong(r) {
		out = append(out, &a.H.Parts[id])
	}
	return out
}
