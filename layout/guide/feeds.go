package guide

import "example.com/loomfolio/layout/page"

// LoadNames says in few plain words which loads are meant, by the names of their
// elements: "Injector 1–4", "Headlamp left and right (56a)".
func LoadNames(a page.Ask, loads []string) []string { return loadNames(a, loads) }
