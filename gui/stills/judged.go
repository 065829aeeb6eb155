package stills

import (
	"image"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/setup"
)

// LocalColour is a local colour that the painter kept, or refused.
type LocalColour struct {
	Kept   bool     `json:"kept"` // else refused
	Light  ColourAt `json:"light"`
	Shadow ColourAt `json:"shadow"`
}

// ColourAt is the colour of a side, and a place in it.
type ColourAt struct {
	Colour colour.RGB `json:"colour"`
	X      int        `json:"x"` // pixels of the still
	Y      int        `json:"y"`
}

// mostLocalColours is how many are read of a still: twice what can be found in a picture (our
// choice), since each is followed.
const mostLocalColours = 126

// LocalColoursOf returns what was said of the local colours of a picture whose top left lies at
// origin, as a still keeps it.
func LocalColoursOf(judged []setup.Judged, origin image.Point) (list []LocalColour) {
	at := func(s setup.Side) ColourAt {
		p := s.At.Sub(origin)
		return ColourAt{s.Colour, p.X, p.Y}
	}
	for _, j := range judged {
		list = append(list, LocalColour{j.Kept, at(j.Light), at(j.Shadow)})
	}
	return list
}

// Judged is what a still says of its local colours, as a setup has it, without tracks.
func (m Meta) Judged() (list []setup.Judged) {
	side := func(c ColourAt) setup.Side { return setup.Side{Colour: c.Colour, At: image.Pt(c.X, c.Y)} }
	for _, c := range m.LocalColours[:min(len(m.LocalColours), mostLocalColours)] {
		list = append(list, setup.Judged{Kept: c.Kept, Light: side(c.Light), Shadow: side(c.Shadow)})
	}
	return list
}

// Judge keeps in a still what is said of its local colours. Errors are those of SaveNotes.
func (s *Store) Judge(id string, list []LocalColour) error {
	return about("keep the local colours of still", id, s.change(id, func() error {
		m, err := s.readMeta(id)
		if err != nil {
			return err
		}
		m.LocalColours, m.Automatic = list, false
		return s.writeMeta(id, m)
	}))
}
