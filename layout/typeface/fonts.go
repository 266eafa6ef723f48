// Package typeface is the embedded family, measured as it is printed.
//
// In come strings and a sheet.Face; out go widths in mm, lines that fit a width
// and runs of one font each, which the renderer draws one after another. Text is
// set in Go Regular and Go Bold; a character they lack comes from DejaVu Sans
// Condensed of the same weight; one that all lack is printed as a question mark,
// so that no empty box is ever drawn. Strings are brought to Unicode's composed
// form (NFC) first. Widths are the fonts' own advances, rounded to a thousandth
// of the size as the document states them; there is no kerning.
//
// Sources: the tables cmap and hmtx of the fonts; Unicode Standard Annex 15 (NFC).
package typeface

import (
	"errors"
	"fmt"
	"sync"

	"github.com/go-fonts/dejavu/dejavusanscondensed"
	"github.com/go-fonts/dejavu/dejavusanscondensedbold"
	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"example.com/loomfolio/layout/sheet"
)

// Font is one font file of the family.
type Font int

// The fonts; the fallbacks serve what the first two lack.
const (
	GoRegular Font = iota
	GoBold
	FallbackRegular
	FallbackBold
	fonts // how many
)

// Proportions of the text fonts, in parts of the font size (OS/2 and hhea tables).
const (
	CapHeight = 1480.0 / 2048 // a capital above the base line
	XHeight   = 1086.0 / 2048
	Ascent    = 0.95 // the highest accent
	Descent   = 0.22 // below the base line
	Leading   = 1.25 // base line to base line
)

// Data is the font file itself, TrueType; do not write to it.
func (f Font) Data() []byte {
	switch f {
	case GoBold:
		return gobold.TTF
	case FallbackRegular:
		return dejavusanscondensed.TTF
	case FallbackBold:
		return dejavusanscondensedbold.TTF
	}
	return goregular.TTF
}

// Name is the family name of the font, unique within the family and plain ASCII.
func (f Font) Name() string {
	return [fonts]string{"GoRegular", "GoBold", "DejaVuSansCondensed", "DejaVuSansCondensedBold"}[min(max(f, 0), fonts-1)]
}

// Check tells whether all embedded fonts can be read; they can, unless the build is damaged.
func Check() error { return loaded().err }

// absent stands for a character without a glyph.
const absent = -1

// early is how many characters have their widths looked up beforehand.
const early = 0x2800

type family struct {
	fonts  [fonts]*sfnt.Font
	widths [fonts][early]int16 // thousandths of the size, or absent
	err    error
}

// loaded reads the fonts once, at their first use.
var loaded = sync.OnceValue(load)

func load() *family {
	fam := &family{}
	for f := range fonts {
		parsed, err := sfnt.Parse(f.Data())
		if err != nil {
			fam.err = errors.Join(fam.err, fmt.Errorf("embedded font %s: %w", f.Name(), err))
		}
		fam.fonts[f] = parsed
		for r := range rune(early) {
			fam.widths[f][r] = int16(fam.measure(f, r))
		}
	}
	return fam
}

// width is the advance in thousandths of the size, or absent.
func (fam *family) width(f Font, r rune) int {
	if r >= 0 && r < early {
		return int(fam.widths[f][r])
	}
	return fam.measure(f, r)
}

func (fam *family) measure(f Font, r rune) int {
	parsed := fam.fonts[f]
	if parsed == nil || r < ' ' || r > 0xffff {
		return absent
	}
	glyph, err := parsed.GlyphIndex(nil, r)
	if err != nil || glyph == 0 {
		return absent
	}
	em := int(parsed.UnitsPerEm())
	advance, err := parsed.GlyphAdvance(nil, glyph, fixed.I(em), font.HintingNone)
	if err != nil {
		return absent
	}
	return (advance.Round()*1000 + em/2) / em
}

// of gives the text font of a face, and what serves where that lacks a character.
func of(face sheet.Face) (first, second Font) {
	if face == sheet.Bold {
		return GoBold, FallbackBold
	}
	return GoRegular, FallbackRegular
}

// choose gives the font that prints r in a face, and its advance in thousandths.
func (fam *family) choose(r rune, face sheet.Face) (f Font, width int, ok bool) {
	first, second := of(face)
	if w := fam.width(first, r); w != absent {
		return first, w, true
	}
	w := fam.width(second, r)
	return second, w, w != absent
}
