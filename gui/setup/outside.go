package setup

import (
	"image"
	"slices"
)

// Inside returns the setup without the spots, the marked places and the families set by hand that lie
// outside of a part.
func (s Setup) Inside(part image.Rectangle) Setup {
	out := func(p Place) bool { return !p.In(part) }
	s.Places = slices.DeleteFunc(slices.Clone(s.Places), out)
	s.Focus = slices.DeleteFunc(slices.Clone(s.Focus), out)
	s.Families = slices.DeleteFunc(slices.Clone(s.Families), func(f Family) bool { return out(f.Light) || out(f.Shadow) })
	return s
}

// OutsideMoved returns the setup with those said to be lost that lie outside of a picture, and
// whether there are any that were not said to be.
func (s Setup) OutsideMoved(picture image.Rectangle) (next Setup, any bool) {
	lost := func(p *Place) {
		if !p.Moved && !p.In(picture) {
			p.Moved, any = true, true
		}
	}
	s.Places, s.Families, s.Focus = slices.Clone(s.Places), slices.Clone(s.Families), slices.Clone(s.Focus)
	for i := range s.Places {
		lost(&s.Places[i])
	}
	for i := range s.Focus {
		lost(&s.Focus[i])
	}
	for i := range s.Families {
		lost(&s.Families[i].Light)
		lost(&s.Families[i].Shadow)
	}
	return s, any
}
