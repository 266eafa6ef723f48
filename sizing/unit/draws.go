//lint:file-ignore ST1005 These errors are printed as whole sentences behind a place in the file.

package unit

import (
	"fmt"
	"strings"
)

// ParseDraws reads what the several loads of one part take, in their order: "60/55 W",
// "21/5 W @ 13.5 V", "4/8 A"; one figure alone is that of the first.
func ParseDraws(text string) ([]Draw, error) {
	main, at, has := cutAt(plain(text))
	figures := strings.Split(main, "/")
	last := figures[len(figures)-1]
	_, word, _ := cutNumber(strings.TrimSpace(last))
	var out []Draw
	for _, f := range figures {
		f = strings.TrimSpace(f)
		if f == "" {
			return nil, fmt.Errorf("%q leaves out a figure beside the /; write one for each load, for example 60/55 W.", strings.TrimSpace(text))
		}
		if _, own, _ := cutNumber(f); own == "" {
			f += " " + word
		}
		if has {
			f += " @ " + at
		}
		d, err := ParseDraw(f)
		if err != nil {
			return nil, err
		}
		out = append(out, d)
	}
	return out, nil
}
