// Package kind is the table of part kinds: one row says all that the format, the
// check, the tables of terminals, the sheets and the lists need to know of one. What
// is particular to a kind (how a relay's contacts follow its coil) is code where it
// is done; all that only tells kinds apart stands here.
package kind

import (
	"slices"
	"strings"

	"example.com/loomfolio/sizing/harness"
)

// Row is one kind.
type Row struct {
	Kind      harness.Kind
	Nicknames string       // words that people use for it, parted by blanks
	Keys      string       // its keys besides the common ones, parted by blanks
	Needs     string       // those of them that cannot be left out (draws and positions only where no inside is given)
	Terminals string       // the customary ones, parted by blanks; "" where the description names them
	Also      string       // those that it has where a stop names them: "S", "B+=A" in the place of A, "61~D" joined to D
	Inside    Inside       // what lies between its terminals
	Recipe    *Recipe      // the same where it is made of plain elements; nil for none
	Like      harness.Kind // the kind whose rules hold for it too; "" for none
	Through   bool         // a bare name in a leg passes from one of its two terminals to the other
	Role      Role
	Charges   bool              // gives current to a battery
	Behaves   harness.Behaviour // of a load that does not say
	Class     Class             // of a load, at the contacts that switch it; "" where it follows from how it behaves
	List      string            // the heading under which it is listed
	Lug       bool              // heavy wire ends on it in a battery lug
	Unbodied  bool              // its body is no return: it is insulated, or a ground itself
	Ends      []End             // what its terminals take; the last holds for all that are not named
	Format    Format
}

// Inside says what a kind has between its terminals; the check builds it.
type Inside string

// The insides of kinds that are alike; every other kind has one of its own, which is
// its word.
const (
	Load Inside = "load" // one load from + to -
	Link Inside = "link" // a fuse link
	Own  Inside = ""     // what the description says under inside
)

// Role is what a part does with the current.
type Role int

// The roles.
const (
	Supplies Role = iota
	Protects
	Switches
	Works
	Joins
	Returns
)

// Class is a kind of load by the words of FAA AC 43.13-1B table 11-4.
type Class string

// The classes.
const (
	Lamps     Class = "lamp"
	Motors    Class = "motor"
	Inductive Class = "inductive"
	Resistive Class = "resistive"
)

// End is what a terminal takes where the description says nothing, and the size of it
// on a sheet in inches: common practice, no source.
type End struct{ Terminal, Fitting, Size, Inches string }

// Format is what the reference of the format says of a kind, where it is not in the
// other columns.
type Format struct{ Terminals, Passes, Says string }

// Common are the keys that every part has.
const Common = "kind name at tail stud tab family fitting sleeve notes part-number picture found terminals inside grounds existing each"

// Fits tells whether a key belongs to the kind.
func (r Row) Fits(key string) bool {
	if key == "grounds" && r.Unbodied {
		return false
	}
	return listed(Common, key) || listed(r.Keys, key)
}

// listed tells whether a word stands in a list parted by blanks.
func listed(list, word string) bool {
	for list != "" {
		var first string
		if first, list, _ = strings.Cut(list, " "); first == word {
			return true
		}
	}
	return false
}

// rows are all kinds.
var rows = slices.Concat(firstRows, bodyRows, charging)

// All lists the kinds in the order of the format.
func All() []Row { return rows }

// Of gives the row of a kind; false for a word that is none.
func Of(k harness.Kind) (Row, bool) {
	i, ok := index[k]
	if !ok {
		return Row{}, false
	}
	return rows[i], true
}

// RoleOf gives the role of a kind.
func RoleOf(k harness.Kind) Role {
	if r, ok := Of(k); ok {
		return r.Role
	}
	return Joins
}

// Charges tells a kind that gives current to a battery: machines, regulators, chargers.
func Charges(k harness.Kind) bool {
	r, _ := Of(k)
	return r.Charges
}

// ClassOf gives the class of a load of a kind that behaves in a way.
func (r Row) ClassOf(behaves harness.Behaviour) Class {
	switch {
	case r.Class != "":
		return r.Class // however its current is computed
	case behaves == harness.AsLamp:
		return Lamps
	case behaves == harness.AsMotor:
		return Motors
	}
	return Resistive
}

// Table prints the kinds for samples/FORMAT.md; those of which it says the same share a line.
func Table() string {
	var b strings.Builder
	b.WriteString("| kind | terminals | a bare name passes | says (* required) |\n|---|---|---|---|\n")
	for i := 0; i < len(rows); {
		words := []string{string(rows[i].Kind)}
		first := rows[i].Format
		for i++; i < len(rows) && rows[i].Format == first; i++ {
			words = append(words, string(rows[i].Kind))
		}
		b.WriteString(strings.ReplaceAll("| "+strings.Join(words, " ")+" | "+first.Terminals+" | "+first.Passes+" | "+first.Says+" |\n", "|  |", "| |"))
	}
	return b.String()
}

// Meant gives the kind that a word stands for which people use for it; "" for none.
func Meant(word string) harness.Kind {
	for _, r := range rows {
		if listed(r.Nicknames, strings.ToLower(word)) {
			return r.Kind
		}
	}
	return ""
}

// index is where each kind stands in rows.
var index = func() map[harness.Kind]int {
	out := make(map[harness.Kind]int, len(rows))
	for i, r := range rows {
		out[r.Kind] = i
	}
	return out
}()
