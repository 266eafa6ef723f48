package sight

// View is one way of seeing a colour.
type View int

// The views in which colours are compared. Grey is how a black-and-white print
// shows them; it carries no colour and takes no part in the distance.
const (
	Normal View = iota
	Protan
	Deutan
	Tritan
	Dim
	Grey
)

// deficiency holds the matrices of full protanopia, deuteranopia and
// tritanopia, for linear light: Machado, Oliveira and Fernandes, "A
// Physiologically-based Model for Simulation of Color Vision Deficiency",
// IEEE TVCG 15 (2009), severity 1.0.
var deficiency = map[View][3][3]float64{
	Protan: {{.152286, 1.052583, -.204868}, {.114503, .786281, .099216}, {-.003882, -.048116, 1.051998}},
	Deutan: {{.367322, .860646, -.227968}, {.280085, .672501, .047413}, {-.011820, .042940, .968881}},
	Tritan: {{1.255528, -.076749, -.178779}, {-.078411, .930809, .147602}, {.004733, .691367, .303900}},
}

// Look gives a colour as it appears in a view.
func Look(s Shade, v View) Lab {
	x := decode(s)
	switch v {
	case Protan, Deutan, Tritan:
		return x.times(deficiency[v]).clamp().lab()
	case Dim:
		return dimmed(x)
	case Grey:
		return Lab{L: x.lab().L}
	}
	return x.lab()
}

// dimmed is a colour in a tenth of the light with half of its chroma left (our
// own model of a dark footwell, no source).
func dimmed(x linear) Lab {
	for i := range x {
		x[i] *= 0.1
	}
	p := x.lab()
	return Lab{L: p.L, A: p.A / 2, B: p.B / 2}
}
