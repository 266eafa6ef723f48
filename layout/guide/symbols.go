package guide

import "example.com/loomfolio/layout/page"

// symbols draws the symbol of each kind of part in the harness with its word.
func symbols(page.Ask, *sheaf) {}
