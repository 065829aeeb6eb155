package fixed

import (
	"math"

	"app.tonedesk/analysis/colour"
)

// Lab is what the views that paint by colour want to know of a pixel: the differences
// of CIE15's cube roots, from which a* and b* are made; in 1/LabUnit.
type Lab struct{ A, B int32 } // f(X) - f(Y), f(Y) - f(Z)

// LabUnit is 1 in a Lab.
const (
	LabBits = 22
	LabUnit = 1 << LabBits
)

// LabOf returns a pixel's differences, both exactly 0 for a neutral. a* and b* by them
// are within 0.01 of those of the light, as a reduced picture has it.
func LabOf(linear []uint16) Lab {
	r, g, b := uint32(linear[0]), uint32(linear[1]), uint32(linear[2])
	w := &LabWeights
	x := r*w[0][0] + g*w[0][1] + b*w[0][2]
	y := r*w[1][0] + g*w[1][1] + b*w[1][2]
	z := r*w[2][0] + g*w[2][1] + b*w[2][2]
	fx, fy, fz := LabRoots.Of(x), LabRoots.Of(y), LabRoots.Of(z)
	return Lab{fx - fy, fy - fz}
}

// LabWeights are the shares of red, green and blue in X, Y and Z, relative to white, in
// 1/65536. Each row adds up to 1, so that X, Y and Z of a neutral are the same number.
var LabWeights = func() (weights [3][3]uint32) {
	channels := [3][3]float64{}
	for c := range channels {
		light := [3]float64{}
		light[c] = 1
		x, y, z := colour.XYZOf(light[0], light[1], light[2])
		channels[c] = [3]float64{x / colour.WhiteX, y, z / colour.WhiteZ}
	}
	for i := range weights {
		for c := range channels {
			weights[i][c] = uint32(math.Round(1 << 16 * channels[c][i]))
		}
		weights[i][1] += 1<<16 - weights[i][0] - weights[i][1] - weights[i][2]
	}
	return weights
}()

// labCurve is CIE15's cube root with its straight piece, by straight pieces of 1/4096 of
// white: each begins at from, and rises by rise.
type labCurve [1 << 12]struct{ from, rise int32 }

// LabRoots takes light of which 65535 * 65536 is white.
var LabRoots = func() *labCurve {
	const white = LinearWhite << 16
	at := func(i int) int32 { return int32(math.Round(LabUnit * colour.LabF(float64(i<<20)/white))) }
	curve := new(labCurve)
	for i := range curve {
		curve[i].from, curve[i].rise = at(i), at(i+1)-at(i)
	}
	return curve
}()

// Of returns the root of light, in 1/LabUnit.
func (c *labCurve) Of(light uint32) int32 {
	piece := &c[light>>20]
	return piece.from + int32(int64(piece.rise)*int64(light&(1<<20-1))>>20)
}
