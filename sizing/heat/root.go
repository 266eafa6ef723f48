package heat

import "math"

// Root finding stops when a step in the logarithm of the rise, a relative error,
// is within closeTo.
const (
	closeTo   = 1e-12
	mostTurns = 200
	leastRise = 1e-100 // K
	leastHeat = 1e-90  // W/m, below which nothing is heated
	usualRise = 30     // K, where the search begins
)

// risen finds the rise x with balance(x) = 0 between low and high, low > 0.
// The balance is the logarithm of a ratio of heats or of rises: it grows with x
// and is close to a straight line over ln x (a surface gives off about rise^1.2),
// so that a secant in ln x needs four to six turns. The bracket keeps it safe:
// a step that leaves it, or has no slope to go by, becomes a bisection. Where
// the balance is still negative at high, the answer is high and false.
func risen(balance func(x float64) float64, low, guess, high float64) (float64, bool) {
	a, b, checked := math.Log(low), math.Log(high), false
	u := math.Log(math.Min(math.Max(guess, low), high))
	f := balance(math.Exp(u))
	next := u - f/1.2
	for range mostTurns {
		if f >= 0 {
			b, checked = math.Min(b, u), true
		} else {
			a = math.Max(a, u)
		}
		if math.Abs(next-u) < closeTo || b-a < closeTo {
			break
		}
		if !checked && !(next < b) {
			if !(balance(high) >= -closeTo) {
				return high, false
			}
			checked = true
		}
		if !(next > a && next < b) {
			next = (a + b) / 2
		}
		g := balance(math.Exp(next))
		slope := (g - f) / (next - u)
		u, f, next = next, g, math.NaN()
		if slope > 0 && slope < 1e300 {
			next = u - g/slope
		}
	}
	if !(next > a && next < b) {
		next = u
	}
	return math.Exp(next), true
}
