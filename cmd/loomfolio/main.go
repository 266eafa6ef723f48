// Command loomfolio turns a description of a vehicle's wiring into a packet of
// sheets to build it from, to test it with and to find a fault in it later.
package main

import (
	"os"
	"runtime/debug"
)

// collectAt lets the heap grow to five times what is live before it is
// collected: a run is short and small, and collecting took a quarter of it.
const collectAt = 400

// collectAbove is the memory in bytes above which it is collected more often, so that
// a very large vehicle stays within what an old machine has.
const collectAbove = 340 << 20

func main() {
	debug.SetGCPercent(collectAt)
	debug.SetMemoryLimit(collectAbove)
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}
