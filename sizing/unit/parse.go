//lint:file-ignore ST1005 These errors are printed as whole sentences behind a place in the file.

package unit

import (
	"errors"
	"fmt"
	"math"
	"strings"
)

// measure describes one kind of quantity: what it is called, which units are
// read with their size in the inner unit, and which values are believable.
type measure struct {
	what   string             // "a current"
	fits   string             // "A or mA, for example 20 A"
	size   map[string]float64 // by unit as written, lower case but where that would mix milli and mega
	least  float64            // smallest believable value
	most   float64            // largest believable value
	zero   bool               // 0 is allowed
	ranges string             // the believable range in words
}

// Errors are full sentences: what is wrong, then what fits.
func (m *measure) fault(format string, args ...any) error {
	return fmt.Errorf("%s; this is %s, in %s.", fmt.Sprintf(format, args...), m.what, m.fits)
}

// parse reads a number and one unit.
func (m *measure) parse(text string) (float64, error) {
	t := plain(text)
	if err := m.refuseBoth(t); err != nil {
		return 0, err
	}
	value, rest, fault := cutNumber(t)
	if fault != "" {
		return 0, m.fault("%s", fault)
	}
	size, err := m.unit(text, rest)
	if err != nil {
		return 0, err
	}
	return m.within(text, value*size)
}

// decimal joins a number's two parts without needless zeros.
func decimal(whole, part string) string {
	return strings.TrimSuffix(whole+"."+strings.TrimRight(part, "0"), ".")
}

// refuseBoth catches a pair such as 55/60, which is two values in one.
func (m *measure) refuseBoth(text string) error {
	for i := 1; i+1 < len(text); i++ {
		if text[i] == '/' && digit(text[i-1]) && digit(text[i+1]) {
			return m.fault("%q holds two values or a fraction where one number belongs", text)
		}
	}
	return nil
}

// unit finds the size of the unit that follows a number.
func (m *measure) unit(text, rest string) (float64, error) {
	if rest == "" {
		return 0, m.fault("%q has no unit", strings.TrimSpace(text))
	}
	if size, ok := m.lookup(rest); ok {
		return size, nil
	}
	return 0, m.fault("%q: the unit %q does not fit", strings.TrimSpace(text), rest)
}

// lookup finds a unit as written; capitals are forgiven except that M never
// stands for milli.
func (m *measure) lookup(word string) (float64, bool) {
	if size, ok := m.size[word]; ok {
		return size, true
	}
	for _, latin := range latinUnits(word) {
		if latin == word {
			continue
		}
		if size, ok := m.lookup(latin); ok {
			return size, true
		}
	}
	if strings.HasPrefix(word, "M") {
		return 0, false
	}
	size, ok := m.size[strings.ToLower(word)]
	return size, ok
}

func (m *measure) within(text string, value float64) (float64, error) {
	text = strings.TrimSpace(text)
	switch {
	case value == 0 && m.zero:
		return 0, nil
	case value == 0:
		return 0, m.fault("%q is nothing at all (leave the key out when there is none)", text)
	case !(value >= m.least && value <= m.most):
		return 0, m.fault("%q is out of the believable range (%s)", text, m.ranges)
	}
	return value, nil
}

// circularMil is the area in mm2 of a circle of a thousandth of an inch across.
const circularMil = math.Pi / 4 * 0.0254 * 0.0254

// The quantities that are read. The ranges are common practice, no source:
// they only keep out slips of the pen such as a missing decimal point.
var (
	current = measure{what: "a current", fits: "A or mA, for example 20 A or 140 mA",
		size:  map[string]float64{"a": 1, "amp": 1, "amps": 1, "ampere": 1, "amperes": 1, "adc": 1, "a dc": 1, "ma": 1e-3, "milliamp": 1e-3, "milliamps": 1e-3, "ka": 1e3},
		least: 1e-6, most: 5000, ranges: "up to 5000 A"}
	voltage = measure{what: "a voltage", fits: "V or mV, for example 14.2 V",
		size:  map[string]float64{"v": 1, "volt": 1, "volts": 1, "vdc": 1, "mv": 1e-3, "kv": 1e3},
		least: 1e-6, most: 1e5, ranges: "up to 100 kV"}
	resistance = measure{what: "a resistance", fits: "ohm, mohm or kohm, for example 85 ohm or 5 mohm",
		size: map[string]float64{"ohm": 1, "ohms": 1, "om": 1, "r": 1, "Ω": 1, "ω": 1, "mohm": 1e-3, "mohms": 1e-3, "milliohm": 1e-3, "milliohms": 1e-3, "mΩ": 1e-3,
			"mω": 1e-3, "kohm": 1e3, "kohms": 1e3, "kΩ": 1e3, "kω": 1e3, "megohm": 1e6, "Mohm": 1e6, "MΩ": 1e6, "uohm": 1e-6, "μohm": 1e-6, "μΩ": 1e-6, "μω": 1e-6},
		least: 1e-7, most: 1e8, zero: true, ranges: "up to 100 megohm"}
	power = measure{what: "a power", fits: "W or kW, for example 35 W",
		size:  map[string]float64{"w": 1, "watt": 1, "watts": 1, "kw": 1e3, "mw": 1e-3},
		least: 1e-6, most: 1e5, ranges: "up to 100 kW"}
	area = measure{what: "an area of metal", fits: "mm2, for example 2.5 mm2",
		size: map[string]float64{"mm2": 1, "mm^2": 1, "sqmm": 1, "sq mm": 1, "sq. mm": 1, "sq.mm": 1, "sq": 1, "qmm": 1, "mmq": 1, "mmsq": 1, "mm sq": 1, "mm.sq": 1, "mm 2": 1,
			"mm*2": 1, "mm**2": 1, "square mm": 1, "square millimetres": 1, "square millimeters": 1,
			"cmil": circularMil, "circular mils": circularMil},
		least: 0.01, most: 500, ranges: "0.01 to 500 mm2"}
	seconds = measure{what: "a time", fits: "s or ms, for example 0.4 s",
		size:  map[string]float64{"s": 1, "sec": 1, "secs": 1, "second": 1, "seconds": 1, "ms": 1e-3, "min": 60, "minutes": 60, "minute": 60},
		least: 1e-6, most: 3600, ranges: "up to an hour"}
	charge = measure{what: "a capacity", fits: "Ah, for example 60 Ah",
		size:  map[string]float64{"ah": 1, "a h": 1, "amp hours": 1, "amp-hours": 1, "mah": 1e-3},
		least: 0.01, most: 10000, ranges: "up to 10 000 Ah"}
	mass = measure{what: "a mass", fits: "g, kg, oz or lb, for example 100 g",
		size: map[string]float64{"g": 1, "gram": 1, "grams": 1, "gramme": 1, "grammes": 1, "kg": 1000, "oz": pound / 16, "ounce": pound / 16, "ounces": pound / 16,
			"lb": pound, "lbs": pound, "pound": pound, "pounds": pound},
		least: 0.1, most: 1e6, ranges: "0.1 g to 1000 kg"}
	percent = measure{what: "a share", fits: "percent, for example 10 %",
		size:  map[string]float64{"%": 0.01, "percent": 0.01, "per cent": 0.01, "pct": 0.01},
		least: 1e-7, most: 1, zero: true, ranges: "0 to 100 %"}
	perMetre = measure{what: "a resistance of wire by its length", fits: "mohm/m or ohm/km, for example 8.81 mohm/m",
		size: map[string]float64{"mohm/m": 1e-3, "mΩ/m": 1e-3, "mω/m": 1e-3, "ohm/m": 1, "Ω/m": 1, "ω/m": 1, "ohm/km": 1e-3, "Ω/km": 1e-3, "ω/km": 1e-3,
			"ohm/kft": 1 / 304.8, "ohm/1000 ft": 1 / 304.8, "Ω/1000 ft": 1 / 304.8, "ω/1000 ft": 1 / 304.8},
		least: 1e-6, most: 10, ranges: "up to 10 ohm/m"}
)

// ParseAmpere reads a current: "20 A", "140 mA", "2,5 A".
func ParseAmpere(text string) (Ampere, error) { return as[Ampere](current.parse(text)) }

// ParseVolt reads a voltage: "14.2 V", "500 mV". High voltages are read too,
// so that the caller can refuse them by name.
func ParseVolt(text string) (Volt, error) { return as[Volt](voltage.parse(text)) }

// ParseOhm reads a resistance: "85 ohm", "0.005 Ω", "5 mohm", "2.2 kohm".
func ParseOhm(text string) (Ohm, error) { return as[Ohm](resistance.parse(text)) }

// ParseArea reads an area of metal: "2.0 mm2", "2,5 mm²", "10380 cmil".
func ParseArea(text string) (SquareMillimetre, error) { return as[SquareMillimetre](area.parse(text)) }

// ParseSecond reads a time: "0.4 s", "400 ms", "2 min".
func ParseSecond(text string) (Second, error) { return as[Second](seconds.parse(text)) }

// ParseAmpereHour reads a capacity: "60 Ah".
func ParseAmpereHour(text string) (AmpereHour, error) { return as[AmpereHour](charge.parse(text)) }

// ParseGram reads a mass: "100 g", "1.2 kg", "4 oz".
func ParseGram(text string) (Gram, error) { return as[Gram](mass.parse(text)) }

// ParseFraction reads a share or a duty: "10 %".
func ParseFraction(text string) (Fraction, error) { return as[Fraction](percent.parse(text)) }

// ParseOhmPerMetre reads a wire's resistance by length: "8.81 mohm/m", "8.81 ohm/km".
func ParseOhmPerMetre(text string) (OhmPerMetre, error) {
	return as[OhmPerMetre](perMetre.parse(text))
}

func as[T ~float64](value float64, err error) (T, error) {
	if err != nil {
		return 0, err
	}
	return T(value), nil
}

var celsius = measure{what: "a temperature", fits: "C or F, for example 95 C",
	size: map[string]float64{"c": 1, "°c": 1, "degc": 1, "deg c": 1, "oc": 1, "degrees c": 1, "celsius": 1,
		"f": 2, "°f": 2, "degf": 2, "deg f": 2, "degrees f": 2, "fahrenheit": 2},
	least: -100, most: 400, zero: true, ranges: "-100 to 400 C"}

// ParseCelsius reads a temperature: "95 C", "95 °C", "200 F". It may be below zero.
func ParseCelsius(text string) (Celsius, error) {
	body, sign := plain(text), 1.0
	if after, ok := strings.CutPrefix(body, "-"); ok {
		body, sign = strings.TrimSpace(after), -1
	}
	value, rest, fault := cutNumber(body)
	if fault != "" {
		return 0, celsius.fault("%s", fault)
	}
	scale, err := celsius.unit(text, rest)
	if err != nil {
		return 0, err
	}
	value *= sign
	if scale == 2 {
		value = (value - 32) / 1.8
	}
	return as[Celsius](celsius.within(text, value))
}

// ParseDraw reads what a load takes: "20 A", "35 W", "20 A @ 13.8 V", "35 W at 13.5 V".
func ParseDraw(text string) (Draw, error) {
	body := plain(text)
	if err := refuseTwoFilaments(body); err != nil {
		return Draw{}, err
	}
	main, at, has := cutAt(body)
	var d Draw
	if has {
		v, err := ParseVolt(at)
		if err != nil {
			return Draw{}, fmt.Errorf("After the @ or at: %w", err)
		}
		d.At = v
	}
	return d, d.take(main)
}

// take reads the current or the power.
func (d *Draw) take(text string) error {
	value, rest, fault := cutNumber(text)
	if _, ok := power.lookup(rest); ok && fault == "" && value >= 0 {
		watts, err := power.parse(text)
		d.Watts = Watt(watts)
		return err
	}
	both := current
	both.what, both.fits = "what a load takes", "A, mA or W, for example 20 A or 35 W @ 13.5 V"
	amps, err := both.parse(text)
	d.Amps = Ampere(amps)
	return err
}

func cutAt(text string) (main, at string, has bool) {
	if main, at, has = strings.Cut(text, "@"); !has {
		main, at, has = strings.Cut(text, " at ")
	}
	return strings.TrimSpace(main), strings.TrimSpace(at), has
}

// refuseTwoFilaments names the commonest case of two values in one: a lamp
// such as 55/60 W with two filaments.
func refuseTwoFilaments(text string) error {
	i := strings.IndexByte(text, '/')
	if i < 1 || i+1 >= len(text) || !digit(text[i-1]) || !digit(text[i+1]) {
		return nil
	}
	return fmt.Errorf("%q is two loads in one, such as the two filaments of a headlamp: each is a circuit of its own. "+
		"Write kind: headlamp (56a main, 56b dip) or kind: stop-tail (54 stop, 58 tail), which take it so, or two lamps, each with its own draws.", text)
}

// ParseStart reads a starting current and its time: "55 A for 0.4 s".
func ParseStart(text string) (Start, error) {
	amps, secs, ok := strings.Cut(plain(text), " for ")
	if !ok {
		return Start{}, fmt.Errorf("%q does not say how long the start takes; write a current and a time, for example 55 A for 0.4 s.", strings.TrimSpace(text))
	}
	a, err := ParseAmpere(amps)
	if err != nil {
		return Start{}, err
	}
	s, err := ParseSecond(secs)
	return Start{Amps: a, For: s}, err
}

// ParseCoil reads what a relay coil takes: "150 mA" at the nominal voltage, or "85 ohm".
func ParseCoil(text string) (Coil, error) {
	_, rest, _ := cutNumber(plain(text))
	if _, ok := resistance.lookup(rest); ok {
		ohms, err := resistance.parse(text)
		return Coil{Ohms: Ohm(ohms)}, nothing(text, "a coil", ohms, err)
	}
	both := current
	both.what, both.fits = "what a coil takes", "mA, A or ohm, for example 150 mA or 85 ohm"
	amps, err := both.parse(text)
	return Coil{Amps: Ampere(amps)}, nothing(text, "a coil", amps, err)
}

func nothing(text, what string, value float64, err error) error {
	if err == nil && value == 0 {
		return fmt.Errorf("%q cannot be right for %s: nothing would flow, or no limit would hold it.", strings.TrimSpace(text), what)
	}
	return err
}

// ParseDropLimit reads an allowed voltage drop: "3 %" of the nominal voltage, or "0.5 V".
func ParseDropLimit(text string) (DropLimit, error) {
	value, rest, fault := cutNumber(plain(text))
	if _, ok := voltage.lookup(rest); ok && fault == "" && value >= 0 {
		volts, err := voltage.parse(text)
		return DropLimit{Volts: Volt(volts)}, err
	}
	both := percent
	both.what, both.fits = "an allowed voltage drop", "percent or volts, for example 3 % or 0.5 V"
	share, err := both.parse(text)
	if err == nil && share == 0 {
		err = errors.New("A drop of 0 % cannot be built: every wire drops something; write for example 3 % or 0.5 V.")
	}
	return DropLimit{Fraction: Fraction(share)}, err
}
