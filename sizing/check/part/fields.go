package part

import (
	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/unit"
)

// fields takes over what needs no resolving.
func fields(w *describe.Part, p *harness.Part) {
	p.Stud, p.Tab, p.Family = w.Stud.Text, w.Tab.Text, w.Family.Text
	p.Fitting, p.Size, p.Length = w.Fitting.Text, w.Size.V, w.Length.V
	p.Sleeve, p.SleeveSpan = w.Sleeve.Text, w.Sleeve.Span
	p.Notes, p.PartNumber = w.Notes.Text, w.PartNumber.Text
	p.Capacity, p.Output = w.Capacity.V, w.Output.V
	p.Rating, p.RatingSpan = w.Rating.V, w.Rating.Span
	p.Body, p.Holder = w.Body.Or(w.HolderBody.Text), w.Holder.V
	p.BreakerType, p.Studs = w.Type.Text, w.Studs.V
	p.Changeover, p.Suppression = w.Changeover.V, w.Suppression.Or("none")
	p.Needs, p.Momentary, p.Sealed = w.Needs.V, w.Momentary.V, w.Sealed.V
	p.Draws, p.Starts = w.Draws.V, w.Starts.V
	if w.AtVolts.Given() {
		p.Draws.At = w.AtVolts.V
	}
	p.Duty, p.WorksAbove = w.Duty.Or(1), w.WorksAbove.V
	p.Existing = w.Existing.V
	c := &p.Charge
	c.Regulated, c.Setting, c.Power = w.Regulated.V, w.Setting.V, w.Power.V
	c.Tracking, c.BuiltIn, c.Shunts = w.Tracking.V, w.Control.Text == builtIn, w.Regulates.Text != "series"
	c.Efficiency = w.Efficiency.Or(trackShare)
	panel(w, c)
	p.Limit, p.LimitSpan = w.Limit.V, w.Limit.Span
	p.NeedsVolts, p.NeedsSpan = w.NeedsVolts.V, w.NeedsVolts.Span
	for _, cavity := range w.Cavities {
		p.Cavities = append(p.Cavities, cavity.Text)
	}
	for _, pair := range w.Found {
		if p.Found == nil {
			p.Found = map[string]string{}
		}
		p.Found[pair.Key.Text] = pair.Value.Text
	}
}

// bestVolts is what a panel gives at best power that gives its watts alone: 36 cells for 12 V;
// common practice, no source.
const bestVolts unit.Volt = 18

// What a panel has over what it has at best power; common practice, no source.
const (
	openOver  = 1.22 // its open voltage
	shortOver = 1.08 // its short-circuit current

	// PanelOpen is what a panel gives with nothing on it that says no voc.
	PanelOpen = bestVolts * openOver
)

// panel takes over the figures of a solar panel's label, or those that its watts imply.
func panel(w *describe.Part, c *harness.Charging) {
	if w.Kind.Text != string(harness.SolarPanel) {
		return
	}
	c.BestVolts = w.Vmp.Or(bestVolts)
	c.OpenVolts = w.Voc.Or(c.BestVolts * openOver)
	c.Best = w.Imp.Or(unit.Ampere(float64(c.Power) / float64(c.BestVolts)))
	c.Short = w.Isc.Or(c.Best * shortOver)
}
