package sizing

import (
	"slices"

	"example.com/loomfolio/sizing/alteration"
	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/fault/live"
	"example.com/loomfolio/sizing/fault/tree"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/polarity"
	"example.com/loomfolio/sizing/rating"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/testplan"
	"example.com/loomfolio/sizing/testplan/meter"
	"example.com/loomfolio/sizing/testplan/point"
)

// Prove adds to what Size gave how it is proved and how faults in it are found. What the
// packet, the figures and a diagnosis need; a check goes without. The error is one of the
// solver.
func Prove(h *harness.Harness, r *result.Result) error {
	if r.Unusable {
		return nil
	}
	h, _ = polarity.Mend(h)
	book := dictionary(h, r)
	if err := testplan.Fill(h, r); err != nil {
		return err
	}
	var err error
	if r.Proof.Untold, err = testplan.Untold(h, r); err != nil {
		return err
	}
	r.Proof.Ladders, r.Proof.Together = book.Ladders(), book.Together()
	r.Proof.Trees = tree.All(h, &r.Proof, book)
	sheet, err := live.All(h, r.States, r.Fuses)
	if err != nil {
		return err
	}
	r.Proof.When, r.Proof.Live, r.Proof.Without = sheet.When, sheet.Nets, sheet.Without
	r.Proof.Changes = alteration.Notes(h, r)
	r.Sources = sources(append(proofKeys(h, r), keys(r.Sources)...))
	return nil
}

// proofKeys are the keys of the documents that the proof rests on.
func proofKeys(h *harness.Harness, r *result.Result) []string {
	var out []string
	if len(r.Proof.Points) > 0 {
		out = slices.Concat(meter.Sources(), rating.ReachSources())
	}
	if len(r.Proof.Readings) > 0 {
		charged := slices.ContainsFunc(h.Elements, func(e harness.Element) bool { return e.Kind == harness.Charger })
		out = append(out, rating.ToleranceSources(charged)...)
	}
	if len(r.Proof.Faults) > 0 {
		out = append(out, rating.FaultSources()...)
	}
	if r.Proof.KeyOff.State != harness.None {
		out = append(out, rating.KeyOffSource()...)
	}
	return out
}

func keys(all []rating.Source) []string {
	var out []string
	for _, s := range all {
		out = append(out, s.Key)
	}
	return out
}

// Dictionary fills in the test points and the faults alone, all that a diagnosis needs, and
// gives the dictionary to be asked.
func Dictionary(h *harness.Harness, r *result.Result) *fault.Book {
	h, _ = polarity.Mend(h)
	return dictionary(h, r)
}

// dictionary is Dictionary of a model that is mended.
func dictionary(h *harness.Harness, r *result.Result) *fault.Book {
	r.Proof.Points = point.All(h)
	book := fault.New(h, r)
	r.Proof.Faults = book.Faults()
	return book
}
