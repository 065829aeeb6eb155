package setup

import (
	"image"
	"slices"
)

// MaxHandFamilies is how many families can be set by hand.
const MaxHandFamilies = 6

// Family is a family set by hand: a place on the light side and one on the shadow side.
type Family struct{ Light, Shadow Place }

// Moved reports whether the picture has jumped since either side was placed.
func (f Family) Moved() bool { return f.Light.Moved || f.Shadow.Moved }

// WithFamily returns the setup with one more family set by hand.
func (s Setup) WithFamily(f Family) Setup {
	s.Families = append(slices.Clip(s.Families), f)
	return s
}

// WithoutFamily returns the setup without the family set by hand at i.
func (s Setup) WithoutFamily(i int) Setup {
	s.Families = slices.Delete(slices.Clone(s.Families), i, i+1)
	return s
}

// WithSideAt returns the setup with the centre of one side of the family set by hand at i, the
// first or the second, at a point.
func (s Setup) WithSideAt(i int, second bool, at image.Point) Setup {
	s.Families = slices.Clone(s.Families)
	side := &s.Families[i].Light
	if second {
		side = &s.Families[i].Shadow
	}
	*side = side.To(at)
	return s
}
