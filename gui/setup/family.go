package setup

import "slices"

// MaxHandFamilies is how many families can be set by hand.
const MaxHandFamilies = 6

// Family is a family set by hand: a place on the light side and one on the shadow side.
type Family struct{ Light, Shadow Place }

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
