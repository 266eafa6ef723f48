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

// refused are names of what is not described, with the subject; inflected forms and spellings are from memory.
const refused = `
restraint     Airbag
restraint     driver air-bag module
restraint     Passenger air  bag lamp
restraint     AIR BAGS
restraint     Frontairbag links
restraint     Seitenairbag rechts
restraint     a.i.r.b.a.g feed
restraint     S.R.S. feed
restraint     S R S
restraint     S-R-S lamp
restraint     SRS1
restraint     dash_srs_feed
restraint     SIR module
restraint     S.I.R.
restraint     ORC
restraint     Module OCS rear
restraint     RCM
restraint     Seat belt tensioner
restraint     Left seatbelt pretensioner
restraint     Belt pre-tensioners
restraint     belt tensioner driver
restraint     Seat belt pretensioner left
restraint     squib 2
restraint     Pyrotechnic battery cut-off
restraint     pyro fuse
restraint     Crash sensors front
restraint     knee airbag
restraint     Supplemental Inflatable Restraint
restraint     Аirbаg
restraint     ΑΙRΒΑG
restraint     ＡＩＲＢＡＧ
restraint     ａｉｒ ｂａｇ
restraint     𝐚𝐢𝐫𝐛𝐚𝐠
restraint     Ⓢ Ⓡ Ⓢ
restraint     ЅRЅ
restraint     aırbag
restraint     ᴀɪʀʙᴀɢ
restraint     Gurtstraffer vorn
restraint     GURTSTRAFFER
restraint     Rueckhaltesystem
restraint     Ruckhaltesystem
restraint     Zündpille
restraint     Zuendpillen
restraint     ausfahrbarer Ueberrollbuegel
restraint     Beifahrerairbagabschaltung
restraint     prétensionneurs
restraint     pretensionneur avant
restraint     coussins gonflables
restraint     système de retenue
restraint     SYSTEME DE RETENUE
restraint     bolsas de aire
restraint     pretensores del cinturón
restraint     cojin inflable
restraint     cuscini gonfiabili
restraint     pretensionatori cinture
restraint     veiligheidsgordelspanner
restraint     gordijnairbags
restraint     poduszkę powietrzną
restraint     poduszek powietrznych
restraint     poduszce powietrznej
restraint     poduszki kierowcy
restraint     napinacze pasów
restraint     napinaczy pasow
restraint     kurtyny powietrzne
restraint     zapłonnika poduszki
restraint     подушки безопасности
restraint     подушек безопасности
restraint     Модуль подушкой безопасности
restraint     подушка водителя
restraint     преднатяжителя ремня
restraint     натяжитель ремня безопасности
restraint     пиропатроны
restraint     шторки безопасности
restraint     блок СНПБ
restraint     エアバッグ
restraint     エアバック
restraint     ｴｱﾊﾞｯｸﾞ
restraint     ｴｱﾊﾞｯｸユニット
restraint     エアーバッグ
restraint     えあばっぐ
restraint     運転席エアバッグ配線
restraint     SRSユニット
restraint     プリテンショナ
restraint     ﾌﾟﾘﾃﾝｼｮﾅｰ
restraint     点火具
high voltage  HV traction battery 400 V
high voltage  High-voltage loom
high voltage  traction supply
high voltage  HV junction
high voltage  H.V. cable
high voltage  HVIL
high voltage  orange cable front
high voltage  charge port
high voltage  CCS inlet pins
high voltage  CHAdeMO
high voltage  drive batteries
high voltage  pack 400 V
high voltage  pack 400V
high voltage  pack ４００Ｖ
high voltage  feed, 48 V AC
high voltage  60 V feed
high voltage  inverter output 230 V
high voltage  220 В
high voltage  400 volts
high voltage  230-V-Dose
restraint     srsUnit
restraint     sacs gonflables
restraint     Gasgenerator links
high voltage  110VAC feed
high voltage  Hochvoltkabel
high voltage  HV-Batterie
high voltage  Antriebsbatterien
high voltage  batterie de traction
high voltage  baterías de tracción
high voltage  batterie di trazione
high voltage  tractiebatterijen
high voltage  akumulatora trakcyjnego
high voltage  тяговой батареи
high voltage  тяговая аккумуляторная батарея
high voltage  высоковольтной системы
high voltage  駆動用バッテリー
high voltage  高電圧ケーブル
mains         mains socket 230 V
mains         Mains
mains         mains charger inlet
mains         shore inlet 230 V
mains         Shore power
mains         Hook-up
mains         Landstromanschluss
mains         Netzspannung
mains         prise secteur
mains         walstroom
mains         zasilanie sieciowe
mains         сетевое напряжение
`

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

// sound are names of what a vehicle has, most of them with a word inside that would be
// refused if it stood alone; the traps are those of the list of words and our own.
const sound = `
HVAC blower
HVAC
Alarm siren
Siren
Every lamp
Reverse lamp
EV
Cigar lighter
Zigarettenanzünder
Zigarettenanzuender
Zündung
Zündschloss
Anzünder hinten
allumeur
allume-cigare
accendisigari
accenditore
encendedor
прикуриватель
Ontsteking
aansteker
poduszka silnika
poduszki silnika
подушка двигателя
подушки двигателя
подушка опоры двигателя
poduszka powietrzna zawieszenia
napinacz paska
napinacz paska alternatora
натяжитель ремня
Drive belt tensioner
Fan belt tensioner
Alternator belt tensioner
Überrollkäfig
Roll cage lamp
Roll bar lamp
Inertia switch
Inertia fuel switch
Crash fuel cut-off
Igniter
Ignition module
Tyre inflator
Repair bag lamp
Stair bag
Chair bag heater
Child restraint lamp
Traction control switch
Traction control
traction avant
USB charge port
USB charging port
Phone charge port
prise de recharge USB
Trailer hook-up
Hook-up wire spare
Main fuse
Main beam
Main switch
Mainspring
12 V feed
48 V feed
24 V AC sensor
13,8 V supply
3.0 V6 engine loom
V8 engine
Solar panel 45 V
LM6012V
6012 Volvo-type plug
BMS
Contactor
Pre-charge relay
PTC heater
DC-DC converter
convertidor
On-board charger
Startergenerator
Service lamp
Service hatch
Pilot lamp
Orange lamp
Isolator
Sector lamp
secteur avant
coussin chauffant
Seat cushion heater
Gas heater
Gas generator
Ladebuchse für Telefon
Charging socket
Gas sensor
Generator
Belt buckle lamp
Seat belt lamp
Seat belt switch
Gurtschloss
Sensor, rear
Ros. lamp
sir
orc
Air suspension bag valve
Air bag suspension compressor
Air horn
Bag hook lamp
Fairing lamp
ハザードランプ
エアコン
バッテリー
ヘッドランプ
メインバッテリー
ハイブリッド
燃料高圧ポンプ
Bordnetzspannung
Anhänger-Trennstecker
Spannungsregler
contacteur de frein
retenue de porte
valvola di ritenuta
spanner hook
Tensioner lamp
Motor mount
Rollover valve
Fuel tank sender
`

func TestSoundNamesPass(t *testing.T) {
	n := 0
	for _, text := range strings.Split(strings.TrimSpace(sound), "\n") {
		v, ok := Read(Name{Text: text})
		require.False(t, ok, "%q gives %+v", text, v)
		n++
	}
	require.Greater(t, n, 60)
}

// advised are names that stay, with what is said about them.
const advised = `
low side      Inverter
low side      Inverter 230 V
low side      Inverter 12 V / 230 V, 1700 W
low side      Wechselrichter
low side      onduleur
low side      omvormer
low side      przetwornica 12/230 V
low side      インバーター
low side      инвертор
low side      Mains charger, 12 V side
low side      Shore charger
low side      Shore power charger
low side      Landstrom-Ladegerät
low side      Battery charger 230 V
spark         High tension lead
spark         HT lead
spark         spark plug lead
spark         Ignition coil 20 kV
spark         high-voltage ignition lead
spark         fils haute tension
spark         przewody wysokiego napięcia
spark         высоковольтные провода
spark         高圧コード
spark         xenon ballast
restraint     Clock spring
restraint     Wickelfeder
restraint     contacteur tournant
restraint     klokveer
restraint     taśma zwijana
restraint     шлейф руля
restraint     SDM
restraint     ROS
restraint     poduszka
restraint     Impact sensor
`

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
