package unit

import (
	"math"
	"strconv"
)

const newtonMetresInPoundFoot = 1.3558179483314 // NIST SP 811, appendix B

// Torque prints a torque to a tenth and names its unit: "2.5" and "N·m", on an
// imperial sheet "1.8" and "lbf·ft".
func Torque(newtonMetres float64, imperial bool) (value, name string) {
	name = "N·m"
	if imperial {
		newtonMetres, name = newtonMetres/newtonMetresInPoundFoot, "lbf·ft"
	}
	return strconv.FormatFloat(math.Round(newtonMetres*10)/10, 'f', -1, 64), name
}
