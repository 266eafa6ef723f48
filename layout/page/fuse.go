package page

import (
	"strings"

	"example.com/loomfolio/layout/sheet"
	"example.com/loomfolio/layout/typeface"
)

// bodyShades are the sRGB values with which fuse bodies are drawn: tints of our
// own that stay apart from each other and carry dark or white figures. Which rating
// has which colour is said by package rating (ISO 8820-3, DIN 72581-3).
var bodyShades = []struct {
	name  string
	shade sheet.Colour
}{
	{"black", sheet.Colour{R: 0x2b, G: 0x2b, B: 0x2b}},
	{"grey", sheet.Colour{R: 0xa3, G: 0xa7, B: 0xac}},
	{"violet", sheet.Colour{R: 0x7d, G: 0x4f, B: 0xa6}},
	{"pink", sheet.Colour{R: 0xf3, G: 0xa9, B: 0xc0}},
	{"light brown", sheet.Colour{R: 0xd8, G: 0xb0, B: 0x84}},
	{"tan", sheet.Colour{R: 0xd8, G: 0xb0, B: 0x84}},
	{"brown", sheet.Colour{R: 0x7a, G: 0x4a, B: 0x2a}},
	{"red", sheet.Colour{R: 0xc9, G: 0x20, B: 0x2e}},
	{"blue-green", sheet.Colour{R: 0x2a, G: 0xa8, B: 0xa0}},
	{"blue", sheet.Colour{R: 0x6c, G: 0xb4, B: 0xe4}},
	{"light blue", sheet.Colour{R: 0x6c, G: 0xb4, B: 0xe4}},
	{"yellow", sheet.Colour{R: 0xf5, G: 0xd2, B: 0x2d}},
	{"clear", sheet.Colour{R: 0xfa, G: 0xfa, B: 0xf5}},
	{"white", sheet.Colour{R: 0xfa, G: 0xfa, B: 0xf5}},
	{"natural", sheet.Colour{R: 0xfa, G: 0xfa, B: 0xf5}},
	{"green", sheet.Colour{R: 0x74, G: 0xc2, B: 0x7b}},
	{"light green", sheet.Colour{R: 0x74, G: 0xc2, B: 0x7b}},
	{"orange", sheet.Colour{R: 0xf0, G: 0x8a, B: 0x2c}},
}

// FuseShade gives the tint of a fuse body's colour by its name: the name as a
// whole, else its first part before a slash or bracket. ok is false for names
// that no body has ("" for bodies without a colour code): these are drawn white.
func FuseShade(name string) (shade sheet.Colour, ok bool) {
	for _, n := range []string{name, first(name)} {
		for _, b := range bodyShades {
			if strings.EqualFold(n, b.name) {
				return b.shade, true
			}
		}
	}
	return sheet.White, false
}

func first(name string) string {
	if i := strings.IndexAny(name, "/("); i >= 0 {
		name = name[:i]
	}
	return strings.TrimSpace(name)
}

// Fuse is what is drawn of a fuse.
type Fuse struct {
	Body    string // mini blade maxi bolt glass; "" is drawn as blade
	Colour  string // name of the body's colour; "" where the body has no code
	Rating  string // "10 A"; the figures shrink to fit
	Breaker bool
}

// Draw puts the fuse in the middle of an area, its rating big on the body's
// colour. The shape tells the body: blades with two prongs (mini narrow, maxi
// wide), a bolted link with two eyes, a glass tube with caps, a breaker with its button.
func (f Fuse) Draw(c *sheet.Canvas, r sheet.Rect) {
	shade, _ := FuseShade(f.Colour)
	body := r
	switch {
	case f.Breaker:
		body = f.breaker(c, r)
	case f.Body == "bolt":
		body = f.bolt(c, r)
	case f.Body == "glass":
		body = f.glass(c, r)
	default:
		body = f.blade(c, r)
	}
	edge := sheet.Rounded(sheet.Thick)
	c.RoundRect(body.X, body.Y, body.W, body.H, 1.4, sheet.Both(edge, shade))
	size := typeface.Shrink(f.Rating, sheet.Bold, body.H*0.62, sheet.SizeNote, body.W-2)
	base := body.Y + body.H/2 + size*typeface.CapHeight/2
	c.Text(body.X+body.W/2, base, f.Rating, sheet.Strong(size).In(OnFill(shade)).At(sheet.Centre))
}

var metal = sheet.Colour{R: 0xd4, G: 0xd4, B: 0xd4}

// blade draws the prongs and gives the place of the body above them.
func (f Fuse) blade(c *sheet.Canvas, r sheet.Rect) sheet.Rect {
	share := map[string]float64{"mini": 0.68, "maxi": 1}[f.Body]
	if share == 0 {
		share = 0.82
	}
	prong := r.H * 0.24
	body := sheet.Rect{X: r.X + r.W*(1-share)/2, Y: r.Y, W: r.W * share, H: r.H - prong}
	wide := body.W * 0.16
	for _, x := range []float64{body.X + body.W*0.14, body.Right() - body.W*0.14 - wide} {
		c.Rect(x, body.Bottom()-0.5, wide, prong+0.2, sheet.Both(sheet.Solid(sheet.Thin), metal))
	}
	return body
}

// bolt draws a strip with an eye at each end; the body lies on it.
func (f Fuse) bolt(c *sheet.Canvas, r sheet.Rect) sheet.Rect {
	ear := r.W * 0.17
	strip := sheet.Rect{X: r.X, Y: r.Y + r.H*0.26, W: r.W, H: r.H * 0.48}
	c.RoundRect(strip.X, strip.Y, strip.W, strip.H, strip.H/2, sheet.Both(sheet.Solid(sheet.Thin), metal))
	for _, x := range []float64{strip.X + ear*0.55, strip.Right() - ear*0.55} {
		c.Circle(x, strip.Y+strip.H/2, strip.H*0.22, sheet.Both(sheet.Solid(sheet.Thin), sheet.White))
	}
	return sheet.Rect{X: r.X + ear, Y: r.Y + r.H*0.08, W: r.W - 2*ear, H: r.H * 0.84}
}

// glass draws a cap at each end of the tube.
func (f Fuse) glass(c *sheet.Canvas, r sheet.Rect) sheet.Rect {
	cap := r.W * 0.14
	for _, x := range []float64{r.X, r.Right() - cap} {
		c.Rect(x, r.Y+r.H*0.1, cap, r.H*0.8, sheet.Both(sheet.Solid(sheet.Thin), metal))
	}
	return sheet.Rect{X: r.X + cap - 0.4, Y: r.Y + r.H*0.15, W: r.W - 2*cap + 0.8, H: r.H * 0.7}
}

// breaker draws the reset button on top of the body.
func (f Fuse) breaker(c *sheet.Canvas, r sheet.Rect) sheet.Rect {
	button := r.H * 0.22
	c.RoundRect(r.X+r.W*0.36, r.Y, r.W*0.28, button+1, 0.6, sheet.Both(sheet.Solid(sheet.Thin), metal))
	return sheet.Rect{X: r.X + r.W*0.1, Y: r.Y + button, W: r.W * 0.8, H: r.H - button}
}

// BodyWords says what to pick from the box: "red, blade", "bolt-down link",
// "circuit breaker".
func (f Fuse) BodyWords() string {
	if f.Breaker {
		return "circuit breaker"
	}
	kind := map[string]string{"bolt": "bolt-down link", "glass": "glass tube", "mini": "mini blade", "maxi": "maxi blade"}[f.Body]
	if kind == "" {
		kind = "blade"
	}
	if f.Colour == "" {
		return kind
	}
	return f.Colour + ", " + kind
}
