// Command loomfolio turns a description of a vehicle's wiring into a packet of
// sheets to build it from, to test it with and to find a fault in it later.
package main

import "os"

func main() {
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}
