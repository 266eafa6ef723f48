package colour

import (
	"fmt"
	"strings"
)

// near lists what people write for a colour, in lower case, and the letters
// that they may mean: names, bench short forms and the letters of DIN 47002.
var near = map[string][]string{
	"black": {"BK"}, "blk": {"BK"}, "sw": {"BK"}, "k": {"BK"},
	"brown": {"BN"}, "brn": {"BN"}, "br": {"BN"}, "n": {"BN"},
	"red": {"RD"}, "rt": {"RD"}, "r": {"RD"}, "re": {"RD"},
	"orange": {"OG"}, "or": {"OG"}, "org": {"OG"}, "orn": {"OG"}, "o": {"OG"}, "on": {"OG"},
	"yellow": {"YE"}, "yel": {"YE"}, "yl": {"YE"}, "yw": {"YE"}, "y": {"YE"}, "ge": {"YE"},
	"green": {"GN"}, "grn": {"GN"}, "gre": {"GN"}, "g": {"GN", "GY"}, "gr": {"GN", "GY"},
	"blue": {"BU"}, "blu": {"BU"}, "be": {"BU"}, "bl": {"BU", "BK"}, "b": {"BK", "BU", "BN"}, "dkblu": {"BU"},
	"violet": {"VT"}, "purple": {"VT"}, "pur": {"VT"}, "pr": {"VT"}, "vio": {"VT"}, "vi": {"VT"}, "v": {"VT"}, "p": {"VT", "PK"},
	"grey": {"GY"}, "gray": {"GY"}, "gry": {"GY"}, "slate": {"GY"}, "s": {"GY"},
	"white": {"WH"}, "wht": {"WH"}, "wt": {"WH"}, "ws": {"WH"}, "w": {"WH"},
	"pink": {"PK"}, "pnk": {"PK"}, "rs": {"PK"}, "pi": {"PK"}, "rosa": {"PK"},
	"turquoise": {"TQ"}, "tk": {"TQ"}, "tu": {"TQ"}, "cyan": {"TQ"},
	"tan": {"TN"}, "beige": {"TN"}, "bg": {"TN"},
	"light blue": {"LBU"}, "lb": {"LBU"}, "lbl": {"LBU"}, "ltblu": {"LBU"},
	"light green": {"LGN"}, "lg": {"LGN"}, "lgr": {"LGN"}, "ltgrn": {"LGN"},
}

// Parse reads a wire's colour: letters of IEC 60757 (or TN, LBU, LGN), with a
// tracer after a slash: RD, OG/BK. Lower case is taken too. The error says
// what is wrong and which letters may have been meant.
func Parse(text string) (Pair, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return Pair{}, fmt.Errorf("no colour is written; letters such as RD or OG/BK are needed")
	}
	if err := refuseJoined(text); err != nil {
		return Pair{}, err
	}
	parts := strings.Split(text, "/")
	if len(parts) > 2 {
		return Pair{}, fmt.Errorf("%q has more than one tracer; a wire has a base and at most one tracer: OG/BK", text)
	}
	base, err := one(parts[0])
	if err != nil || len(parts) == 1 {
		return Pair{Base: base}, err
	}
	tracer, err := one(parts[1])
	if err != nil {
		return Pair{}, err
	}
	if tracer == base {
		return Pair{}, fmt.Errorf("%q has a tracer of its own base colour; write %s for the plain wire", text, base)
	}
	return Pair{Base: base, Tracer: tracer}, nil
}

// one reads the letters of a single colour.
func one(text string) (string, error) {
	text = strings.TrimSpace(text)
	letters := strings.ToUpper(text)
	if find(letters) >= 0 {
		return letters, nil
	}
	if meant := near[strings.ToLower(text)]; len(meant) > 0 {
		return "", fmt.Errorf("%q is not a colour's letters; write %s", text, named(meant))
	}
	return "", fmt.Errorf("%q is not a colour's letters; known are %s", text, strings.Join(Letters(), " "))
}

// named gives "GN (green) or GY (grey)".
func named(letters []string) string {
	var out []string
	for _, l := range letters {
		out = append(out, fmt.Sprintf("%s (%s)", l, Name(l)))
	}
	return strings.Join(out, " or ")
}

// refuseJoined catches two colours written without a slash: OG-BK, OGBK.
func refuseJoined(text string) error {
	for _, mark := range []string{"-", ":", "+", ",", "\\", " ", ""} {
		base, tracer, ok := halves(text, mark)
		if ok {
			return fmt.Errorf("%q is two colours; write base and tracer with a slash: %s/%s", text, base, tracer)
		}
	}
	return nil
}

// halves splits the text at the mark (in the middle when the mark is empty)
// into the letters of two colours.
func halves(text, mark string) (base, tracer string, ok bool) {
	a, b := "", ""
	if mark != "" {
		a, b, ok = strings.Cut(text, mark)
	} else if len(text) == 4 {
		a, b, ok = text[:2], text[2:], true
	}
	if !ok {
		return "", "", false
	}
	a, errA := one(a)
	b, errB := one(b)
	return a, b, errA == nil && errB == nil
}
