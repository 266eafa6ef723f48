package variant

import (
	"slices"

	"example.com/loomfolio/sizing/describe"
)

// leavePlaces leaves out the places where only parts lay that went, with the runs that lead
// to nothing else.
func (c *cutter) leavePlaces() {
	needed, empty := c.needed(), map[string]bool{}
	for _, p := range c.d.Places {
		empty[p.Key.Text] = !needed[p.Key.Text]
	}
	left := gone{}
	emptied := map[string]bool{} // where a part lay that went, and what is reached from there alone
	for _, p := range c.before {
		if c.parts[p.Key.Text] && p.At.Given() {
			emptied[p.At.Text] = true
		}
	}
	runs := slices.Clone(c.d.Runs)
	for changed := true; changed; {
		changed = false
		for place := range emptied {
			if !empty[place] || left[place] {
				continue
			}
			at := runsAt(runs, place)
			if len(at) > 1 {
				continue
			}
			left[place], c.said[place], changed = true, true, true
			for _, i := range at {
				emptied[other(runs[i], place)] = true
				runs = slices.Delete(runs, i, i+1)
			}
		}
	}
	c.d.Runs = runs
	c.d.Places = slices.DeleteFunc(slices.Clone(c.d.Places), func(p describe.Place) bool { return left[p.Key.Text] })
}

// needed are the places that something names besides runs.
func (c *cutter) needed() map[string]bool {
	out := map[string]bool{}
	for _, p := range c.d.Parts {
		out[p.At.Text], out[p.Along.From.Text], out[p.Along.To.Text] = true, true, true
	}
	for _, circuit := range c.d.Circuits {
		for _, leg := range circuit.Legs {
			for _, s := range leg.Stops {
				for _, w := range s.Via {
					out[w.Text] = true
				}
			}
		}
	}
	return out
}

func runsAt(runs []describe.Run, place string) []int {
	var out []int
	for i, x := range runs {
		if x.From.Text == place || x.To.Text == place {
			out = append(out, i)
		}
	}
	return out
}

func other(x describe.Run, place string) string {
	if x.From.Text == place {
		return x.To.Text
	}
	return x.From.Text
}
