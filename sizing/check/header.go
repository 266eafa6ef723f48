package check

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/describe"
	"example.com/loomfolio/sizing/describe/read"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/unit"
)

// info takes over what the title block says, the sheet and the system.
func (c *checker) info() {
	d := c.d
	c.h.Info = harness.Info{
		Title: d.Title.Text, Revision: d.Revision.Text, Date: d.Date.Text,
		Customer: d.Customer.Text, Builder: d.Builder.Text, CheckedBy: d.CheckedBy.Text,
		Notes: d.Notes.Text, VehicleName: d.Vehicle.Name.Text, VehicleIdentity: d.Vehicle.Identity.Text,
		Variant: d.Variant, Differs: differs(d), LeftOut: d.LeftOut,
	}
	if c.h.Info.Variant != "" {
		c.h.Info.Title += " · " + variantTitle(d)
	}
	c.h.Sheet = harness.Sheet{
		Paper:    d.Sheet.Paper.Or("A4"),
		Imperial: d.Sheet.Units.Text == "imperial",
		Gauge:    gaugeSystem(d.Sheet),
		Picture:  c.picture(d.Sheet.Picture),
	}
	volts := d.System.Volts.Or(12)
	c.h.System = harness.System{
		Volts:         volts,
		Running:       d.System.Running.Or(unit.Volt(float64(volts) * runPerVolt)),
		PositiveEarth: d.System.Earth.Text == "positive",
		WiredReturn:   d.System.Return.Text == "wired",
		Span:          d.System.Span,
	}
	if c.h.System.Running < volts || float64(c.h.System.Running) > 1.4*float64(volts) {
		c.Fail("running-voltage", d.System.Running.Span, "write the charging voltage with the engine on, for example 14.2 V in a 12 V system",
			"running voltage %s does not fit a %s system", c.h.System.Running, volts)
	}
}

// variantTitle is the chosen variant as titles name it.
func variantTitle(d *describe.Description) string {
	if d.Variant == read.All {
		return "all variants"
	}
	for _, v := range d.Variants {
		if v.Key.Text == d.Variant {
			return v.Name.Or(d.Variant)
		}
	}
	return d.Variant
}

// differs says how the chosen variant differs from the description as it stands; without
// a choice, which variants there are.
func differs(d *describe.Description) string {
	var names []string
	for _, v := range d.Variants {
		if names = append(names, v.Key.Text); v.Key.Text == d.Variant {
			said := d.Variant + ": " + differsBy(v)
			if len(d.LeftOut) > 0 {
				said += " (parts left out: " + source.Some(d.LeftOut, "") + ")"
			}
			return said
		}
	}
	switch {
	case len(names) == 0:
		return ""
	case d.Variant == read.All:
		return "everything that any variant adds, nothing left out (" + strings.Join(names, ", ") + ")"
	}
	return "none of: " + strings.Join(names, ", ")
}

func differsBy(v describe.Variant) string {
	var out []string
	for _, side := range []struct {
		word  string
		names []read.Word
	}{{"with", v.With}, {"without", v.Without}} {
		var names []string
		for _, w := range side.names {
			names = append(names, w.Text)
		}
		if len(names) > 0 {
			out = append(out, side.word+" "+strings.Join(names, ", "))
		}
	}
	return strings.Join(out, "; ")
}

// gaugeSystem is the system in which sizes are chosen: as written, else mm2,
// or SAE gauge where the sheet is imperial.
func gaugeSystem(s describe.Sheet) unit.System {
	def := "mm2"
	if s.Units.Text == "imperial" {
		def = "sae"
	}
	switch s.Gauge.Or(def) {
	case "awg":
		return unit.AWG
	case "sae":
		return unit.SAE
	}
	return unit.Metric
}

// places resolves the spots on the vehicle; an ambient that is not given
// follows from the zone: engine 50 C, anything else 30 C (33 CFR 183.425).
func (c *checker) places() {
	for _, p := range c.d.Places {
		id := harness.PlaceID(len(c.h.Places))
		ambient := otherSpace
		if strings.EqualFold(p.Zone.Text, "engine") {
			ambient = engineSpace
		}
		c.h.Places = append(c.h.Places, harness.Place{
			ID: id, Key: p.Key.Text, Name: p.Name.Or(p.Key.Text), Zone: p.Zone.Text,
			Ambient: p.Ambient.Or(ambient), AmbientGiven: p.Ambient.Given(),
			Surface: p.Surface.Text, Tail: p.Tail.V, Lies: sides(p.Lies), Picture: c.picture(p.Picture), Span: p.Key.Span,
		})
		c.placeBy[p.Key.Text] = id
	}
}

// sides joins the words that say where a place lies.
func sides(words []read.Word) harness.Side {
	all := harness.Side(0)
	for _, w := range words {
		side, _ := harness.SideOf(w.Text)
		all |= side
	}
	return all
}

// picture is the one of a file; several things may name the same one.
func (c *checker) picture(w read.Word) *harness.Picture {
	if !w.Given() {
		return nil
	}
	i := slices.IndexFunc(c.h.Pictures, func(p *harness.Picture) bool { return p.File == w.Text })
	if i < 0 {
		i = len(c.h.Pictures)
		c.h.Pictures = append(c.h.Pictures, &harness.Picture{File: w.Text, Span: w.Span})
	}
	return c.h.Pictures[i]
}

func (c *checker) placeNames() []string {
	var names []string
	for _, p := range c.h.Places {
		names = append(names, p.Key)
	}
	return names
}

// place resolves a place name; None and a problem when there is none.
func (c *checker) place(w read.Word) harness.PlaceID {
	if !w.Given() {
		return harness.None
	}
	id, ok := c.placeBy[w.Text]
	if !ok {
		c.Unknown("unknown-place", "place", w, c.placeNames())
		return harness.None
	}
	return id
}

// runs resolves the stretches of loom.
func (c *checker) runs() {
	seen := map[[2]harness.PlaceID]source.Span{}
	for _, r := range c.d.Runs {
		from, to := c.place(r.From), c.place(r.To)
		if from == harness.None || to == harness.None {
			continue
		}
		if from == to {
			c.Fail("run-to-itself", r.To.Span, "a run joins two different places", "this run starts and ends at %s", r.To.Text)
			continue
		}
		key := [2]harness.PlaceID{min(from, to), max(from, to)}
		if first, twice := seen[key]; twice {
			p := c.Fail("run-twice", r.Span, "keep one of them; two ways between the same places need a place of their own on each", "a second run joins %s and %s", r.From.Text, r.To.Text)
			p.Others = []source.Note{{Span: first, Text: "the first one"}}
			continue
		}
		seen[key] = r.Span
		c.h.Runs = append(c.h.Runs, harness.Run{
			ID: harness.RunID(len(c.h.Runs)), From: from, To: to, Length: r.Length.V,
			Cover: r.Cover.Text, Flexes: r.Flexes.V, Span: r.Span,
		})
	}
}
