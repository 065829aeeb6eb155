package setup

import "slices"

// MaxFocus is how many places can be marked for the eye to go to: as many as the strongest places that
// are told.
const MaxFocus = 5

// WithFocus returns the setup with one more place where the eye should go.
func (s Setup) WithFocus(p Place) Setup {
	s.Focus = append(slices.Clip(s.Focus), p)
	return s
}

// WithoutFocus returns the setup without the place at i.
func (s Setup) WithoutFocus(i int) Setup {
	s.Focus = slices.Delete(slices.Clone(s.Focus), i, i+1)
	return s
}
