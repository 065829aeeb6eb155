package gui

import "slices"

// maxHandFamilies is how many families can be set by hand.
const maxHandFamilies = 6

// handFamily is a family set by hand: a place on the light side and one on the shadow side.
type handFamily struct{ Light, Shadow place }

// withFamily returns the setup with one more family set by hand.
func (s setup) withFamily(f handFamily) setup {
	s.Families = append(slices.Clip(s.Families), f)
	return s
}

// withoutFamily returns the setup without the family set by hand at i.
func (s setup) withoutFamily(i int) setup {
	s.Families = slices.Delete(slices.Clone(s.Families), i, i+1)
	return s
}
