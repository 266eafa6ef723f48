package adversary

import (
	"strings"
	"testing"
)

// Sound descriptions follow from their seed alone, differ, and show every variety.
func TestGrow(t *testing.T) {
	seen := map[string]bool{}
	var words strings.Builder
	for seed := range uint64(300) {
		text := Grow(seed).Text()
		if text != Grow(seed).Text() || seen[text] {
			t.Fatalf("seed %d: the text follows from the seed, and from no other", seed)
		}
		seen[text] = true
		words.WriteString(text)
	}
	for _, word := range strings.Fields(`volts:_6 volts:_12 volts:_24 volts:_48 earth:_positive return:_wired kind:_isolator kind:_starter kind:_alternator
		kind:_flasher kind:_fuse-panel changeover:_true suppression:_diode suppression:_resistor kind:_connector kind:_splice kind:_diode kind:_gauge
		kind:_module works-above: kind:_horn kind:_capacitor behaves:_power BAT2: REG: CHG: gauge:_awg gauge:_sae Hazard Starter_solenoid zone:_boot`) {
		if word = strings.ReplaceAll(word, "_", " "); !strings.Contains(words.String(), word) {
			t.Errorf("no harness has %q", word)
		}
	}
}

// Every class breaks something, in one harness, and says what is right and why.
func TestBroken(t *testing.T) {
	list := Classes()
	if len(list) < 40 {
		t.Errorf("%d classes", len(list))
	}
	for seed := range uint64(len(list)) {
		b := Broken(seed)
		if b.Class != list[seed] || len(b.Slugs) == 0 || b.Danger == "" {
			t.Errorf("class %q: %+v", list[seed], b)
		}
		if b.Sketch.Text() != Broken(seed).Sketch.Text() {
			t.Errorf("class %q: the text follows from the seed", list[seed])
		}
	}
}

// A vehicle with its plus on the bodywork is the same one turned round.
func TestTurned(t *testing.T) {
	s := &Sketch{Volts: 6, Running: 7.1, Positive: true, FromGround: true,
		Parts:    []*Entry{{"BAT", Fields{{"kind", "battery"}}}, {"F1", Fields{{"kind", "fuse"}}}, {"L1", Fields{{"kind", "lamp"}}}, {"G1", Fields{{"kind", "ground"}}}},
		Circuits: []*Circuit{{"a", "A", "", []Leg{leg("BAT.+ F1/150 L1.+ L1.- G1")}}}}
	want := "[G1, L1.+, L1.-, F1, {to: BAT.-, length: 150 mm}]"
	if text := s.Text(); !strings.Contains(text, want) {
		t.Errorf("%s\nwanted %s", text, want)
	}
	s.FromGround = false
	want = "[BAT.-, {to: F1, length: 150 mm}, L1.-, L1.+, G1]"
	if text := s.Text(); !strings.Contains(text, want) {
		t.Errorf("%s\nwanted %s", text, want)
	}
}
