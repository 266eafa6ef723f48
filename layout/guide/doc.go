// Package guide lays out the reading guide, which says how the other sheets are read.
//
// In: page.Ask, which is the model, the results, the paper and the reader. Out:
// its pages. It holds that no text is cut off or lies on another:
// what does not fit goes on the next sheet, drawings take the height that their words
// need, and colour is always accompanied by its name. All lengths are mm.
package guide
