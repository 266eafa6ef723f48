package refuse

import (
	"regexp"
	"strconv"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Limits above which a circuit is not described here: 60 V DC as in IEC 61140 and
// UN Regulation 100, 30 V AC as in 49 CFR 571.305 S3.
const (
	mostDC = 60
	mostAC = 30
)

// volts finds a figure with its unit: "400 V", "230VAC", "12/230 V", "220 В".
var volts = regexp.MustCompile(`(?i)(?:^|\.\.|\dx|[^\pL\d.,])(\d{1,3}(?: \d{3})+|\d+(?:[.,]\d+)?)[\s-]*([kк]?)(?:v|в|ボルト)(?:olts?|ольт)?\s*(?:max|nom|rms|oc|pk)?\s*(ac|dc|~)?(?:$|[^\pL\d])`)

// figures finds a voltage in a name that is out of scope.
func figures(n Name, f *folded) (Verdict, bool) {
	if n.Model || n.Rated {
		return Verdict{}, false
	}
	shown := narrow(n.Text)
	for at := 0; at < len(shown); {
		m := volts.FindStringSubmatchIndex(shown[at:])
		if m == nil {
			return Verdict{}, false
		}
		part := func(i int) string {
			if m[2*i] < 0 {
				return ""
			}
			return shown[at+m[2*i] : at+m[2*i+1]]
		}
		if high(part(1), part(2), part(3)) {
			return verdict(f, strings.TrimFunc(part(0), beyond)), true
		}
		at += m[3]
	}
	return Verdict{}, false
}

// narrow makes wide figures and letters, and odd spaces, plain, and drops what does not show.
func narrow(text string) string {
	return strings.Map(func(c rune) rune {
		if silent(c) {
			return -1
		}
		return c
	}, norm.NFKC.String(text))
}

// beyond tells of what may stand beside a figure and is none of it.
func beyond(c rune) bool { return c != '~' && !unicode.IsLetter(c) && !unicode.IsDigit(c) }

// thousands are three digits behind a comma or a space, as in 1,000 and 1 000.
var thousands = regexp.MustCompile(`^[1-9]\d{0,2}([ ,]\d{3})+$`)

func high(figure, kilo, kind string) bool {
	if thousands.MatchString(figure) {
		figure = strings.NewReplacer(" ", "", ",", "").Replace(figure)
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(figure, ",", "."), 64)
	if err != nil {
		return false
	}
	if kilo != "" {
		v *= 1000
	}
	return v >= mostDC || v >= mostAC && (strings.EqualFold(kind, "ac") || kind == "~")
}

// verdict tells what a high figure means beside the words with it.
func verdict(f *folded, figure string) Verdict {
	v := Verdict{Subject: HighVoltage, Refused: true, Found: figure, Word: figure}
	switch b := beside(); {
	case stands(b.spark, f):
		v.Subject, v.Refused = Spark, false
	case stands(b.converts, f) && !stands(b.ends, f):
		v.Subject, v.Refused = LowSide, false
	}
	return v
}

// beside gives the words that say what a high figure belongs to.
var beside = sync.OnceValue(func() (b struct{ spark, converts, ends []pattern }) {
	b.spark = patternsOf("", "spark*|ignition*|HT|plug lead*|*zünd*|bougie*|bujia*|candel*|bougiekabel*|свеч*|zaplon*")
	b.converts = patternsOf("", "inverter*|converter*|convertisseur*|convertidor*|convertitor*|charger*|*wechselrichter*|*ladegerat*|*ladegeraet*|onduleur*|chargeur*|inversor*|cargador*|caricabatt*|*omvormer*|*lader|przetwornic*|ladowark*|инвертор*|зарядн*|*インバータ*|*充電器*")
	b.ends = patternsOf("", "socket*|inlet*|outlet*|output*|plug*|lead|leads|cable*|*steckdose*|*stecker*|*ausgang*|prise*|sortie*|toma*|salida*|presa*|uscita*|stopcontact*|uitgang*|gniazd*|wyjsci*|розетк*|выход*|*コンセント*|*出力*")
	return b
})
