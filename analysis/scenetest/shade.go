package scenetest

import "math"

// shade says how far a place lies on the lit side of a form's terminator: pixels, positive
// in the light.
type shade func(p point) float64

// shading is how the terminator runs over an outline in a light from a direction.
type shading func(o outline, light point) shade

// toward returns the unit vector to a light that comes from an angle in degrees, 0 from
// the right, 90 from above.
func toward(degrees float64) point {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return point{cos, -sin}
}

// from shades in a light of its own, from an angle in degrees.
func from(degrees float64, s shading) shading { return facing(toward(degrees), s) }

// facing shades in a light of its own, from a direction.
func facing(light point, s shading) shading {
	return func(o outline, _ point) shade { return s(o, light) }
}

// plane parts the form by a straight terminator through its middle, moved toward the light
// by offset pixels, with a wobble of so many pixels and waves to the thousand pixels.
func plane(offset, wobble, waves float64) shading {
	return func(o outline, light point) shade {
		return planeAt(o.middle(), offset, wobble, waves)(o, light)
	}
}

// planeAt is plane through another place.
func planeAt(c point, offset, wobble, waves float64) shading {
	return func(_ outline, light point) shade {
		return func(p point) float64 {
			u := (p.x-c.x)*light.x + (p.y-c.y)*light.y
			v := -(p.x-c.x)*light.y + (p.y-c.y)*light.x
			return u - offset + wobble*math.Sin(v*waves*2*math.Pi/1000+1)
		}
	}
}

// edgeAt is a straight terminator across x, the light on its left.
func edgeAt(x float64) shading { return from(180, planeAt(point{x, 0}, 0, 0, 0)) }

// ball shades an outline as a ball a little larger than its box, seen from the front; front
// is how far the light comes from the viewer's side, 0 to 2.
func ball(front float64) shading {
	const larger = 1.3 // corners of the box lie on the ball too
	front /= 2
	return func(o outline, light point) shade {
		b, c := o.bounds(), o.middle()
		rx, ry := larger*float64(b.Dx())/2, larger*float64(b.Dy())/2
		side, r := math.Sqrt(1-front*front), math.Sqrt(rx*ry)
		return func(p point) float64 {
			u, v := (p.x-c.x)/rx, (p.y-c.y)/ry
			z := math.Sqrt(max(0, 1-u*u-v*v))
			return r * (side*(u*light.x+v*light.y) + front*z)
		}
	}
}

// follow lays the shadow along the outline's far side, as wide as depth pixels where it
// faces away from the light.
func follow(depth float64) shading {
	return func(o outline, light point) shade {
		b := o.bounds().Inset(-int(depth) - 8)
		step := max(2, o.size()/90)
		w, h := int(float64(b.Dx())/step)+2, int(float64(b.Dy())/step)+2
		grid := make([]float64, w*h)
		for i := range grid {
			grid[i] = o.inside(point{float64(b.Min.X) + float64(i%w)*step, float64(b.Min.Y) + float64(i/w)*step})
		}
		return func(p point) float64 {
			x := (p.x - light.x*depth - float64(b.Min.X)) / step
			y := (p.y - light.y*depth - float64(b.Min.Y)) / step
			x, y = min(max(x, 0), float64(w)-1.001), min(max(y, 0), float64(h)-1.001)
			i, k := int(x), int(y)
			x, y = x-float64(i), y-float64(k)
			q := grid[k*w+i:]
			return (q[0]*(1-x)+q[1]*x)*(1-y) + (q[w]*(1-x)+q[w+1]*x)*y
		}
	}
}

// mean shades halfway between two shadings.
func mean(a, b shading) shading {
	return func(o outline, light point) shade {
		a, b := a(o, light), b(o, light)
		return func(p point) float64 { return (a(p) + b(p)) / 2 }
	}
}

// darker is in shadow where either is: a cast shadow upon a form.
func darker(a, b shading) shading {
	return func(o outline, light point) shade {
		a, b := a(o, light), b(o, light)
		return func(p point) float64 { return min(a(p), b(p)) }
	}
}

// folds adds narrow wedges of shadow that run away from the light side: cloth.
func folds(base shading, count int, wide float64) shading {
	return func(o outline, light point) shade {
		b, middle, base := o.bounds(), o.middle().x, base(o, light)
		return func(p point) float64 {
			s := base(p)
			down := (p.y - float64(b.Min.Y)) / float64(b.Dy())
			for i := range count {
				x := float64(b.Min.X) + float64(b.Dx())*(0.12+0.76*(float64(i)+0.5)/float64(count))
				x += (x - middle) * 0.3 * (down - 0.5)
				half := wide * (down - 0.25 - 0.12*float64(i%3))
				s = min(s, math.Abs(p.x-x)-half)
			}
			return s
		}
	}
}

// ease rises smoothly from 0 to 1 between from and to.
func ease(from, to, x float64) float64 {
	t := min(max((x-from)/(to-from), 0), 1)
	return t * t * (3 - 2*t)
}
