package describe

import (
	"fmt"
	"regexp"
	"strings"

	"example.com/loomfolio/sizing/describe/read"
)

// Variant is one way in which the vehicle is built: with more files, without circuits or parts.
type Variant struct {
	Key     read.Word
	Name    read.Word
	With    []read.Word // files, named from the description's folder on
	Without []read.Word // circuits and parts
}

const holdsVariants = "a name for each variant, such as towing: {with: [tow.yaml]} or basic: {without: [fog]}"

var variantKeys = []read.Key[Variant]{
	read.Line("name", "a plain name", func(v *Variant) *read.Word { return &v.Name }),
	read.List("with", "a list of files in this folder, such as [tow.yaml]", func(v *Variant) *[]read.Word { return &v.With }, (*read.Reader).Unique),
	read.List("without", "a list of circuits and parts, such as [fog]", func(v *Variant) *[]read.Word { return &v.Without }, (*read.Reader).Unique),
}

// mostVariants bounds the ways in which one vehicle is built.
const mostVariants = 20

var variantName = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9-]{0,39}$`)

func takeVariants(r *read.Reader, e read.Entry, d *Description) {
	for _, x := range r.Entries(e, holdsVariants, true) {
		v := Variant{Key: x.Key}
		switch {
		case strings.EqualFold(x.Key.Text, read.All) || strings.EqualFold(x.Key.Text, read.None) || !variantName.MatchString(x.Key.Text):
			r.Say(x.Key.Span, "bad-variant", fmt.Sprintf("a variant cannot be called %q", x.Key.Text),
				"Files are named after it: use letters, digits and dashes, up to 40. All and none are words of their own.")
		case len(d.Variants) == mostVariants:
			r.Say(x.Key.Span, "bad-variant", fmt.Sprintf("there are more than %d variants", mostVariants), "Make a description of its own for what is built otherwise, and include what both have.")
			return
		}
		read.Mapping(r, x, variantKeys, &v)
		if x.IsMap() && len(v.With)+len(v.Without) == 0 {
			r.Say(x.Key.Span, "bad-variant", fmt.Sprintf("nothing says how %q differs", x.Key.Text), "Write with: and the files that it adds, or without: and the circuits and parts that it lacks.")
		}
		d.Variants = append(d.Variants, v)
	}
}
