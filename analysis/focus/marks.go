package focus

import (
	"image"
	"math"
)

// Mark is a place where the painter wants the eye to go, in shares of the picture's width and
// height.
type Mark struct{ X, Y float64 }

// Marked is what is measured at a mark: the strongest place whose middle lies in its disc.
type Marked struct {
	Place
	Share float64 // of the contrast of the strongest place of the picture, 0 to 1; 0 where there is none
}

// Answer says how marks stand to the strongest place.
type Answer struct {
	Marks []Marked // one a mark, as they were given
	// There is whether the strongest contrast lies at a mark, Strongest at which: of several the strongest,
	// of those as strong the first. Where it lies at none it is -1.
	There     bool
	Strongest int
}

// Of answers for marks. A mark outside of the picture counts as at its border, and what it has in
// common with others is counted for each.
func (f *Found) Of(marks []Mark) Answer {
	a := Answer{Strongest: -1}
	best := 0.0
	for i, m := range marks {
		got := f.marked(m)
		a.Marks = append(a.Marks, got)
		if got.Share >= f.options.AsStrong && got.Share > best {
			a.There, a.Strongest, best = true, i, got.Share
		}
	}
	return a
}

// Radius returns that of a place, in shares of the picture's longer side.
func (f *Found) Radius() float64 {
	if f.planes.w == 0 {
		return f.options.Radius
	}
	return f.radius / float64(max(f.planes.w, f.planes.h))
}

// Measured reports whether anything was measured: a picture in which all is left out has nothing.
func (f *Found) Measured() bool {
	for _, counts := range f.planes.counts {
		if counts {
			return true
		}
	}
	return false
}

func (f *Found) marked(m Mark) Marked {
	p := &f.planes
	if !f.Measured() {
		return Marked{Place: Place{X: m.X, Y: m.Y}}
	}
	cell := func(v float64, n int) int { return max(0, min(int(math.Floor(v*float64(n))), n-1)) }
	middle := cell(m.Y, p.h)*p.w + cell(m.X, p.w)
	at, best, near := -1, -1.0, 0.0
	p.around(middle, f.radius, func(j int, apart float64) {
		if s := p.strength(j); s > best || s == best && apart < near {
			at, best, near = j, s, apart
		}
	})
	if at < 0 { // all around it is left out
		return Marked{Place: Place{X: m.X, Y: m.Y}}
	}
	got := Marked{Place: f.placeAt(at)}
	if len(f.Places) > 0 {
		got.Share = min(got.Contrast/f.Places[0].Contrast, 1)
	}
	return got
}

// MarkOf returns the mark on a pixel of a picture of some size.
func MarkOf(at, size image.Point) Mark {
	return Mark{(float64(at.X) + 0.5) / float64(max(size.X, 1)), (float64(at.Y) + 0.5) / float64(max(size.Y, 1))}
}
