package gui

import (
	"image"
	"slices"
	"strconv"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
)

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

// handReading is what a family set by hand reads, or why it can't be read.
type handReading struct {
	families.Family
	Turned bool // the first place is darker than the second: they change sides
	Err    error
}

// readFamilies reads the families set by hand, as spots are read. Which of two places is
// the light side is what the picture says now.
func (w *worker) readFamilies(p analysis.Pixels, origin image.Point, next wanted) {
	w.done.hand = w.done.hand[:0]
	for _, f := range next.setup.Families {
		light, shadow := readPlace(p, f.Light, origin, next), readPlace(p, f.Shadow, origin, next)
		var r handReading
		switch {
		case light.Err != nil:
			r.Err = light.Err
		case shadow.Err != nil:
			r.Err = shadow.Err
		default:
			if r.Turned = light.Lightness < shadow.Lightness; r.Turned {
				light, shadow = shadow, light
			}
			r.Family = families.Of(light.Spot, shadow.Spot, next.settings.Rules)
		}
		w.done.hand = append(w.done.hand, r)
	}
}

// readPlace reads one place.
func readPlace(p analysis.Pixels, at place, origin image.Point, next wanted) (r reading) {
	if at.Area.Empty() {
		q := at.At.Sub(origin)
		r.Spot, r.Err = analysis.ReadSpot(p, q.X, q.Y, next.settings.SpotSize)
		return r
	}
	r.Spot, r.Err = analysis.ReadArea(p, at.Area.Sub(origin))
	return r
}

// addFamily begins a family set by hand: the next click is its light side, the one after it
// its shadow side.
func (d *Desk) addFamily() {
	if len(d.setup.Families) == maxHandFamilies {
		d.parts.strip.say(stripNote, "Six families set by hand are the most. Take one away first.")
		return
	}
	d.ask(askLight)
}

// familyClicked takes a click, or an area dragged over, as a side of a new family.
func (d *Desk) familyClicked(p place) {
	if d.asking == askLight {
		d.half = p
		d.ask(askShadow)
		return
	}
	d.ask(askNothing)
	d.change(d.setup.withFamily(handFamily{Light: d.half, Shadow: p}), "")
}

// deleteFamily takes a family set by hand away.
func (d *Desk) deleteFamily(i int) {
	if i >= 0 && i < len(d.setup.Families) {
		d.change(d.setup.withoutFamily(i), "")
	}
}

// mark is how the mirror shows a place of family i set by hand, the first or the second;
// turned says that they have changed sides.
func (f handFamily) mark(i int, second, turned bool) Mark {
	p, side := f.Light, "light"
	if second {
		p = f.Shadow
	}
	if second != turned {
		side = "shadow"
	}
	return Mark{Name: side + strconv.Itoa(i+1), At: p.At, Area: p.Area, Moved: p.Moved}
}

// carriedSide moves side j of the families set by hand: light and shadow of the first, then
// of the next.
func (d *Desk) carriedSide(j int, to image.Point, end bool) {
	if j/2 >= len(d.setup.Families) {
		return
	}
	next := d.setup
	next.Families = slices.Clone(next.Families)
	f := &next.Families[j/2]
	side := &f.Light
	if j%2 == 1 {
		side = &f.Shadow
	}
	*side = side.to(to)
	d.change(next, "carry side "+strconv.Itoa(j))
	if end {
		d.history.settle()
	}
}
