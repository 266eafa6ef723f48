package refuse

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestTable: the table reads, and each of its words gets what its row says.
func TestTable(t *testing.T) {
	all, err := readRows(wordList)
	require.NoError(t, err)
	require.Greater(t, len(all), 319, "those of the list, and our own")
	spoken := map[string]bool{}
	for _, r := range all {
		spoken[r[colLanguage]] = true
		require.NotEmpty(t, languages[r[colLanguage]], r)
		require.Contains(t, []string{refuse, advise, pass, byFigures, leave}, r[colAction], r)
		require.Contains(t, gravity, Subject(r[colSubject]), r)
		require.Contains(t, append(gravity, ""), Subject(r[colInstead]), r)
		require.Contains(t, []string{"from memory", "common practice", "read"}, r[colStatus], r)
		require.Equal(t, r[colAction] == refuse || r[colAction] == advise || r[colAction] == pass, r[colMatch] != "", r)
		require.Equal(t, r[colStatus] == "read", r[colSource] != "", r)
		v, ok := Read(Name{Text: r[colWord]})
		switch r[colAction] {
		case pass:
			require.False(t, ok, "%v gives %+v", r, v)
		case refuse:
			if r[colWord] == "secteur" { // an area of the vehicle as well: only what stands beside it tells
				continue
			}
			require.True(t, ok && v.Refused, "%v gives %+v", r, v)
			require.Equal(t, Subject(r[colSubject]) == Restraint, v.Subject == Restraint, "%v gives %+v", r, v)
		case advise:
			require.True(t, ok && !v.Refused, "%v gives %+v", r, v)
		case byFigures:
			high := strings.HasPrefix(r[colWord], "48") || !strings.Contains(r[colWord], "0 V")
			require.Equal(t, !high, ok, "%v gives %+v", r, v)
		}
	}
	require.Len(t, spoken, 9)
}

func TestRefusedNames(t *testing.T) {
	n := eachName(t, refused, func(subject Subject, text string) {
		v, ok := Read(Name{Text: text})
		require.True(t, ok && v.Refused, "%q passes: %+v", text, v)
		if subject != v.Subject && !(subject == HighVoltage && v.Subject == Mains) {
			t.Errorf("%q is %s, not %s", text, v.Subject, subject)
		}
	})
	require.Greater(t, n, 60)
}

// TestFoundStretch: what a message quotes lies within the name and is what tells.
func TestFoundStretch(t *testing.T) {
	for text, want := range map[string]string{
		"Front S.R.S. lamp": "S.R.S", "Front air\u00adbag lamp": "air\u00adbag", "dash ｴｱﾊﾞｯｸﾞ": "ｴｱﾊﾞｯｸﾞ",
		"feed of pack, 400 V": "400 V", "Rückhaltesystem 2": "Rückhaltesystem",
	} {
		v, ok := Read(Name{Text: text})
		require.True(t, ok, text)
		require.Equal(t, want, v.Found)
	}
	_, ok := Read(Name{Text: "a\u200bi\u200dr\u2060b\u00ada\ufe0fg"})
	require.True(t, ok, "letters without width hide nothing")
}

// eachName reads a list of names: a subject, then the name.
func eachName(t *testing.T, list string, do func(subject Subject, text string)) int {
	n := 0
	for _, line := range strings.Split(strings.TrimSpace(list), "\n") {
		subject, text := Subject(strings.TrimSpace(line[:14])), strings.TrimSpace(line[14:])
		do(subject, text)
		n++
	}
	return n
}

func TestSoundNamesPass(t *testing.T) {
	n := 0
	for _, text := range strings.Split(strings.TrimSpace(sound), "\n") {
		v, ok := Read(Name{Text: text})
		require.False(t, ok, "%q gives %+v", text, v)
		n++
	}
	require.Greater(t, n, 60)
}

func TestAdvisedNames(t *testing.T) {
	eachName(t, advised, func(subject Subject, text string) {
		v, ok := Read(Name{Text: text})
		require.True(t, ok, text)
		require.False(t, v.Refused, "%q: %+v", text, v)
		require.Equal(t, subject, v.Subject, "%q: %+v", text, v)
	})
}

// TestAbbreviationsAreSpeltOut: what a name beside it spells is what is meant.
func TestAbbreviationsAreSpeltOut(t *testing.T) {
	for _, c := range []struct {
		short, beside string
		refused       bool
	}{
		{"SIR", "Alarm siren", false}, {"SIR", "", true}, {"SIR", "Front module", true},
		{"HV", "Heater valve", false}, {"HV", "Front lamp", true}, {"HV1", "Heater valve 1", false},
		{"OCS", "Oil cooler switch", false}, {"ORC", "Orchestra horn", false}, {"RCM", "Rear camera module", false},
		{"RCM", "Module, rear", true},
		{"SIR", "Side repeater right", false}, {"SIR", "Right side indicator", false}, {"HV", "Hauptverteiler", false}, {"OCS", "Occupant cushion sensor", true}, {"SRS", "Side repeater switch", true},
	} {
		v, ok := Read(Name{Text: c.short, Beside: []string{c.beside}})
		require.Equal(t, c.refused, ok && v.Refused, "%+v", c)
	}
	_, ok := Read(Name{Text: "OCS (oil cooler switch)"})
	require.False(t, ok)
}

// TestWhatIsNoCircuit: a vehicle's name has letters of its own, and a capacitor's figure
// is what it stands.
func TestWhatIsNoCircuit(t *testing.T) {
	_, ok := Read(Name{Text: "Kestrel HV 400 V", Model: true})
	require.False(t, ok)
	_, ok = Read(Name{Text: "Kestrel airbag loom", Model: true})
	require.True(t, ok)
	_, ok = Read(Name{Text: "Condenser 0.2 uF 400 V", Rated: true})
	require.False(t, ok)
	_, ok = Read(Name{Text: "Traction capacitor 400 V", Rated: true})
	require.True(t, ok)
}

// TestGravestFirst: one name, one verdict.
func TestGravestFirst(t *testing.T) {
	v, _ := Read(Name{Text: "Inverter for airbag and mains, 400 V"})
	require.Equal(t, Restraint, v.Subject)
	v, _ = Read(Name{Text: "Inverter and mains socket"})
	require.Equal(t, Mains, v.Subject)
}

// TestDisguises: every word that is refused is so with any of the usual disguises.
func TestDisguises(t *testing.T) {
	disguises := map[string]func(string) string{
		"capitals":      strings.ToUpper,
		"soft hyphens":  func(s string) string { return strings.Join(strings.Split(s, ""), "\u00ad") },
		"no width":      func(s string) string { return strings.Join(strings.Split(s, ""), "\u200b") },
		"underscores":   func(s string) string { return "x1_" + strings.ReplaceAll(s, " ", "_") + "_2" },
		"look-alikes":   strings.NewReplacer("a", "а", "e", "е", "o", "о", "A", "Α", "S", "Ѕ", "O", "О").Replace,
		"number behind": func(s string) string { return s + " 2" },
		"words around":  func(s string) string { return "front " + s + " left" },
	}
	for _, r := range rows() {
		if r[colAction] != refuse || r[colWord] == "secteur" {
			continue
		}
		for name, change := range disguises {
			if strings.ToUpper(r[colWord]) == r[colWord] && name == "capitals" {
				continue
			}
			text := change(r[colWord])
			v, ok := Read(Name{Text: text})
			require.True(t, ok && v.Refused, "%s of %q, %q: %+v", name, r[colWord], text, v)
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, s := range []string{"S.R.S.", "pack 400 V", "ｴｱﾊﾞｯｸﾞ", "\u00ad", "ßÆ", "12/230 V~", "подушек безопасности", "\xff a\u0301irbag"} {
		f.Add(s, s)
	}
	f.Fuzz(func(t *testing.T, text, beside string) {
		v, ok := Read(Name{Text: text, Beside: []string{beside}})
		if ok && (v.Found == "" || v.Word == "") {
			t.Errorf("%q: %+v", text, v)
		}
		again, _ := Read(Name{Text: text, Beside: []string{beside}})
		if again != v {
			t.Errorf("%q: %+v, then %+v", text, v, again)
		}
	})
}

func BenchmarkRead(b *testing.B) {
	for i := range b.N {
		Read(Name{Text: fmt.Sprintf("Rear fog lamp relay %d", i), Beside: []string{"K7"}})
	}
}
