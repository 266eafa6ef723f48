package trial

// Names of what is reckoned beside the declared states: short enough for a column, and
// such that they can stand behind "in".
const (
	unswitched = "loads no state turns on"
	uncranked  = "cranking, no state declared"
)

// besides names a declared state that is solved once more under another condition.
func besides(state, condition string) string { return state + ", " + condition }

// isFlat is the condition that one battery is flat and the others are not.
func isFlat(battery string) string { return battery + " flat" }

// allFlat is the condition that every battery is flat.
func allFlat(batteries int) string {
	if batteries == 1 {
		return "battery flat"
	}
	return "all batteries flat"
}

// lowest is the condition that loads of constant power have the least voltage that they work at.
const lowest = "at lowest voltage"
