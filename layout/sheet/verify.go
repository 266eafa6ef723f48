package sheet

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Verify says what would break a document made from the packet: no sheets, sizes
// that are not lengths, NaN or infinite numbers, text without a size, an
// unknown face, two anchors of one name, a link without its anchor. All faults are
// given, joined.
func Verify(p Packet) error {
	var faults []error
	if len(p.Sheets) == 0 {
		faults = append(faults, errors.New("a packet without sheets"))
	}
	known, double := anchors(p)
	faults = append(faults, double...)
	for i, s := range p.Sheets {
		for _, fault := range verifySheet(s, known) {
			faults = append(faults, fmt.Errorf("sheet %d %q: %w", i+1, s.Title, fault))
		}
	}
	return errors.Join(faults...)
}

func anchors(p Packet) (known map[string]bool, double []error) {
	known = map[string]bool{}
	for i, s := range p.Sheets {
		for _, m := range s.Marks {
			a, ok := m.(Anchor)
			if ok && known[a.Name] {
				double = append(double, fmt.Errorf("sheet %d %q: a second anchor %q", i+1, s.Title, a.Name))
			}
			if ok {
				known[a.Name] = true
			}
		}
	}
	return known, double
}

func verifySheet(s Sheet, known map[string]bool) []error {
	var faults []error
	if !finite(s.W, s.H) || s.W <= 0 || s.H <= 0 || s.W > 5000 || s.H > 5000 {
		faults = append(faults, fmt.Errorf("not a paper size: %v × %v mm", s.W, s.H))
	}
	for _, m := range s.Marks {
		if err := verifyMark(m, known); err != nil {
			faults = append(faults, err)
		}
	}
	return faults
}

func verifyMark(m Mark, known map[string]bool) error {
	switch m := m.(type) {
	case Text:
		return verifyText(m)
	case Path:
		return verifyPath(m)
	case Link:
		if !known[m.Target] {
			return fmt.Errorf("a link to %q, which is nowhere", m.Target)
		}
		return numbers("link to", m.Target, m.X, m.Y, m.W, m.H)
	case Anchor:
		return numbers("anchor", m.Name, m.X, m.Y)
	case Picture:
		return verifyPicture(m)
	}
	return fmt.Errorf("a mark of unknown kind %T", m)
}

func verifyText(t Text) error {
	if t.Face != Regular && t.Face != Bold {
		return fmt.Errorf("text %q: face %d is not known", t.S, t.Face)
	}
	if t.Size <= 0 {
		return fmt.Errorf("text %q: size %v", t.S, t.Size)
	}
	if finite(t.X, t.Y, t.Size, t.Turn) {
		return nil
	}
	return numbers("text", strconv.Quote(t.S), t.X, t.Y, t.Size, t.Turn)
}

func verifyPicture(p Picture) error {
	if p.Form != JPEG && p.Form != PNG || len(p.Data) == 0 {
		return fmt.Errorf("picture %q: %d bytes of form %q", p.Words, len(p.Data), p.Form)
	}
	if finite(p.X, p.Y, p.W, p.H) && (p.W <= 0 || p.H <= 0) {
		return fmt.Errorf("picture %q: an area of %v × %v mm", p.Words, p.W, p.H)
	}
	return numbers("picture", strconv.Quote(p.Words), p.X, p.Y, p.W, p.H)
}

func verifyPath(p Path) error {
	fault := numbers("a path", "", p.Start.X, p.Start.Y)
	for _, s := range p.Segs {
		if (s.C1 == nil) != (s.C2 == nil) {
			return errors.New("a curve with one control point")
		}
		fault = cmp.Or(fault, numbers("a path", "", s.P.X, s.P.Y))
		if s.C1 != nil {
			fault = cmp.Or(fault, numbers("a path", "", s.C1.X, s.C1.Y, s.C2.X, s.C2.Y))
		}
	}
	if s := p.Stroke; s != nil {
		if s.Width < 0 || len(s.Dash) > 0 && slices.Min(s.Dash) < 0 {
			return fmt.Errorf("a path with a negative width or dash: %v, %v", s.Width, s.Dash)
		}
		fault = cmp.Or(fault, numbers("a path", "", s.Width), numbers("a path", "", s.Dash...))
	}
	return fault
}

// numbers says what is wrong with the numbers of a mark; its kind and name are joined only then.
func numbers(kind, name string, all ...float64) error {
	if finite(all...) {
		return nil
	}
	shown := make([]float64, len(all)) // so that all need not outlive the call
	copy(shown, all)
	return fmt.Errorf("%s: a number that is no length: %v", strings.TrimSpace(kind+" "+name), shown)
}

func finite(all ...float64) bool {
	for _, f := range all {
		if math.IsNaN(f) || math.IsInf(f, 0) || math.Abs(f) > 1e6 {
			return false
		}
	}
	return true
}
