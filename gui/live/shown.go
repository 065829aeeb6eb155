package live

import (
	"image"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/movement"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
)

// Wanted is what the window wants to be shown. The window writes it, the worker reads it.
type Wanted struct {
	Setup    setup.Setup
	Settings settings.Settings
	Lay      func(bounds image.Rectangle) Lay // which part of the picture is shown, and how large
	Covered  image.Rectangle                  // by our own window, in desktop pixels
	Chips    []image.Rectangle                // where the chip at the pointer lies, or lay a moment ago; never written to
	Look     image.Point                      // pixel under the pointer or key cursor
	Looking  bool
	Families bool         // are to be looked for
	Halves   bool         // another picture stands beside this one: no room for a small one
	Copies   int          // how many copies of the picture were asked for so far
	Followed []Followed   // local colours to read where they are followed to; never written to
	Previews image.Point  // room of the views' previews, pixels; none: nobody looks
	Pick     *image.Point // whose colour is asked for; nil: none
}

// Lay says which part of a picture is shown, in pixels of its source, and to how many pixels
// it is reduced.
type Lay struct {
	Bounds image.Rectangle
	Pixels image.Point
}

// Shown is what the worker made of a frame. The window may use it until it returns from
// the worker's show call; the images until the call after.
type Shown struct {
	Img      *image.RGBA
	Loupe    *image.RGBA // nil: none
	Bounds   image.Rectangle
	Space    *colour.Space   // in which it is read; nil: sRGB
	Part     image.Rectangle // of the picture, that Img shows
	Flipped  bool
	Reading  *analysis.Reading
	Spots    []Reading
	Under    *analysis.Spot       // what lies under the pointer; nil where nobody looks
	Melting  *Melting             // the lost edge there, in their view; nil for none
	Manual   []FamilyReading      // the families set by hand
	Kept     []FollowedReading    // the families that are followed
	Copied   *Copy                // if one was asked for
	Beside   *image.RGBA          // the whole picture made small, in a view that has it beside; else nil
	Small    []analysis.GapChange // and what becomes of the gaps in it
	Picked   *image.Point         // whose colour was asked for
	Colour   *colour.RGB          // and what it is; nil where it is transparent
	Previews []*image.RGBA        // of every view, in their order, for the window to keep; nil: none that are new
	Canvas   Canvas               // in a workspace around it
	Move     movement.Move        // what became of where the whole picture lies since the frame before, counted from Bounds
	Flashes  bool                 // the picture itself: it is shown less often
	At       time.Time
	Text     bool // figures may be renewed; else only the picture
}

// ViewOf returns the view that is wanted.
func ViewOf(next Wanted) views.View {
	view, ok := views.ByKey(next.Settings.View)
	if !ok { // settings of another version
		view = views.All()[0]
	}
	return view
}

// Shape gives the picture in the window the shape of a new source, once: whatever becomes of the
// source later, nothing in the window moves.
type Shape struct {
	taken bool
	left  image.Rectangle // of the source before, of which a frame may still be under way
}

// Renew says that another source is watched; left is what was seen of the one before.
func (s *Shape) Renew(left image.Rectangle) { s.taken, s.left = false, left }

// Seen returns how high a frame is in widths, if it is the first of its source.
func (s *Shape) Seen(bounds image.Rectangle) (proportion float32, first bool) {
	if s.taken || bounds.Empty() || bounds == s.left {
		return 0, false
	}
	s.taken = true
	return float32(bounds.Dy()) / float32(bounds.Dx()), true
}
