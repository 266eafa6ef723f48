// Package samples holds worked descriptions to begin from: whole vehicles of
// one invented family, each for a reader of its own. They are text as a person
// writes it, comments and all; nothing here reads or checks them.
package samples

import "embed"

//go:embed *.yaml
var files embed.FS

// Sample is one description.
type Sample struct {
	Name string // the file's name without .yaml
	For  string // who should begin with it, in a few words
	Text []byte // the file as it is, UTF-8
}

// List gives the samples in the order in which a newcomer should read them.
func List() []Sample {
	all := []Sample{
		{Name: "first", For: "a first evening: fan, fuel pump and driving lamps, every idea explained once"},
		{Name: "kestrel", For: "a whole kit car: 12 V, two fuse panels, connectors at the bulkhead"},
		{Name: "tender", For: "an old hand's utility: 6 V, positive ground, dynamo, letter paper, inches and SAE gauge"},
		{Name: "camper", For: "a camper: second battery, split charge, isolators, panels for base vehicle and living space"},
	}
	var found []Sample
	for _, s := range all {
		text, err := files.ReadFile(s.Name + ".yaml")
		if err != nil {
			continue
		}
		s.Text = text
		found = append(found, s)
	}
	return found
}
