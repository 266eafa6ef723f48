package asfound

import (
	_ "embed" // for the list

	"example.com/loomfolio/sizing/source"
)

//go:embed rules.txt
var ruleList string

// Rules lists what this package finds. The error tells of a list that cannot be read.
func Rules() ([]source.Rule, error) { return source.ParseRules(ruleList) }
