package colour

import "math"

// CIEDE2000 returns the CIEDE2000 difference of two colours, with all weights 1.
// Source: SHARMA.
func CIEDE2000(p, q Lab) float64 {
	p, q = stretchA(p, q)
	cp, cq := p.Chroma(), q.Chroma()
	dL, dC := q.L-p.L, cq-cp
	meanL, meanC := (p.L+q.L)/2, (cp+cq)/2
	dh, meanH := hueParts(p.Hue(), q.Hue(), cp*cq == 0)
	dH := 2 * math.Sqrt(cp*cq) * math.Sin(Radians(dh)/2)

	t := 1 - 0.17*cosDegrees(meanH-30) + 0.24*cosDegrees(2*meanH) +
		0.32*cosDegrees(3*meanH+6) - 0.20*cosDegrees(4*meanH-63)
	off := (meanL - 50) * (meanL - 50)
	sL := 1 + 0.015*off/math.Sqrt(20+off)
	sC := 1 + 0.045*meanC
	sH := 1 + 0.015*meanC*t
	beside := (meanH - 275) / 25
	turn := 30 * math.Exp(-beside*beside)
	rT := -math.Sin(Radians(2*turn)) * 2 * seventh(meanC)

	l, c, h := dL/sL, dC/sC, dH/sH
	return math.Sqrt(max(0, l*l+c*c+h*h+rT*c*h))
}

// stretchA returns the two colours with their a* stretched near the neutrals.
func stretchA(p, q Lab) (Lab, Lab) {
	g := 0.5 * (1 - seventh((p.Chroma()+q.Chroma())/2))
	p.A *= 1 + g
	q.A *= 1 + g
	return p, q
}

// seventh is sqrt(c⁷ / (c⁷ + 25⁷)).
func seventh(c float64) float64 {
	c3 := c * c * c
	c7 := c3 * c3 * c
	return math.Sqrt(c7 / (c7 + 6103515625))
}

// hueParts returns the difference and the mean of two hues in degrees, the shorter way
// round; neutral says that one of them has none.
func hueParts(p, q float64, neutral bool) (difference, mean float64) {
	if neutral {
		return 0, p + q
	}
	difference, mean = q-p, (p+q)/2
	if math.Abs(difference) > 180 {
		difference -= math.Copysign(360, difference)
		if p+q < 360 {
			mean += 180
		} else {
			mean -= 180
		}
	}
	return difference, mean
}

// Radians turns degrees into radians.
func Radians(degrees float64) float64 { return degrees * math.Pi / 180 }

func cosDegrees(degrees float64) float64 { return math.Cos(Radians(degrees)) }
