package heat

import "math"

const (
	kelvin   = 273.15
	gravity  = 9.81
	pressure = 101325.0    // Pa, sea level
	gas      = 287.05      // J/kg.K, dry air
	airHeat  = 1007.0      // J/kg.K at constant pressure, 1005 to 1025 from 0 to 200 C, from memory
	stefan   = 5.670374e-8 // W/m2.K4, CODATA
	stillAir = 0.026       // W/m.K, of the air between wires: 25 C by airConductivity, warmer air conducts better
)

// airViscosity is that of dry air in Pa.s at T kelvin: Sutherland's form as in
// UW/MHTL 8406 (1984), quoted by a cable-calculation page.
func airViscosity(t float64) float64 { return 1.4592e-6 * t * math.Sqrt(t) / (t + 109.10) }

// airConductivity is that of dry air in W/m.K at T kelvin: the companion form of
// the same report, from memory. It lies up to 2 % under Carroll (1968) and
// within 1.5 % of IEC 60287-2-3 from 0 to 100 C.
func airConductivity(t float64) float64 { return 2.3340e-3 * t * math.Sqrt(t) / (t + 164.54) }

// nusselt is the mean over a long horizontal cylinder in still air: Churchill
// and Chu, Int. J. Heat Mass Transfer 18 (1975) 1049, for Rayleigh numbers up to
// 1e12; as printed in ht, an open heat-transfer library in Python.
func nusselt(rayleigh, prandtl float64) float64 {
	shape := math.Pow(1+math.Pow(0.559/prandtl, 9.0/16), 8.0/27)
	root := 0.60 + 0.387*math.Cbrt(math.Sqrt(rayleigh))/shape
	return root * root
}

// surface is the outside of a wire or a bundle, a long horizontal cylinder.
type surface struct {
	diameter   float64 // m
	air        float64 // C
	emissivity float64
}

// convection gives the coefficient in W/m2.K at a rise over the air, with the
// air's figures taken halfway between surface and air.
func (s surface) convection(rise float64) float64 {
	film := s.air + kelvin + rise/2
	mu, k, rho := airViscosity(film), airConductivity(film), pressure/(gas*film)
	d := s.diameter
	rayleigh := gravity * rise / film * d * d * d * rho * rho * airHeat / (mu * k)
	return nusselt(rayleigh, mu*airHeat/k) * k / d
}

// radiation gives the coefficient in W/m2.K to surroundings at the air's temperature.
func (s surface) radiation(rise float64) float64 {
	cold := s.air + kelvin
	hot := cold + rise
	return s.emissivity * stefan * (hot + cold) * (hot*hot + cold*cold)
}

// loss gives the heat in W/m that the surface gives off at a rise over the air.
func (s surface) loss(rise float64) float64 {
	return math.Pi * s.diameter * rise * (s.convection(rise) + s.radiation(rise))
}
