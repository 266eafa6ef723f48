package rating

import "strings"

// Torque is how hard the nut or bolt of one material at one place is tightened, dry, in N·m.
// Never print the figure without the words: M8 takes 6 N·m in brass and 18 in a steel body.
type Torque struct {
	Least, Most float64
	On          string // "steel bolt in bodywork", "brass stud", …
	Source      string
}

// Places of Torques.
const (
	InBodywork = "bodywork" // a steel bolt or rivet stud
	WeldedPin  = "pin"
	OnBrass    = "brass"
	LeadPost   = "post" // of a battery; it has no thread
	LeadInsert = "insert"
	OnMachine  = "machine" // a starter or alternator, whatever its thread
	InDevice   = "device"
)

// TorqueOf gives the torque of a stud at a place; false where no list has one.
func TorqueOf(place, stud string) (Torque, bool) {
	for _, r := range rows("torques.csv") {
		if r["place"] == place && (r["stud"] == "" || strings.EqualFold(r["stud"], strings.TrimSpace(stud))) {
			return Torque{Least: r.number("least_nm"), Most: r.number("most_nm"), On: r["material"], Source: r["source"]}, true
		}
	}
	return Torque{}, false
}
