package setup

import (
	"image"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/propose"
)

// MaxSpots is how many spots there can be: A to H.
const MaxSpots = 8

// SourceKind says what is watched.
type SourceKind uint8

const (
	SourceDemo    SourceKind = iota // the embedded painting
	SourcePicture                   // a picture file
	SourceRegion                    // a region of the screen
	SourceWindow                    // another program's window, wherever it lies
	SourceStill                     // a still that was kept; Path is its ID
	SourceNothing                   // nothing as yet: the painter is asked
	SourceShared                    // what the painter lets the desktop share: a screen or a window
)

// OnScreen reports whether it is read from the screen.
func (k SourceKind) OnScreen() bool {
	return k == SourceRegion || k == SourceWindow || k == SourceShared
}

// Source is what is watched. Region counts desktop pixels for a screen, pixels from the top left of a
// window's inside or of what is shared, else pixels of the picture; empty means all of it.
type Source struct {
	Kind         SourceKind
	Path         string // of a picture file
	Title, Class string // of a window; by these it is found again
	Window       uint64 // its number, as long as it is open, or that of what is shared; 0 where it isn't known
	Region       image.Rectangle
}

// Feed returns what a stream is opened for: parts of a picture are parts of one feed.
func (s Source) Feed() Source {
	if !s.Kind.OnScreen() {
		return s.Whole()
	}
	return s
}

// Whole returns the source without its part: two parts of the same are the same then, and so
// are any two regions.
func (s Source) Whole() Source {
	s.Region = image.Rectangle{}
	return s
}

// SameWindow reports whether both are of the same window, as far as is known: of two of the same
// title and class only their numbers tell.
func (s Source) SameWindow(o Source) bool {
	if s.Window == 0 || o.Window == 0 {
		s.Window, o.Window = 0, 0
	}
	return s.Kind == SourceWindow && s.Whole() == o.Whole()
}

// Place is where a spot lies, in the coordinates of its source's Region.
type Place struct {
	At    image.Point
	Area  image.Rectangle // of a measured area; empty for a spot
	Moved bool            // the picture has jumped since it was placed
	Fixed *analysis.Spot  // what was read once, outside of the source; nil for a place on the picture. Never written to
}

// Centre is the point by which the place is taken hold of.
func (p Place) Centre() image.Point {
	if p.Area.Empty() {
		return p.At
	}
	return p.Area.Min.Add(p.Area.Size().Div(2))
}

// In reports whether the place belongs to a part of the source: what is fixed does to any.
func (p Place) In(part image.Rectangle) bool { return p.Fixed != nil || p.Centre().In(part) }

// Square is what a place measures: its area, or else the square of size pixels around it.
func (p Place) Square(size int) image.Rectangle {
	if !p.Area.Empty() {
		return p.Area
	}
	corner := p.At.Sub(image.Pt(size/2, size/2))
	return image.Rectangle{Min: corner, Max: corner.Add(image.Pt(size, size))}
}

// To returns the place with its centre at q, as placed by hand.
func (p Place) To(q image.Point) Place {
	if !p.Area.Empty() {
		p.Area = p.Area.Add(q.Sub(p.Centre()))
	}
	p.At, p.Moved = q, false
	return p
}

// Setup is what undo goes back to: what is watched, where the spots lie and what isn't
// counted. Its slices are never written to once they are in a setup.
type Setup struct {
	Source Source
	Places []Place
	Out
	Families []Family
	Focus    []Place         // where the eye should go
	Judged   []Judged        // local colours that were kept or refused
	Shade    propose.Options // by which colours are proposed
	AsLit    bool            // lights and shadows are proposed as the picture's own light makes them, where it is known
	Relit    light.Change    // how the light differs from the picture's own in which its local colours are shown anew
	Typed    *colour.RGB     // the colour to begin from; nil follows the spots
	Target   *Target         // to paint toward; nil for none
	Borders  []float64       // of the groups, L*, rising; none where they are found by themselves
	Groups   int             // how many were asked for when it was left, in a setup that undo goes back to
}

// SpotName returns the letter of spot i.
func SpotName(i int) string { return string(rune('A' + i)) }

// With returns the setup with p placed by a plain click (A first, then B again and
// again) or, if add, as one spot more; the index tells which. A full set gives the last
// spot again.
func (s Setup) With(p Place, add bool) (Setup, int) {
	n := len(s.Places)
	at := min(n, 1)
	if add {
		at = min(n, MaxSpots-1)
	}
	return s.Placed(at, p), at
}

// Placed returns the setup with spot i at p; i may be one past the last.
func (s Setup) Placed(i int, p Place) Setup {
	places := slices.Clone(s.Places)
	if i == len(places) {
		places = append(places, p)
	} else {
		places[i] = p
	}
	s.Places = places
	return s
}

// Without returns the setup without spot i. The spots after it move up a letter.
func (s Setup) Without(i int) Setup {
	s.Places = slices.Delete(slices.Clone(s.Places), i, i+1)
	return s
}

// WithTyped returns the setup with a colour to begin from; nil follows the spots.
func (s Setup) WithTyped(c *colour.RGB) Setup {
	s.Typed = c
	return s
}

// AllMoved returns the setup with every spot said to be moved, or with none.
func (s Setup) AllMoved(moved bool) Setup {
	places := slices.Clone(s.Places)
	for i := range places {
		places[i].Moved = moved && places[i].Fixed == nil
	}
	families := slices.Clone(s.Families)
	for i := range families {
		families[i].Light.Moved, families[i].Shadow.Moved = moved, moved
	}
	focus := slices.Clone(s.Focus)
	for i := range focus {
		focus[i].Moved = moved
	}
	s.Places, s.Families, s.Focus = places, families, focus
	return s
}

// Back returns the setup with those spots no longer said to be moved that were not in one before,
// and lie where they lay in it.
func (s Setup) Back(before Setup) Setup {
	back := func(p *Place, was Place) {
		stood := !was.Moved
		if was.Moved = true; stood && *p == was {
			p.Moved = false
		}
	}
	s.Places, s.Families, s.Focus = slices.Clone(s.Places), slices.Clone(s.Families), slices.Clone(s.Focus)
	for i := range min(len(s.Places), len(before.Places)) {
		back(&s.Places[i], before.Places[i])
	}
	for i := range min(len(s.Families), len(before.Families)) {
		back(&s.Families[i].Light, before.Families[i].Light)
		back(&s.Families[i].Shadow, before.Families[i].Shadow)
	}
	for i := range min(len(s.Focus), len(before.Focus)) {
		back(&s.Focus[i], before.Focus[i])
	}
	return s
}

// AnyMoved reports whether any spot is said to be moved.
func (s Setup) AnyMoved() bool {
	moved := func(p Place) bool { return p.Moved }
	return slices.ContainsFunc(s.Places, moved) || slices.ContainsFunc(s.Focus, moved) ||
		slices.ContainsFunc(s.Families, func(f Family) bool { return f.Moved() })
}

// Cleared returns the setup with nothing lying on the picture, and no target.
func (s Setup) Cleared() Setup {
	return Setup{Source: s.Source, Shade: s.Shade, Typed: s.Typed}
}

// Laid returns the setup with all that lies on the picture in another one, and its target.
func (s Setup) Laid(as Setup) Setup {
	as.Source, as.Shade, as.Typed = s.Source, s.Shade, s.Typed
	return as
}

// Bare reports whether nothing lies on the picture, and there is no target.
func (s Setup) Bare() bool {
	return len(s.Places)+len(s.Families)+len(s.Focus)+len(s.Judged)+len(s.Borders) == 0 && !s.LeavesOut() && s.Target == nil
}

// LeastSide is the side of the smallest part that can be watched.
const LeastSide = 8

// Target is a picture as the plan to paint toward. It never changes.
type Target struct {
	Name  string // for the window
	Path  string // of its file; empty for what was in the mirror, or a still
	Still string // its ID; empty for what is no still
	Plan  *analysis.Target

	Picture *image.RGBA // small, as greys; nil where there is none
}

// Origin is the file or the still that a target can be read from again; both are empty for
// another, and for none.
func (t *Target) Origin() (path, still string) {
	if t == nil {
		return "", ""
	}
	return t.Path, t.Still
}

// MaxManualFamilies is how many families can be set by hand.
const MaxManualFamilies = 6

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
