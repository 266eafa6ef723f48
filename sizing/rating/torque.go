package rating

import "strings"

// Torque is how hard the nut of a stud is tightened, in N·m, and what kind of stud it is:
// the same thread in brass, lead or a nut of high strength takes a quarter or three
// times as much.
type Torque struct {
	Least, Most float64
	Material    string // "steel weld stud"
	Source      string
}

// ChassisTorque gives that of a stud on the bodywork, dry; false where no list has one. It
// is not that of the same screw in a device (Stud.Torque), which holds a ground too loosely.
func ChassisTorque(stud string) (Torque, bool) {
	for _, r := range rows("chassis-studs.csv") {
		if strings.EqualFold(r["stud"], strings.TrimSpace(stud)) {
			return Torque{Least: r.number("least_nm"), Most: r.number("most_nm"), Material: r["material"], Source: r["source"]}, true
		}
	}
	return Torque{}, false
}
