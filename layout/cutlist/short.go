package cutlist

import (
	"strings"

	"example.com/loomfolio/sizing/fit/fitted"
)

// words of fittings that the key has in full, for a row.
var shorter = strings.NewReplacer("female spade", "spade", "splice barrel", "barrel", "butt splice", "butt", "crimp contact", "contact", " mm", "", " in", "")

// short is a fitting with its crimp in few words: "6.3 spade red", "M8 lug", "contact";
// the shop's own by its number.
func short(e *fitted.End) string {
	if e.Part != "" {
		return e.Part
	}
	name, _, _ := strings.Cut(e.Fitting, ",") // a contact's family is that of its housing
	name = shorter.Replace(name)
	switch colour, sleeved := strings.CutSuffix(e.Crimp, " insulated"); {
	case e.Crimp == fitted.NoneFits:
		name += ": none fits"
	case sleeved:
		name += " " + colour
	case strings.HasSuffix(e.Crimp, " lug"):
		name = strings.Replace(name, "ring", strings.TrimPrefix(e.Crimp, "uninsulated "), 1)
	case strings.HasPrefix(e.Crimp, "uninsulated") && !strings.HasPrefix(name, "barrel"):
		name += ", uninsulated"
	}
	return name
}
