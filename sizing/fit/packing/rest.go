package packing

import "math"

// FIRE's own figures, as its authors give them.
const (
	firstStep = 0.1
	mostStep  = 0.5
	quicken   = 1.1
	slow      = 0.5
	patience  = 5
	mixing    = 0.1
	unmixing  = 0.99
)

// resting is the energy below which nothing is left to push.
const resting = 1e-22

// rest pushes the circles off each other and off the rim, in place.
func (p *press) rest(at []point, rim float64, steps int) {
	n := len(at)
	speed, force := make([]point, n), make([]point, n)
	dt, alpha, down := firstStep, mixing, 0
	near := p.near(at)
	for k := range steps {
		if k%10 == 9 {
			near = p.near(at)
		}
		if p.push(at, rim, near, force) < resting {
			return
		}
		power, f, v := 0.0, 0.0, 0.0
		for i := range at {
			power += force[i].x*speed[i].x + force[i].y*speed[i].y
			f += force[i].x*force[i].x + force[i].y*force[i].y
			v += speed[i].x*speed[i].x + speed[i].y*speed[i].y
		}
		if power > 0 {
			turn := alpha * math.Sqrt(v/math.Max(f, 1e-300))
			for i := range speed {
				speed[i] = point{(1-alpha)*speed[i].x + turn*force[i].x, (1-alpha)*speed[i].y + turn*force[i].y}
			}
			if down++; down > patience {
				dt, alpha = math.Min(dt*quicken, mostStep), alpha*unmixing
			}
		} else {
			clear(speed)
			dt, alpha, down = dt*slow, mixing, 0
		}
		for i := range at {
			speed[i].x += dt * force[i].x
			speed[i].y += dt * force[i].y
			at[i].x += dt * speed[i].x
			at[i].y += dt * speed[i].y
		}
	}
}

// push sums the forces of all overlaps and gives their energy.
func (p *press) push(at []point, rim float64, near [][2]int32, force []point) float64 {
	energy := 0.0
	for i, q := range at {
		force[i] = point{}
		if d := math.Hypot(q.x, q.y); d+p.radii[i] > rim && d > 0 {
			over := d + p.radii[i] - rim
			force[i] = point{-over * q.x / d, -over * q.y / d}
			energy += over * over
		}
	}
	for _, pair := range near {
		i, j := pair[0], pair[1]
		dx, dy := at[i].x-at[j].x, at[i].y-at[j].y
		reach := p.radii[i] + p.radii[j]
		square := dx*dx + dy*dy
		if square >= reach*reach {
			continue
		}
		d := math.Sqrt(square)
		if d < 1e-9 {
			dx, dy, d = 1e-9*float64(i-j), 1e-9, 1e-9
		}
		over := reach - d
		energy += over * over
		fx, fy := over*dx/d, over*dy/d
		force[i].x += fx
		force[i].y += fy
		force[j].x -= fx
		force[j].y -= fy
	}
	return energy
}
