package diagnosis_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/loomfolio/samples/worked"
	"example.com/loomfolio/sizing/fault"
	"example.com/loomfolio/sizing/fault/diagnosis"
	"example.com/loomfolio/sizing/fault/tree"
	"example.com/loomfolio/sizing/harness"
	"example.com/loomfolio/sizing/proof"
	"example.com/loomfolio/sizing/result"
	"example.com/loomfolio/sizing/unit"
)

// patient is the first sample with its dictionary.
type patient struct {
	t    *testing.T
	h    *harness.Harness
	r    *result.Result
	book *fault.Book
}

func sample(t *testing.T) patient { return vehicle(t, "first") }

func vehicle(t *testing.T, name string) patient {
	h, r := worked.Named(t, name)
	book := fault.New(h, r)
	return patient{t, h, r, book}
}

func (p patient) on(load harness.ElementID, state int) bool {
	for _, l := range p.r.Loads {
		if l.Element == load {
			return slices.Contains(l.On, p.h.States[state].Name)
		}
	}
	return false
}

func (p patient) load(name string) harness.ElementID {
	for _, l := range p.r.Loads {
		if l.Name == name {
			return l.Element
		}
	}
	p.t.Fatalf("there is no load %s", name)
	return 0
}

func (p patient) point(name string) int {
	i := slices.IndexFunc(p.r.Proof.Points, func(x proof.Point) bool { return p.h.Terminals[x.At].Full == name })
	require.GreaterOrEqual(p.t, i, 0, name)
	return i
}

const night = 2 // fan, pump and both lamps on

// told is symptoms in the state night, "FAN dead PUMP live", and readings.
func (p patient) told(symptoms string, reads ...proof.Read) diagnosis.Told {
	var t diagnosis.Told
	words := strings.Fields(symptoms)
	for i := 0; i+1 < len(words); i += 2 {
		works := map[string]diagnosis.Works{"dead": diagnosis.Dead, "weak": diagnosis.Weak, "live": diagnosis.Live}[words[i+1]]
		t.Symptoms = append(t.Symptoms, diagnosis.Symptom{Load: p.load(words[i]), State: night, Works: works})
	}
	t.Reads = reads
	return t
}

func (p patient) read(point string, volts float64) proof.Read {
	return proof.Read{State: night, Point: p.point(point), Against: proof.None, Volts: unit.Volt(volts)}
}

func (p patient) of(told diagnosis.Told) proof.Standing {
	s := diagnosis.Of(diagnosis.Case{Harness: p.h, Points: p.r.Proof.Points, Book: p.book, On: p.on}, told, night)
	sum := 0.0
	for _, x := range s.Left {
		sum += x.Share
	}
	require.LessOrEqual(p.t, sum, 1+1e-9)
	return s
}

func (p patient) id(i int) string { return p.r.Proof.Faults[i].ID }

// share is what is left of a fault.
func (p patient) share(s proof.Standing, id string) float64 {
	for _, x := range s.Left {
		if p.id(x.Fault) == id {
			return x.Share
		}
	}
	return 0
}

// TestReadingsNarrow: the fan's ground end at full volts, and the fan dead: its return is open.
func TestReadingsNarrow(t *testing.T) {
	p := sample(t)
	before := p.of(p.told("FAN dead PUMP live"))
	after := p.of(p.told("FAN dead PUMP live", p.read("FAN.-", 14)))
	require.Greater(t, p.share(after, "3N:open"), 4*p.share(before, "3N:open"))
	require.Equal(t, "3N:open", p.id(after.Left[0].Fault))
}

// TestSilentAtFullVolts: a horn that gets its volts and stays silent is blamed itself.
func TestSilentAtFullVolts(t *testing.T) {
	p := vehicle(t, "kestrel")
	state := slices.IndexFunc(p.h.States, func(s harness.State) bool {
		return p.on(p.load("HORN1"), slices.IndexFunc(p.h.States, func(x harness.State) bool { return x.Name == s.Name }))
	})
	require.GreaterOrEqual(t, state, 0)
	told := diagnosis.Told{Symptoms: []diagnosis.Symptom{{Load: p.load("HORN1"), State: state, Works: diagnosis.Dead}}}
	for _, end := range []string{"HORN1.+", "HORN1.-"} {
		at := p.point(end)
		told.Reads = append(told.Reads, proof.Read{State: state, Point: at, Against: proof.None, Volts: unit.Volt(p.book.Sound(state).At(at))})
	}
	s := diagnosis.Of(diagnosis.Case{Harness: p.h, Points: p.r.Proof.Points, Book: p.book, On: p.on}, told, state)
	require.Equal(t, "HORN1:open", p.id(s.Left[0].Fault))
	t.Logf("%.2f, then %s %.2f", s.Left[0].Share, p.id(s.Left[1].Fault), s.Left[1].Share)
	require.Greater(t, s.Left[0].Share, 2*s.Left[1].Share)
}

// TestNothingIsStruckOut: one wrong reading sinks the fault, right ones bring it back, and the
// reading by which alone it fell is asked for again.
func TestNothingIsStruckOut(t *testing.T) {
	p := sample(t)
	wrong := p.read("FAN.-", 0) // the probe did not touch
	s := p.of(p.told("FAN dead PUMP live", wrong))
	sunk := p.share(s, "3N:open")
	require.Positive(t, sunk)
	s = p.of(p.told("FAN dead PUMP live", wrong, p.read("FAN.+", 14), p.read("K1.87", 14)))
	require.Greater(t, p.share(s, "3N:open"), sunk)
	s = p.of(p.told("FAN dead PUMP live", wrong, p.read("FAN.+", 14), p.read("FAN.-", 14)))
	require.Equal(t, "3N:open", p.id(s.Left[0].Fault))
}

// TestAgain: a battery at no volts while all else works is a reading to be taken again.
func TestAgain(t *testing.T) {
	p := sample(t)
	told := p.told("FAN dead PUMP live L1 live L2 live", p.read("K1.87", 14), p.read("FAN.+", 0), p.read("FAN.-", 14))
	s := p.of(told)
	require.NotNil(t, s.Again)
	require.Equal(t, p.point("FAN.+"), s.Again.Point)
}

// TestTwoAtOnce: nothing single leaves the fan and one lamp dead, pump and the other lamp live.
func TestTwoAtOnce(t *testing.T) {
	p := sample(t)
	s := p.of(p.told("FAN dead L1 dead PUMP live L2 live"))
	require.NotEmpty(t, s.Odd)
	require.NotNil(t, s.Both)
	for _, f := range []int{s.Both.A, s.Both.B} {
		seen := p.book.In(night, f)
		require.True(t, slices.Contains(seen.Dead, p.load("FAN")) != slices.Contains(seen.Dead, p.load("L1")), p.id(f))
	}
	s = p.of(p.told("FAN dead PUMP live"))
	require.Empty(t, s.Odd)
	require.Nil(t, s.Both, "one fault explains it")
}

// TestSound: readings of a sound vehicle accuse nobody.
func TestSound(t *testing.T) {
	p := sample(t)
	sound := p.book.Sound(night)
	s := p.of(p.told("FAN live", p.read("FAN.+", sound.At(p.point("FAN.+")))))
	require.True(t, s.Sound)
	require.Empty(t, s.Odd)
	require.False(t, p.of(p.told("FAN dead")).Sound)
}

// TestComesAndGoes: a good reading clears a contact that comes and goes less than one that is
// always open.
func TestComesAndGoes(t *testing.T) {
	p := sample(t)
	good := p.told("FAN dead PUMP live", p.read("FAN.+", 14))
	before := p.share(p.of(p.told("FAN dead PUMP live")), "3C:open")
	steady := p.share(p.of(good), "3C:open") / before
	good.Sometimes = true
	coming := p.share(p.of(good), "3C:open") / before
	require.Greater(t, coming, 3*steady)
}

// TestWhatContradicts is said: dead and live, off at all, two readings, more than any source.
func TestWhatContradicts(t *testing.T) {
	p := sample(t)
	for says, told := range map[string]diagnosis.Told{
		"FAN is told to be both dead and live":                                          p.told("FAN dead FAN live"),
		"FAN.+ is told to read both 14 V and 0":                                         p.told("FAN dead", p.read("FAN.+", 14), p.read("FAN.+", 0)),
		"-14 V at FAN.+ is what it reads in a sound vehicle with red and black swapped": p.told("FAN dead", p.read("FAN.+", -14)),
		"24 V at FAN.+ is more than any source":                                         p.told("FAN dead", p.read("FAN.+", 24)),
	} {
		wrong := p.of(told).Wrong
		require.Len(t, wrong, 1, says)
		require.Contains(t, wrong[0], says)
	}
	off := p.told("FAN dead")
	off.Symptoms[0].State = 0
	require.Contains(t, p.of(off).Wrong[0], "FAN is off in state parked")
	require.Empty(t, p.of(p.told("FAN dead PUMP live", p.read("FAN.+", 14))).Wrong)
}

// TestBlind: 60 faults hidden by lot, each found by the measurements that are asked for, one
// in ten readings of the first being wrong; the class is named first or second.
func TestBlind(t *testing.T) {
	p := sample(t)
	r := rand.New(rand.NewPCG(8, 15))
	asked, found, tried := 0, 0, 0
	for tried < 60 {
		load := p.load([]string{"FAN", "PUMP", "L1", "L2"}[r.IntN(4)])
		suspects := p.book.Suspects(load, night)
		hidden := suspects[r.IntN(len(suspects))]
		if f := p.r.Proof.Faults[hidden]; f.Costs > 0 && f.Costs < .5 {
			continue // nobody calls that dead
		}
		tried++
		n, rank := p.search(r, load, hidden)
		asked += n
		if rank < 2 {
			found++
		}
	}
	t.Logf("%d of 60 named first or second, after %.1f measurements on average", found, float64(asked)/60)
	require.GreaterOrEqual(t, found, 54)
}

// search takes up to ten measurements as they are asked for and gives how many, and at which
// place the hidden fault's class is.
func (p patient) search(r *rand.Rand, load harness.ElementID, hidden int) (asked, rank int) {
	seen := p.book.In(night, hidden)
	told := diagnosis.Told{Symptoms: []diagnosis.Symptom{{Load: load, State: night, Works: diagnosis.Dead}}}
	s := p.of(told)
	for s.Next != nil && len(told.Reads) < 10 {
		q := s.Next.Probe
		x := proof.Read{State: night, Point: q.Point, Against: q.Against}
		v := seen.At(q.Point)
		if q.Against != proof.None {
			v = tree.Across(v, seen.At(q.Against))
		}
		v = tree.Across(v, 0)
		if len(told.Reads) == 0 && r.IntN(10) == 0 {
			v = 0
		}
		x.Volts = unit.Volt(math.Round((v+(2*r.Float64()-1)*(.005*math.Abs(v)+.02))*100) / 100)
		told.Reads = append(told.Reads, x)
		s = p.of(told)
	}
	return len(told.Reads), p.place(s, hidden)
}

// place is at which place a fault's class is, by shares.
func (p patient) place(s proof.Standing, hidden int) int {
	share, mine := map[int]float64{}, -1
	for _, x := range s.Left {
		share[x.Class] += x.Share
		if x.Fault == hidden || p.r.Proof.Faults[x.Fault].Element == p.r.Proof.Faults[hidden].Element && p.r.Proof.Faults[hidden].Costs > 0 && mine < 0 {
			mine = x.Class
		}
	}
	if mine < 0 {
		return len(share)
	}
	before := 0
	for _, w := range share {
		if w > share[mine]+1e-9 {
			before++
		}
	}
	return before
}
