// Package loom draws the map of the physical loom: its branches on a sheet with the list of
// its runs under it.
//
// In come the model's places and runs with what was computed for them; out come the pages of
// the map and the list. Runs that close a ring are drawn as a broken leg that names the place
// where it arrives, so that what is drawn is always a forest. A tree that does not fit a sheet
// is divided at a place.
//
// Method, all of it deterministic: branches are laid by package branch, labels by package
// placing. Where the description says on which side of the vehicle places lie, the map's trunk
// runs from front to rear and limbs are turned so that front is at the left and the vehicle's
// left below its right, as seen from above. The board to build the loom on at full size is
// drawn by package board, of the same branches and labels.
//
// It holds that legs of a tree never cross, that no text lies on another or on a
// line, that labels of two things are 4 mm apart, that lengths are true to the scale that
// the sheet states, and that a side named at an edge is true of every place described.
//
// Anchors set here: sheet/loom, sheet/runs, run/FROM-TO, laid/FROM-TO, place/KEY.
package loom
