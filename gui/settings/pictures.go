package settings

import (
	"encoding/json"

	"app.tonedesk/gui/setup"
)

// MostRemembered is of how many pictures what lies on them is remembered (our choice).
const MostRemembered = 50

// picturesName is the pictures' name in the file.
const picturesName = "remembered"

// Pictures are what is remembered of pictures, that of the one watched last first. It is never
// written to.
type Pictures []Remembered

// UnmarshalJSON reads the pictures one by one, so that a damaged one costs only itself: it becomes an
// empty one, which sound says not to be.
func (p *Pictures) UnmarshalJSON(data []byte) error {
	var raw []json.RawMessage
	if err := json.Unmarshal(data, &raw); err != nil {
		return err
	}
	*p = nil
	for _, one := range raw {
		var r Remembered
		if json.Unmarshal(one, &r) != nil {
			r = Remembered{}
		}
		*p = append(*p, r)
	}
	return nil
}

// Of returns what is remembered of a source.
func (p Pictures) Of(from setup.Source) (r Remembered, ok bool) {
	if key := WatchedOf(from).key(); key.Kind != setup.SourceNothing {
		for _, r := range p {
			if r.key() == key {
				return r, true
			}
		}
	}
	return r, false
}

// With returns the pictures with what is remembered of one from now on; an empty one is forgotten.
func (p Pictures) With(now Remembered) Pictures {
	var next Pictures
	if !now.Empty() {
		next = Pictures{now}
	}
	for _, r := range p {
		if !r.same(now.Watched) {
			next = append(next, r)
		}
	}
	return confinePictures(next)
}

// renamed returns the pictures with what is remembered of a window under its new name: in the place
// of what was remembered under that, since what lies on the picture stays there.
func (p Pictures) renamed(was, now setup.Source) Pictures {
	r, ok := p.Of(was)
	if !ok {
		return p
	}
	gone := p.With(Remembered{Watched: r.Watched})
	r.Watched = WatchedOf(now)
	return gone.With(r)
}

// roomForPictures is how many bytes of the settings' file they may take; the oldest give way.
const roomForPictures = maxSettingsFile / 2

// confinePictures returns the pictures without damaged ones and those that there is no room for:
// the same list where none are. Of two of one source the newer stays.
func confinePictures(p Pictures) Pictures {
	kept, room, known := make(Pictures, 0, len(p)), roomForPictures, make(map[setup.Source]bool, len(p))
	for i := range p {
		r := &p[i]
		if weight, key := r.weight(), r.key(); len(kept) < MostRemembered && weight <= room && !known[key] && r.sound() {
			kept, room, known[key] = append(kept, *r), room-weight, true
		}
	}
	switch len(kept) {
	case len(p):
		return p
	case 0:
		return nil // as it is read back
	}
	return kept
}

// What they take of the file at most, in bytes, with names and indents.
const (
	weightOfEntry  = 1000 // with the source's numbers
	weightOfPlace  = 300
	weightOfLetter = 6 // what JSON makes of one
)

// weight is how many bytes of the file it takes at most.
func (r *Remembered) weight() int {
	places := 2*len(r.Spots) + 4*len(r.ByHand) + len(r.LeftOut) + len(r.Workspace) + len(r.Seeds) + 2*len(r.Judged) + len(r.Borders)
	letters := len(r.Picture) + len(r.Target) + len(r.TargetStill)
	if r.Window != nil {
		letters += len(r.Window.Title) + len(r.Window.Class)
	}
	return weightOfEntry + weightOfPlace*places + weightOfLetter*letters
}
