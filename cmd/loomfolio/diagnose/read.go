// Package diagnose reads what somebody saw and measured, and prints what is made of it.
//
// In: words from a command line, the model and its results. Out: the same as a
// diagnosis.Told, or an error that says what would be right; and of a standing, text for a
// terminal of 80 columns or one JSON object.
package diagnose

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/loomfolio/sizing/fault/diagnosis"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/source"
	"example.com/loomfolio/sizing/testplan/point"
	"example.com/loomfolio/sizing/unit"
)

// Seen is what somebody saw and measured, as written: names of loads with commas between,
// readings as POINT=VOLTS or RED/BLACK=VOLTS.
type Seen struct {
	Dead, Weak, Live, Reads string
	State                   string // "" where none is named
	Sometimes               bool
}

// Told is Seen with its names known.
type Told struct {
	diagnosis.Told
	State int // in which the readings were taken, and the next one is to be
	Given bool
	On    func(load harness.ElementID, state int) bool
	Notes []string // how what was written is understood
}

// Unknown is an error about a name, with what would be right.
type Unknown struct{ says, Hint string }

func (u *Unknown) Error() string { return u.says }

// reader looks names up.
type reader struct {
	h     *harness.Harness
	r     *result.Result
	on    map[harness.ElementID][]bool // by load and state
	state int                          // that is named, None where none is
	told  Told
}

// Read makes of the words what they mean. The error is an *Unknown.
func Read(h *harness.Harness, r *result.Result, seen Seen) (Told, error) {
	x := &reader{h: h, r: r, on: onIn(h, r), state: harness.None}
	x.told.Sometimes, x.told.On = seen.Sometimes, x.isOn
	if err := x.named(seen.State); err != nil {
		return Told{}, err
	}
	for _, s := range []struct {
		names string
		works diagnosis.Works
	}{{seen.Dead, diagnosis.Dead}, {seen.Weak, diagnosis.Weak}, {seen.Live, diagnosis.Live}} {
		if err := x.loads(s.names, s.works); err != nil {
			return Told{}, err
		}
	}
	x.settle()
	return x.told, x.reads(seen.Reads)
}

// onIn is by load and state whether it works when all is well.
func onIn(h *harness.Harness, r *result.Result) map[harness.ElementID][]bool {
	on := map[harness.ElementID][]bool{}
	for _, l := range r.Loads {
		on[l.Element] = make([]bool, len(h.States))
		for i, s := range h.States {
			on[l.Element][i] = slices.Contains(l.On, s.Name)
		}
	}
	return on
}

func (x *reader) isOn(load harness.ElementID, state int) bool {
	list := x.on[load]
	return list != nil && list[state]
}

// named finds the state that is named, if one is.
func (x *reader) named(state string) error {
	if state == "" {
		return nil
	}
	var names []string
	for i, s := range x.h.States {
		if s.Name == state {
			x.state, x.told.Given = i, true
			return nil
		}
		names = append(names, s.Name)
	}
	return unknown(fmt.Sprintf("there is no state %q", state), state, names, "states: ")
}

// unknown is an error about a word, with the name that was meant or all there are.
func unknown(says, word string, names []string, list string) error {
	if near := source.Nearest(word, names); near != "" {
		return &Unknown{says, "did you mean " + near + "?"}
	}
	return &Unknown{says, list + strings.Join(names, ", ")}
}

// loads reads names of loads; a part's name is all of its loads.
func (x *reader) loads(names string, works diagnosis.Works) error {
	for _, name := range words(names) {
		found := x.load(name)
		if len(found) == 0 {
			return unknown(fmt.Sprintf("there is no load %q", name), name, x.loadNames(), "loads: ")
		}
		for _, id := range found {
			x.told.Symptoms = append(x.told.Symptoms, diagnosis.Symptom{Load: id, Works: works})
		}
	}
	return nil
}

// words are what stands between commas.
func words(list string) []string {
	var out []string
	for _, w := range strings.Split(list, ",") {
		if w = strings.TrimSpace(w); w != "" {
			out = append(out, w)
		}
	}
	return out
}

// load finds the loads of a name; of a part those that the state turns on, all where none is.
func (x *reader) load(name string) []harness.ElementID {
	var all, on []harness.ElementID
	for _, l := range x.r.Loads {
		if l.Name == name {
			return []harness.ElementID{l.Element}
		}
		if x.h.Parts[x.h.Elements[l.Element].Part].Ref == name {
			all = append(all, l.Element)
			if x.state != harness.None && x.isOn(l.Element, x.state) {
				on = append(on, l.Element)
			}
		}
	}
	if len(on) > 0 {
		return on
	}
	return all
}

func (x *reader) loadNames() []string {
	var names []string
	for _, l := range x.r.Loads {
		names = append(names, l.Name)
	}
	return names
}

// settle finds the state of each symptom: the one that is named; else that in which the
// first load that does not work is measured, if all that was told works there, else that
// in which most of them do; a load that is off there is looked at in a state of its own.
func (x *reader) settle() {
	x.told.State = x.state
	if x.state == harness.None {
		x.told.State = x.best()
	}
	for i := range x.told.Symptoms {
		s := &x.told.Symptoms[i]
		s.State = x.told.State
		if x.state == harness.None && !x.isOn(s.Load, s.State) {
			if own := x.own(s.Load); own != harness.None {
				s.State = own
			}
		}
	}
}

// best is the state in which most of the loads that were told work; of several the one in
// which the first that does not is measured, then the first with the engine off, then the first.
func (x *reader) best() int {
	first := harness.None
	for _, s := range x.told.Symptoms {
		if first == harness.None && s.Works != diagnosis.Live {
			first = x.own(s.Load)
		}
	}
	best, most := 0, -1
	for i, st := range x.h.States {
		n := 8 * x.working(i)
		if st.Engine == harness.EngineOff {
			n++
		}
		if i == first {
			n += 4
		}
		if n > most {
			best, most = i, n
		}
	}
	return best
}

// working counts the loads told of, or all where none is, that a state turns on.
func (x *reader) working(state int) int {
	n := 0
	for _, s := range x.told.Symptoms {
		if x.isOn(s.Load, state) {
			n++
		}
	}
	if len(x.told.Symptoms) == 0 {
		for _, l := range x.r.Loads {
			if x.isOn(l.Element, state) {
				n++
			}
		}
	}
	return n
}

// own is the state in which a load is measured.
func (x *reader) own(load harness.ElementID) int {
	for i, l := range x.r.Loads {
		if l.Element == load {
			return point.StateOf(x.h, x.r.Loads, i)
		}
	}
	return harness.None
}

// reads reads the readings.
func (x *reader) reads(list string) error {
	for _, text := range readings(list) {
		at, volts, found := strings.Cut(text, "=")
		if !found {
			return &Unknown{fmt.Sprintf("%q is no reading", text), "write POINT=VOLTS, for example FAN.+=10.8, or RED/BLACK=VOLTS across two points"}
		}
		r := proof.Read{State: x.told.State, Against: proof.None}
		v, err := voltsOf(volts)
		if err != nil {
			return &Unknown{fmt.Sprintf("%q: %v", text, err), "write volts with the meter's sign, for example FAN.+=10.8 or G3=-0.2"}
		}
		r.Volts = v
		red, black, two := strings.Cut(at, "/")
		if r.Point, err = x.point(red); err != nil {
			return err
		}
		if two {
			if r.Against, err = x.point(black); err != nil {
				return err
			}
		}
		x.told.Reads = append(x.told.Reads, r)
	}
	return nil
}

// readings are parted at commas, but not at the comma of a decimal figure.
func readings(list string) []string {
	var out []string
	for _, piece := range words(list) {
		if n := len(out); n > 0 && !strings.Contains(piece, "=") && strings.Contains(out[n-1], "=") {
			out[n-1] += "." + piece
			continue
		}
		out = append(out, piece)
	}
	return out
}

// voltsOf reads what a meter shows: "12.4", "10.8V", "120 mV", "-0.2".
func voltsOf(text string) (unit.Volt, error) {
	t, size := strings.TrimSpace(text), 1.0
	for _, u := range []struct {
		ends string
		size float64
	}{{"mV", 1e-3}, {"V", 1}, {"v", 1}} {
		if rest, ok := strings.CutSuffix(t, u.ends); ok {
			t, size = strings.TrimSpace(rest), u.size
			break
		}
	}
	v, err := strconv.ParseFloat(strings.Replace(t, "−", "-", 1), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%q is no voltage", strings.TrimSpace(text))
	}
	return unit.Volt(v * size), nil
}

// point finds a test point by its terminal's name, or by its part's where that has only one;
// a cavity without a side is its feed half.
func (x *reader) point(name string) (int, error) {
	name = strings.TrimSpace(name)
	var of []int
	for i, p := range x.r.Proof.Points {
		t := x.h.Terminals[p.At]
		switch {
		case t.Full == name:
			return i, nil
		case t.Full == name+".in":
			x.told.Notes = append(x.told.Notes, fmt.Sprintf("%s is taken as %s, its feed half; the load half is %s.out", name, t.Full, name))
			return i, nil
		case x.h.Parts[t.Part].Ref == name:
			of = append(of, i)
		}
	}
	if len(of) == 1 {
		return of[0], nil
	}
	return 0, x.unknownPoint(name, of)
}

// unknownPoint says which points there are: of the part that is named, else the nearest.
func (x *reader) unknownPoint(name string, of []int) error {
	var names []string
	for _, i := range of {
		names = append(names, x.h.Terminals[x.r.Proof.Points[i].At].Full)
	}
	if len(of) > 0 {
		return &Unknown{fmt.Sprintf("%s has more than one test point", name), "say which: " + strings.Join(names, ", ")}
	}
	for _, p := range x.r.Proof.Points {
		names = append(names, x.h.Terminals[p.At].Full)
	}
	if near := source.Nearest(name, names); near != "" {
		return &Unknown{fmt.Sprintf("there is no test point %q", name), "did you mean " + near + "?"}
	}
	return &Unknown{fmt.Sprintf("there is no test point %q", name), "points are terminals on which a wire ends, for example " + strings.Join(names[:min(3, len(names))], ", ")}
}
