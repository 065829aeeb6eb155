package settings

import (
	"cmp"
	"image"
	"slices"

	"app.tonedesk/gui/files"
)

// Placed is where the window was on an arrangement of screens: at the desk with two, on the way
// with one.
type Placed struct {
	Screens []files.Rect `json:"screens"` // in order, in the desktop's pixels
	Inside  files.Rect   `json:"inside"`  // of the window, in the same
	Width   float32      `json:"width"`   // in Fyne units
	Height  float32      `json:"height"`
}

// mostPlaces is how many arrangements are remembered, mostScreens how many screens one may have.
// Our choice: more than a painter has desks.
const mostPlaces, mostScreens = 16, 32

// PlaceOn returns where the window was when it was last on screens like these, by their sizes and
// places; on screens that it never was on, where it was last. An empty place is unknown.
func (s Settings) PlaceOn(screens []image.Rectangle) (inside image.Rectangle, width, height float32) {
	if i := s.placedAt(arrangement(screens)); i >= 0 {
		p := s.Places[i]
		return p.Inside.Rectangle(), p.Width, p.Height
	}
	return s.Place.Rectangle(), s.Width, s.Height
}

// HasPlace reports whether that is what is remembered already.
func (s Settings) HasPlace(screens []image.Rectangle, inside image.Rectangle) bool {
	on := arrangement(screens)
	return s.Place.Rectangle() == inside && (len(on) == 0 || len(on) > mostScreens || s.placedAt(on) == 0 && s.Places[0].Inside == *s.Place)
}

// WithPlace returns the settings with the window, of its width and height of now, at a place on
// such screens. Without screens there is no telling which they are.
func (s Settings) WithPlace(screens []image.Rectangle, inside image.Rectangle) Settings {
	s.Place = new(files.RectOf(inside))
	on := arrangement(screens)
	if len(on) == 0 || len(on) > mostScreens {
		return s
	}
	places := []Placed{{Screens: on, Inside: *s.Place, Width: s.Width, Height: s.Height}}
	for i, p := range s.Places {
		if i != s.placedAt(on) && len(places) < mostPlaces {
			places = append(places, p)
		}
	}
	s.Places = places
	return s
}

func (s Settings) placedAt(on []files.Rect) int {
	return slices.IndexFunc(s.Places, func(p Placed) bool { return slices.Equal(p.Screens, on) })
}

// arrangement is what screens are known by. The system lists them in any order.
func arrangement(screens []image.Rectangle) (on []files.Rect) {
	for _, r := range screens {
		on = append(on, files.RectOf(r))
	}
	slices.SortFunc(on, byPlace)
	return on
}

func byPlace(a, b files.Rect) int {
	return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y), cmp.Compare(a.Width, b.Width), cmp.Compare(a.Height, b.Height))
}

// confinePlaces returns the places without those that could not be on a desktop.
func confinePlaces(places []Placed) (kept []Placed) {
	d := Defaults()
	for _, p := range places {
		odd := func(r files.Rect) bool { return sensible(&r) == nil }
		if odd(p.Inside) || len(p.Screens) == 0 || len(p.Screens) > mostScreens || slices.ContainsFunc(p.Screens, odd) || len(kept) == mostPlaces {
			continue
		}
		p.Width, p.Height = between(MinWidth, maxSide, d.Width)(p.Width), between(MinHeight, maxSide, d.Height)(p.Height)
		kept = append(kept, p)
	}
	return kept
}
