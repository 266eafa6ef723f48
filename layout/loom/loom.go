// Package loom draws the physical loom: the map of its branches on a sheet with the list
// of its runs under it, and the board at full size to build it on.
//
// In come the model's places and runs with what was computed for them; out come
// the pages of the map and the list, and the sheets of the board. Runs that close a ring are
// drawn as a broken leg that names the place where it arrives, so that what is
// drawn is always a forest. A tree that does not fit a sheet is divided at a place. A board
// may be folded: the middle of long bare stretches is then left out.
//
// Method, all of it deterministic: the longest way is the trunk and is drawn
// straight; of what hangs on it the longest way is again a limb, and so on. Each
// limb leaves its breakout by one of a few angles, chosen in turn, then again,
// so that legs neither cross nor crowd. Where the description says on which side of the
// vehicle places lie, the map's trunk runs from front to rear and limbs are turned so that
// front is at the left and the vehicle's left below its right, as seen from above. Labels are
// tried at growing distances round what they name; those that find no place come first in
// the next attempt.
//
// It holds that legs of a tree never cross, that no text lies on another or on a
// line, that labels of two things are 4 mm apart, that lengths are true to the scale that
// the sheet states, and that a side named at an edge is true of every place described.
//
// Anchors set here: sheet/loom, sheet/runs, run/FROM-TO, laid/FROM-TO, place/KEY.
package loom
