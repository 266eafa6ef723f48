package cutlist

import (
	"fmt"

	"example.com/loomfolio/layout/page"
	"example.com/loomfolio/sizing/unit"
)

// Lengths in which wire is sold beside by the metre: two hanks and the least reel, mm. Common practice, from memory:
// hanks of 3 to 10 m (10 to 25 ft), reels of 30, 50 and 100 m (100 ft and more).
type hank struct{ small, large, reel unit.Millimetre }

func hankOf(imperial bool) hank {
	if imperial {
		return hank{10 * foot, 25 * foot, 100 * foot}
	}
	return hank{5000, 10000, 30000}
}

const foot unit.Millimetre = 304.8

// reelShare is the part of a reel from which it is worth asking what the whole one costs: cut lengths cost 1.5 to 3
// times as much by the metre (from memory).
const reelShare = 2. / 3

// mostAsked is how many reels the list says line by line how to ask for; of more a sentence does.
const mostAsked = 24

// hanked tells whether it is said how to ask for wire: where reels are saved and the description does not say how it is sold.
func hanked(a page.Ask) bool { return a.R.Purchase.For != "" && len(a.H.Practice.Sold) == 0 }

// asked tells whether each line says it.
func asked(a page.Ask) bool {
	n := 0
	for i := range a.R.Reels {
		if a.R.Reels[i].ToCut() > 0 {
			n++
		}
	}
	return hanked(a) && n <= mostAsked
}

// askFor is in what length to ask for so much wire; "" where nothing is bought.
func askFor(buy unit.Millimetre, imperial bool) string {
	h := hankOf(imperial)
	switch {
	case buy == 0:
		return ""
	case buy <= h.small*3/5 || buy > h.large && buy < reelShare*h.reel:
		return "by the " + page.Either(imperial, "foot", "metre")
	case buy <= h.small:
		return page.ToBuy(h.small, imperial) + " hank"
	case buy <= h.large:
		return page.ToBuy(h.large, imperial) + " hank"
	}
	return page.ToBuy(h.reel, imperial) + " reel"
}

// hanks says in what lengths wire is sold, and of how many lines each is; "" where the lines themselves say it.
func hanks(a page.Ask) string {
	if !hanked(a) || asked(a) {
		return ""
	}
	h, imperial := hankOf(a.H.Sheet.Imperial), a.H.Sheet.Imperial
	small, large, reels := 0, 0, 0
	for i := range a.R.Reels {
		switch buy := a.R.Reels[i].Buy; {
		case a.R.Reels[i].ToCut() == 0 || buy == 0:
		case buy <= h.small:
			small++
		case buy <= h.large:
			large++
		case buy >= reelShare*h.reel:
			reels++
		}
	}
	return fmt.Sprintf("Sold by the length, in hanks of %s (enough for %s) and %s (for %d more), on reels of %s and up (%d near that: ask what a whole one costs). Common practice, from memory.",
		page.ToBuy(h.small, imperial), page.Counted(small, "line"), page.ToBuy(h.large, imperial), large, page.ToBuy(h.reel, imperial), reels)
}
