package cutlist

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
	"example.com/loomfolio/sizing/harness"
)

// Up to fewUsers are all named, on a second line where they must.
const (
	fewUsers   = 4
	leastNamed = 2 // so many are named of more
)

var andMore = regexp.MustCompile(` and (\d+) more$`)

// users are what an item is for: those that are named, and how many more there are.
type users struct {
	named []string
	more  int
}

// usersOf takes apart what an item is for; runs are called by their letters, as on the map.
func usersOf(a page.Ask, text string) users {
	var u users
	if m := andMore.FindStringSubmatch(text); m != nil {
		u.more, _ = strconv.Atoi(m[1])
		text = strings.TrimSuffix(text, m[0])
	}
	if text == "" {
		return u
	}
	u.named = strings.Split(text, ", ")
	letters := runLetters(a)
	var others, runs []string
	for _, name := range u.named {
		if letter := letters[name]; letter != "" {
			runs = append(runs, letter)
		} else {
			others = append(others, page.Firm(name))
		}
	}
	if len(runs) > 0 {
		noun := "runs "
		if len(runs) == 1 && len(runs[0]) <= 2 {
			noun = "run "
		}
		runs[0] = page.Firm(noun + runs[0])
	}
	u.named = append(others, runs...)
	return u
}

// runLetters are the letters of the runs by the names that the shopping list has for them.
func runLetters(a page.Ask) map[string]string {
	out := map[string]string{}
	for i := range a.H.Runs {
		r := &a.H.Runs[i]
		name := a.H.Places[r.From].Name + " – " + a.H.Places[r.To].Name
		out[name] = page.List(", ", out[name], page.Letter(harness.RunID(i)))
	}
	return out
}

// first names so many of them, and counts the others.
func (u users) first(n int) string {
	n = min(n, len(u.named))
	text := strings.Join(u.named[:n], ", ")
	if more := u.more + len(u.named) - n; more > 0 {
		text += fmt.Sprintf(" and"+page.NoBreak+"%d"+page.NoBreak+"more", more)
	}
	return text
}

// within names as many as one line of a width holds, two at least; all where they are few.
func (u users) within(wide float64) string {
	if len(u.named)+u.more <= fewUsers {
		return u.first(len(u.named))
	}
	for n := len(u.named); n > leastNamed; n-- {
		if text := u.first(n); typeface.Width(text, sheet.Regular, sheet.SizeNote) <= wide {
			return text
		}
	}
	return u.first(leastNamed)
}
