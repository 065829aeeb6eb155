package stills

import (
	"image"

	"app.tonedesk/gui/setup"
)

// PlaceAt is a place in a still, in its pixels.
type PlaceAt struct {
	X int `json:"x"`
	Y int `json:"y"`
}

// FocusOf returns where the eye should go in a picture whose top left lies at origin, as a still keeps
// it. What is said to be lost is left out.
func FocusOf(places []setup.Place, origin image.Point) (list []PlaceAt) {
	for _, p := range places {
		if at := p.At.Sub(origin); !p.Moved {
			list = append(list, PlaceAt{at.X, at.Y})
		}
	}
	return list
}

// Marked is where the eye should go in a still, as a setup has it.
func (m Meta) Marked() (places []setup.Place) {
	for _, p := range m.Focus[:min(len(m.Focus), setup.MaxFocus)] {
		places = append(places, setup.Place{At: image.Pt(p.X, p.Y)})
	}
	return places
}

// Focus keeps in a still where the eye should go. Errors are those of SaveNotes.
func (s *Store) Focus(id string, list []PlaceAt) error {
	return about("keep the focus of still", id, s.change(id, func() error {
		m, err := s.readMeta(id)
		if err != nil {
			return err
		}
		m.Focus = list
		return s.writeMeta(id, m)
	}))
}
