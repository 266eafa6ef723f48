// Package figures turns the model and the results into one machine-readable
// object, for scripts, spreadsheets and tests: lengths in mm, currents in A,
// voltages in V, resistances in ohm, areas in mm2, temperatures in C, masses in g.
// Figures are rounded to what they mean (round.go). Keys are fixed and only grow. Lists keep the order of the description.
package figures

import (
	"encoding/json"
	"io"

	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/result"
)

// Document is the whole object.
type Document struct {
	Loomfolio  int           `json:"loomfolio"`
	Title      string        `json:"title"`
	Revision   string        `json:"revision"`
	Variant    string        `json:"variant,omitempty"` // the chosen one
	Digest     string        `json:"digest"`
	Wires      []Wire        `json:"wires"`
	Parts      []Part        `json:"parts"`
	Loads      []Load        `json:"loads"`
	Fuses      []Fuse        `json:"fuses"`
	Relays     []Relay       `json:"relays"`
	Contacts   []Contact     `json:"contacts"`
	Grounds    []Ground      `json:"grounds"`
	Bodies     []Body        `json:"bodies,omitempty"` // where there are any
	Splices    []Splice      `json:"splices"`
	Ends       []End         `json:"ends"`
	Runs       []Run         `json:"runs"`
	States     []State       `json:"states"`
	Reels      []Reel        `json:"reels"`
	Cuts       []CutRow      `json:"cuts"`
	Units      []Unit        `json:"units"`
	Labels     []Label       `json:"labels"`
	Shopping   []Item        `json:"shopping"`
	Budgets    []Budget      `json:"budgets"`
	Colours    Colours       `json:"colours"`
	Copper     Copper        `json:"copper"`
	Purchase   Purchase      `json:"purchase"`
	TestPoints []TestPoint   `json:"test_points"`
	Sections   []TestSection `json:"test_sections"`
	Power      []TestStep    `json:"test_power"`
	Beeps      []TestBeep    `json:"test_beeps"`
	Apart      []TestApart   `json:"test_apart"`
	FuseAmps   []TestAmps    `json:"test_fuse_amps"`
	CoilAmps   []TestAmps    `json:"test_coil_amps"`
	KeyOffAmps []TestAmps    `json:"test_key_off_amps"`
	KeyOff     TestKeyOff    `json:"test_key_off"`
	Faults     []Fault       `json:"faults"`   // the dictionary: every single fault with what a meter shows then
	Ladders    []Ladder      `json:"ladders"`  // by load: what is measured from its feed to its ground
	Together   []Group       `json:"together"` // loads that are dead together, and what it is then
	LiveWhen   []LiveWhen    `json:"live_when"`
	Sneaks     []Sneak       `json:"sneaks"`
	Looked     Looked        `json:"looked"`
	Spares     []Spare       `json:"spares"`
	Changes    []Change      `json:"changes"`             // what follows if the vehicle is changed
	OpenEnds   []OpenEnd     `json:"open_ends,omitempty"` // what nobody knows, the one to be traced first first
	Measured   []Measured    `json:"measured,omitempty"`  // readings on the vehicle as it is
	Stretches  []Stretch     `json:"stretches,omitempty"` // where they show that more is lost than the wires can explain
	Findings   []Finding     `json:"findings"`
	Accepted   []Finding     `json:"accepted"` // advice that the description takes off the list
	Sources    []Source      `json:"sources"`
}

// Copper is the mass of all conductors with 80 mm of each for its two terminals, which the sizes
// are chosen by, and the least that any set of gauges could have that meets all rules, counted alike; 0 where no such
// bound is known. The other three are its parts: what is on reels (the sum of reels[].copper_g, and the
// figure that sheets print), in the cores of cables, and counted for terminals.
type Copper struct {
	MassG      float64 `json:"mass_g"`
	BoundG     float64 `json:"bound_g"`
	WiresG     float64 `json:"wires_g"`
	CoresG     float64 `json:"cores_g"`
	TerminalsG float64 `json:"terminals_g"`
}

// Wants is the size that each rule alone would ask for.
type Wants struct {
	Drop       string `json:"drop"`
	Heat       string `json:"heat"`
	Protection string `json:"protection"`
	Handling   string `json:"handling"`
}

// Wire is one wire.
type Wire struct {
	ID           string    `json:"id"`
	Circuit      string    `json:"circuit"`
	From         string    `json:"from"`
	To           string    `json:"to"`
	LengthMM     float64   `json:"length_mm"`
	GivenLength  bool      `json:"given_length"`
	System       string    `json:"system"`
	Gauge        string    `json:"gauge"`
	AreaMM2      float64   `json:"area_mm2"`
	DiameterMM   float64   `json:"diameter_mm"`
	Insulation   string    `json:"insulation"`
	Amps         float64   `json:"amps"`
	State        string    `json:"state"`
	DropV        float64   `json:"drop_v"`
	Drop20CV     float64   `json:"drop_20c_v"`
	TemperatureC float64   `json:"temperature_c"`
	HottestIn    string    `json:"hottest_in"`
	AmpacityA    float64   `json:"ampacity_a"`
	ResistanceO  float64   `json:"resistance_ohm"`
	ProtectedBy  string    `json:"protected_by"`
	Base         string    `json:"base"`
	Tracer       string    `json:"tracer"`
	Runs         []string  `json:"runs"`
	Reason       string    `json:"reason"`
	Found        string    `json:"found"`
	Kept         string    `json:"kept"` // planned or built where it is as the record has it, existing for the vehicle's own, else ""
	Wants        Wants     `json:"wants"`
	Below        Neighbour `json:"below"`
	Least        string    `json:"least"`  // its own least size where a thicker one is bought, else ""
	Bought       string    `json:"bought"` // why that one is
	Number       string    `json:"circuit_number"`
	CircuitName  string    `json:"circuit_name"`
	Class        string    `json:"class"` // of its circuit: which drop limit
}

// Part is one part as the description has it.
type Part struct {
	ID     string `json:"ref"`
	Kind   string `json:"kind"`
	Name   string `json:"name"`
	Place  string `json:"place"`
	Number string `json:"part_number"`
	Notes  string `json:"notes"`
	Says   string `json:"says"` // its other keys, as the format writes them
}

// Load is one load.
type Load struct {
	ID          string  `json:"id"`
	Amps        float64 `json:"amps"`
	State       string  `json:"state"`
	Volts       float64 `json:"volts"`
	FeedDropV   float64 `json:"feed_drop_v"`
	ReturnDropV float64 `json:"return_drop_v"`
	OtherDropV  float64 `json:"other_drop_v"`
	Drop20CV    float64 `json:"drop_20c_v"`
	DropPct     float64 `json:"drop_pct"`
	LimitPct    float64 `json:"limit_pct"`
	ProtectedBy string  `json:"protected_by"`
}

// Fuse is one fuse, breaker or panel position.
type Fuse struct {
	ID           string    `json:"id"`
	Part         string    `json:"part"`
	Position     string    `json:"position"`
	Body         string    `json:"body"`
	RatingA      float64   `json:"rating_a"`
	BodyColour   string    `json:"body_colour"`
	Amps         float64   `json:"amps"`
	Feeds        []string  `json:"feeds"`
	SmallestWire string    `json:"smallest_wire"`
	MostAllowedA float64   `json:"most_allowed_a"`
	ClearsShortS float64   `json:"clears_short_s"`
	ProspectiveA float64   `json:"prospective_a"`
	Reason       string    `json:"reason"`
	Below        Neighbour `json:"below"`
	Above        Neighbour `json:"above"`
	Kept         string    `json:"kept"`         // as of a wire
	BreakerType  string    `json:"breaker_type"` // SAE J553: 1, 2, 3; "" for a fuse, or where not given
	Stops        []string  `json:"stops"`        // loads and coils that lose their supply when it is out
	DropsOut     []Drop    `json:"drops_out"`    // relays that drop out then, in the order in which they do
	Shared       bool      `json:"shared"`       // one of several supplies: nothing stops; the two lists are what it feeds and works
	SpareA       float64   `json:"spare_a"`      // that it carries continuously beyond amps where it sits
	LeastA       float64   `json:"least_a"`      // what its currents alone ask for
	Bought       string    `json:"bought"`       // why a larger one is bought; "" where none is
}

// Drop is a relay that drops out, with the loads that stop behind its contacts.
type Drop struct {
	Relay string   `json:"relay"`
	Stops []string `json:"stops"`
}

// Relay is one relay.
type Relay struct {
	ID       string  `json:"id"`
	CoilA    float64 `json:"coil_a"`
	ContactA float64 `json:"contact_a"`
	RatingA  float64 `json:"rating_a"`
}

// Ground is one ground point; rings from the bottom up.
type Ground struct {
	ID       string   `json:"id"`
	Rings    []string `json:"rings"`
	Amps     float64  `json:"amps"`
	LiftV    float64  `json:"lift_v"`
	Surface  string   `json:"surface"`
	Washer   string   `json:"washer"`
	State    string   `json:"state"`   // that gives the amps: the most that lasts
	CrankA   float64  `json:"crank_a"` // while cranking, where that is more; else 0
	CrankIn  string   `json:"crank_in"`
	LiftIn   string   `json:"lift_in"`  // the state in which the point is furthest from the battery's post
	SteadyV  float64  `json:"steady_v"` // where that is while cranking, the most in a state that lasts; else 0
	SteadyIn string   `json:"steady_in"`
	Stud     string   `json:"stud"`
	StudWhy  string   `json:"stud_why"` // why no smaller one would do
}

// Body is a part that its own body grounds, without a wire.
type Body struct {
	ID       string  `json:"id"`
	Terminal string  `json:"terminal"`
	Ohm      float64 `json:"ohm"`
	Amps     float64 `json:"amps"` // the most that passes it
	State    string  `json:"state"`
	LiftV    float64 `json:"lift_v"` // the most that it is away from the battery's post
	LiftIn   string  `json:"lift_in"`
	Surface  string  `json:"surface"`
	Washer   string  `json:"washer"`
}

// Splice is one splice.
type Splice struct {
	ID         string   `json:"id"`
	Wires      []string `json:"wires"`
	AreaSumMM2 float64  `json:"area_sum_mm2"`
	Size       string   `json:"size"`
	Shrink     string   `json:"shrink"`
	ShiftMM    float64  `json:"shift_mm"` // moved along its run so that none lie side by side
}

// End is one end of a wire.
type End struct {
	Wire     string  `json:"wire"`
	End      string  `json:"end"`
	Part     string  `json:"part"`
	Terminal string  `json:"terminal"`
	Crimp    string  `json:"crimp"`
	Size     string  `json:"size"`
	StripMM  float64 `json:"strip_mm"`
	PullN    float64 `json:"pull_n"`
	Shrink   string  `json:"shrink"`
	ShrinkMM float64 `json:"shrink_mm"`
	Label    string  `json:"label"`
	Number   string  `json:"part_number"` // the shop's own, "" where the tables chose
	Die      string  `json:"die"`
	OverMM   float64 `json:"over_mm"` // outside of the wire, for a contact's insulation grip
}

// Run is one stretch of loom.
type Run struct {
	From       string   `json:"from"`
	To         string   `json:"to"`
	LengthMM   float64  `json:"length_mm"`
	Wires      []string `json:"wires"`
	DiameterMM float64  `json:"diameter_mm"`
	CoverMM    float64  `json:"cover_mm"`
	BendMM     float64  `json:"bend_mm"`
	HoleMM     float64  `json:"hole_mm"`
	PassFrom   string   `json:"pass_from"`
	OutsideMM  float64  `json:"outside_mm"`
	GrommetMM  float64  `json:"grommet_mm"`
	ClearMM    float64  `json:"clear_mm"`
	Boot       string   `json:"boot"`
	Clamps     int      `json:"clamps"`
	Apart      float64  `json:"smallest_distance"`
	ApartBound float64  `json:"bound"`
}

// State is one solved state; floating terminals are left out of nodes.
type State struct {
	Name      string             `json:"name"`
	Nodes     map[string]float64 `json:"nodes"`
	AmpsFrom  map[string]float64 `json:"amps_from"`
	ResidualA float64            `json:"residual_a"`
	Floating  []string           `json:"floating"`
	Elements  []Element          `json:"elements"`
}

// Element is one element of the solved network.
type Element struct {
	Name  string  `json:"name"`
	Kind  string  `json:"kind"`
	A     string  `json:"a"`
	B     string  `json:"b"`
	Value float64 `json:"value"`
	Ohms  float64 `json:"ohms,omitempty"`
}

// Reel is the wire of one gauge, insulation and colour.
type Reel struct {
	Gauge   string     `json:"gauge"`
	Base    string     `json:"base"`
	Tracer  string     `json:"tracer"`
	NeedMM  float64    `json:"need_mm"`
	BuyMM   float64    `json:"buy_mm"`
	Cuts    [][]string `json:"cuts"` // by length that is cut from
	From    []Length   `json:"from"` // those lengths, in the same order
	WasteMM float64    `json:"waste_mm"`
	BoundMM float64    `json:"bound_mm"`
	CopperG float64    `json:"copper_g"`
}

// Length is one length of wire that is cut from.
type Length struct {
	WholeMM float64 `json:"whole_mm"`
	Shelf   bool    `json:"shelf"`
	OverMM  float64 `json:"over_mm"`
}

// Item is one line of the shopping list.
type Item struct {
	Group string  `json:"group"`
	What  string  `json:"what"`
	Count float64 `json:"count"`
	Unit  string  `json:"unit"`
	For   string  `json:"for"`
	Buy   float64 `json:"buy"`   // rounded up to whole packs, in the same unit
	Pack  float64 `json:"pack"`  // sold together; 0: one by one, and wire by its plan
	Price float64 `json:"price"` // of what is bought, in the description's currency; 0 where none is given
}

// Behind is what lies behind one converter in a state.
type Behind struct {
	Converter string  `json:"converter"`
	LoadsA    float64 `json:"loads_a"`
	AskedA    float64 `json:"asked_a"` // what the loads are described to take
	GivesA    float64 `json:"gives_a"`
	LimitA    float64 `json:"limit_a"`
}

// Budget is the sum of one state.
type Budget struct {
	State       string             `json:"state"`
	LoadsA      float64            `json:"loads_a"`
	Sources     map[string]float64 `json:"sources"`
	AlternatorA float64            `json:"alternator_a"`
	KeyOff      bool               `json:"key_off"`
	Days        float64            `json:"days"`
	Drains      []Drain            `json:"drains"`    // key off only
	Batteries   []Resting          `json:"batteries"` // key off only
	Behind      []Behind           `json:"behind,omitempty"`
}

// Drain is what is drawn through one fuse with everything at rest; fuse is
// empty where there is none.
type Drain struct {
	Fuse  string   `json:"fuse"`
	Amps  float64  `json:"amps"`
	Share float64  `json:"share"`
	Loads []string `json:"loads"`
}

// Resting is one battery with everything at rest.
type Resting struct {
	ID   string  `json:"id"`
	Amps float64 `json:"amps"`
	Days float64 `json:"days"`
}

// Colours is how well the colours can be told apart.
type Colours struct {
	Lookalikes       int     `json:"lookalikes"`
	SmallestDistance float64 `json:"smallest_distance"`
	Bound            float64 `json:"bound"`
}

// Finding is one finding.
type Finding struct {
	Slug     string             `json:"slug"`
	Level    string             `json:"level"`
	Message  string             `json:"message"`
	Detail   string             `json:"detail"`
	File     string             `json:"file,omitempty" csv:"-"` // of a place in an included file: that file
	Line     int                `json:"line"`
	Column   int                `json:"column"`
	Subjects []string           `json:"subjects"`
	Numbers  map[string]float64 `json:"numbers"`
	Because  string             `json:"because"` // of an accepted one: why
}

// Source is one source that decided something.
type Source struct {
	Key    string `json:"key"`
	Title  string `json:"title"`
	Status string `json:"status"`
}

// JSON writes the object, indented, with a line end.
func JSON(w io.Writer, h *harness.Harness, r *result.Result) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(Of(h, r))
}
