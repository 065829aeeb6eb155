package scenetest

import (
	"image"
	"image/draw"
	"math"

	"golang.org/x/image/vector"
)

// point is a place in pixels from the picture's top left, or in a shape's own units.
type point struct{ x, y float64 }

// outline is a closed line of short straight pieces.
type outline []point

// smooth runs a closed curve through the points (Catmull-Rom); a point given twice in a
// row is a corner.
func smooth(points outline) outline {
	const pieces = 12
	n := len(points)
	var out outline
	for i := range points {
		a, b, c, d := points[(i+n-1)%n], points[i], points[(i+1)%n], points[(i+2)%n]
		if b == c {
			continue
		}
		for k := range pieces {
			t := float64(k) / pieces
			out = append(out, point{spline(a.x, b.x, c.x, d.x, t), spline(a.y, b.y, c.y, d.y, t)})
		}
	}
	return out
}

func spline(a, b, c, d, t float64) float64 {
	return b + t/2*(c-a+t*(2*a-5*b+4*c-d+t*(3*(b-c)+d-a)))
}

// at moves a shape from its own units, -1 to 1 each way, to a middle and half sizes in
// pixels, turned by degrees.
func (o outline) at(x, y, halfWidth, halfHeight, degrees float64) outline {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	out := make(outline, len(o))
	for i, p := range o {
		u, v := p.x*halfWidth, p.y*halfHeight
		out[i] = point{x + u*cos - v*sin, y + u*sin + v*cos}
	}
	return out
}

// bounds returns the outline's box in whole pixels.
func (o outline) bounds() image.Rectangle {
	low, high := point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	for _, p := range o {
		low = point{min(low.x, p.x), min(low.y, p.y)}
		high = point{max(high.x, p.x), max(high.y, p.y)}
	}
	return image.Rect(int(math.Floor(low.x)), int(math.Floor(low.y)), int(math.Ceil(high.x))+1, int(math.Ceil(high.y))+1)
}

// size is the root of the box's area, in pixels.
func (o outline) size() float64 {
	b := o.bounds()
	return math.Sqrt(float64(b.Dx() * b.Dy()))
}

func (o outline) middle() point {
	b := o.bounds()
	return point{float64(b.Min.X+b.Max.X) / 2, float64(b.Min.Y+b.Max.Y) / 2}
}

// cover returns how much of each pixel of the picture the outline covers.
func (o outline) cover(picture image.Rectangle) *image.Alpha {
	box := o.bounds().Intersect(picture)
	mask := image.NewAlpha(box)
	if box.Empty() {
		return mask
	}
	r := vector.NewRasterizer(box.Dx(), box.Dy())
	r.DrawOp = draw.Src
	for i, p := range o {
		x, y := float32(p.x-float64(box.Min.X)), float32(p.y-float64(box.Min.Y))
		if i == 0 {
			r.MoveTo(x, y)
			continue
		}
		r.LineTo(x, y)
	}
	r.ClosePath()
	r.Draw(mask, box, image.Opaque, image.Point{})
	return mask
}

// inside returns the distance to the outline in pixels, positive inside.
func (o outline) inside(p point) float64 {
	least, in := math.Inf(1), false
	for i, b := range o {
		a := o[(i+len(o)-1)%len(o)]
		least = min(least, toPiece(p, a, b))
		if (a.y > p.y) != (b.y > p.y) && p.x < a.x+(p.y-a.y)/(b.y-a.y)*(b.x-a.x) {
			in = !in
		}
	}
	if in {
		return least
	}
	return -least
}

// toPiece returns the distance from p to the piece from a to b.
func toPiece(p, a, b point) float64 {
	dx, dy := b.x-a.x, b.y-a.y
	t := 0.0
	if length := dx*dx + dy*dy; length > 0 {
		t = min(max(((p.x-a.x)*dx+(p.y-a.y)*dy)/length, 0), 1)
	}
	return math.Hypot(p.x-a.x-t*dx, p.y-a.y-t*dy)
}
