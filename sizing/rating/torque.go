package rating

import "strings"

// Torque is how hard the nut of a steel stud is tightened, dry, in N·m.
type Torque struct {
	Least, Most float64
	Source      string
}

// ChassisTorque gives that of a stud on the bodywork; false where no list has one. It is not
// that of the same screw in a device (Stud.Torque), which holds a ground too loosely; and
// brass or lead would not stand it.
func ChassisTorque(stud string) (Torque, bool) {
	for _, r := range rows("chassis-studs.csv") {
		if strings.EqualFold(r["stud"], strings.TrimSpace(stud)) {
			return Torque{Least: r.number("least_nm"), Most: r.number("most_nm"), Source: r["source"]}, true
		}
	}
	return Torque{}, false
}
