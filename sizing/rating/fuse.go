package rating

import (
	"math"
	"sync"

	"example.com/loomfolio/sizing/unit"
)

// Fuse is one rating of one body.
type Fuse struct {
	Body    string
	Rating  unit.Ampere
	Colour  string   // of the body; "" where none is agreed: go by the number
	Cold    unit.Ohm // cold resistance
	Stocked bool     // one that shops have first; common practice, no source
	Sources []string // of the rating and colour, of the resistance
}

var fuseTable = sync.OnceValue(func() []Fuse {
	var out []Fuse
	for _, r := range rows("fuses.csv") {
		out = append(out, Fuse{
			Body: r["body"], Rating: unit.Ampere(r.number("rating_a")), Colour: r["colour"],
			Cold: unit.Ohm(r.number("cold_mohm") / 1000), Stocked: r["stocked"] != "", Sources: Distinct(r["source"], r["cold_source"]),
		})
	}
	return out
})

// FuseBodies lists the bodies in which fuses are made.
func FuseBodies() []string {
	var out []string
	for _, f := range fuseTable() {
		out = append(out, f.Body)
	}
	return Distinct(out...)
}

// FuseSeries gives the ratings of a body (mini, blade, maxi, bolt, glass), smallest first.
func FuseSeries(body string) []Fuse {
	var out []Fuse
	for _, f := range fuseTable() {
		if f.Body == body {
			out = append(out, f)
		}
	}
	return out
}

// FuseOf gives one rating of a body. The colour depends on both: 50 A is red
// in the maxi body, 10 A is red in the blade body.
func FuseOf(body string, rating unit.Ampere) (Fuse, bool) {
	for _, f := range fuseTable() {
		if f.Body == body && f.Rating == rating {
			return f, true
		}
	}
	return Fuse{}, false
}

// FuseCold gives the cold resistance of any rating of a body: the row, or an
// interpolation on logarithmic scales, kept as voltage drop beyond the ends.
func FuseCold(body string, rating unit.Ampere) unit.Ohm {
	series := FuseSeries(body)
	if len(series) == 0 {
		series = FuseSeries("blade")
	}
	first, last := series[0], series[len(series)-1]
	switch {
	case rating <= first.Rating:
		return first.Cold * unit.Ohm(float64(first.Rating/rating))
	case rating >= last.Rating:
		return last.Cold * unit.Ohm(float64(last.Rating/rating))
	}
	for i := 1; i < len(series); i++ {
		low, high := series[i-1], series[i]
		if rating <= high.Rating {
			return unit.Ohm(math.Exp(between(
				math.Log(float64(low.Rating)), math.Log(float64(low.Cold)),
				math.Log(float64(high.Rating)), math.Log(float64(high.Cold)), math.Log(float64(rating)))))
		}
	}
	return last.Cold
}

// Opening is the band of times in which a fuse opens at a percentage of its rating.
type Opening struct {
	Percent          float64
	Earliest, Latest float64 // s; Latest 0: it need not open at all
	Source           string
}

var openingTable = sync.OnceValue(func() map[string][]Opening {
	out := map[string][]Opening{}
	for _, r := range rows("fuse-times.csv") {
		out[r["body"]] = append(out[r["body"]], Opening{
			Percent: r.number("percent_of_rating"), Earliest: r.number("earliest_s"),
			Latest: r.number("latest_s"), Source: r["source"],
		})
	}
	return out
})

// Openings gives the published points of a body, lightest overload first.
func Openings(body string) []Opening { return openingTable()[body] }

// EarliestOpening gives the shortest time in which a fuse of a body may open
// at a multiple of its rating (1.35 is 135 %), interpolated on logarithmic
// scales; +Inf at or below the current that it carries for ever, NaN where the
// body has no published times.
func EarliestOpening(body string, multiple float64) unit.Second {
	points := Openings(body)
	if len(points) == 0 {
		return unit.Second(math.NaN())
	}
	percent := multiple * 100
	if percent <= points[0].Percent {
		return unit.Second(math.Inf(1))
	}
	return timeAt(points, percent, func(o Opening) float64 { return o.Earliest })
}

// LatestOpening gives the longest time in which a fuse of a body opens; +Inf
// below the first multiple at which it must open, NaN without published times.
func LatestOpening(body string, multiple float64) unit.Second {
	var points []Opening
	for _, o := range Openings(body) {
		if o.Latest > 0 {
			points = append(points, o)
		}
	}
	if len(points) == 0 {
		return unit.Second(math.NaN())
	}
	percent := multiple * 100
	if percent < points[0].Percent*0.9999 {
		return unit.Second(math.Inf(1))
	}
	return timeAt(points, percent, func(o Opening) float64 { return o.Latest })
}

// timeAt interpolates between points; beyond the last, the fuse melts at constant I²t.
func timeAt(points []Opening, percent float64, of func(Opening) float64) unit.Second {
	last := points[len(points)-1]
	for i := 1; i < len(points); i++ {
		low, high := points[i-1], points[i]
		if percent <= high.Percent {
			return unit.Second(math.Exp(between(math.Log(low.Percent), math.Log(of(low)), math.Log(high.Percent), math.Log(of(high)), math.Log(percent))))
		}
	}
	return unit.Second(of(last) * math.Pow(last.Percent/percent, 2))
}

// Overload is what a body of fuses (or a breaker) does above its rating, as
// multiples of it: it may carry Carries for ever, and at Opens it opens, after
// Latest at the longest.
type Overload struct {
	Carries, Opens float64
	Latest         unit.Second
	Source         string
}

var overloadTable = sync.OnceValue(func() map[string]Overload {
	out := map[string]Overload{}
	for _, r := range rows("fuse-overload.csv") {
		out[r["body"]] = Overload{
			Carries: r.number("carries_percent") / 100, Opens: r.number("opens_percent") / 100,
			Latest: unit.Second(r.number("latest_s")), Source: r["source"],
		}
	}
	return out
})

// OverloadOf gives the overload of a body (mini, blade, maxi, bolt, glass,
// breaker); an unknown body is taken as a blade, which carries most.
func OverloadOf(body string) Overload {
	if o, ok := overloadTable()[body]; ok {
		return o
	}
	return overloadTable()["blade"]
}

var fuseAmbientTable = sync.OnceValue(func() []row { return rows("fuse-ambient.csv") })

// FuseAmbientFactor gives the share of its rating that a fuse carries at an
// ambient, against 25 C; never more than 1.
func FuseAmbientFactor(ambient unit.Celsius) float64 {
	return math.Min(1, fuseCurve(float64(ambient))/fuseCurve(25))
}

func fuseCurve(ambient float64) float64 {
	points := fuseAmbientTable()
	for i := 1; i < len(points); i++ {
		low, high := points[i-1], points[i]
		if ambient <= high.number("ambient_c") || i == len(points)-1 {
			return between(low.number("ambient_c"), low.number("factor"), high.number("ambient_c"), high.number("factor"), ambient)
		}
	}
	return 1
}

// FuseCoolFactor gives by how much more than its rating a fuse carries in a
// place cooler than 25 C; never less than 1, since a fuse in a hot place is
// cool too when the vehicle has stood.
func FuseCoolFactor(ambient unit.Celsius) float64 {
	return math.Max(1, fuseCurve(float64(ambient))/fuseCurve(25))
}

// HotFuse is the resistance of a fuse at work over its cold one: 40 to 50 %
// more, a teaching sheet for a maker's data.
const HotFuse = 1.5

// HolderLimit gives the most that a usual holder of a body carries.
func HolderLimit(body string) (unit.Ampere, string) {
	for _, r := range rows("holders.csv") {
		if r["body"] == body {
			return unit.Ampere(r.number("most_a")), r["source"]
		}
	}
	return 0, ""
}

// SwitchFactor gives what a switch must be rated for over the continuous
// current of a load (lamp, inductive, resistive, motor), by FAA AC 43.13-1B
// table 11-4: its 12 V rows up to 20 V nominal, its 28 V rows above (for 6 and 24 V
// common practice, no source).
func SwitchFactor(nominal unit.Volt, load string) float64 {
	volts := 12.0
	if nominal > 20 {
		volts = 28
	}
	for _, r := range rows("switches.csv") {
		if r.number("volts") == volts && r["load"] == load {
			return r.number("factor")
		}
	}
	return 1
}
