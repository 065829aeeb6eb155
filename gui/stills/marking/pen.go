package marking

import (
	"image"
	"math"

	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
)

// pen is what the pointer is at while it is down.
type pen struct {
	drawn *notes.Note // being drawn, not in the list yet
	held  *notes.Note // being moved, as it was taken hold of
	from  ink.Point
	moved bool
}

// noteReach is how far from a note a press takes hold of it, in units of notes.View.Pixel.
const noteReach = 4

// leastDrag is how long a note that is drawn by a drag has to be, in the same units.
const leastDrag = 3

// Down begins a note at a place of the still, or takes hold of one.
func (b *Board) Down(x, y float64, _ bool) {
	if b.still == nil {
		return
	}
	at := b.place(x, y)
	b.pen.from, b.pen.moved = at, false
	tool := Tools()[b.tool]
	if tool.begin == nil {
		b.take(at)
		return
	}
	if err := b.list.Full(); err != nil {
		b.acts.Barred(err)
		return
	}
	shape := tool.begin(b, at)
	if shape == nil {
		return
	}
	n := notes.New(shape, "")
	b.pen.drawn = &n
	b.selectOnly("")
	if a, ok := shape.(notes.Area); ok {
		b.painted.Paint(a.Side, at, at, a.Width)
		b.acts.Measured()
	}
	b.draw()
}

// take selects the note at a place, and holds it.
func (b *Board) take(at ink.Point) {
	v, list := b.look().View, b.list.All()
	i := v.Top(list, v.To(at), noteReach*v.Pixel)
	b.pen.held = nil
	if i < 0 || !b.mayMark() {
		b.Select("")
		return
	}
	n := list[i]
	b.pen.held = &n
	b.Select(n.ID)
}

// Move draws on, or carries what is held; even asks for equal sides or a straight way.
func (b *Board) Move(x, y float64, even bool) {
	if b.still == nil {
		return
	}
	p, at, v := &b.pen, b.place(x, y), b.look().View
	p.moved = p.moved || at.Minus(p.from).Length()*v.Scale >= leastDrag*v.Pixel
	switch {
	case p.held != nil:
		b.carry(at)
	case Tools()[b.tool].begin == nil:
		b.acts.Pan(image.Pt(int(p.from.X-at.X), int(p.from.Y-at.Y)))
	case p.drawn != nil:
		b.drawOn(at, even)
	}
}

// carry moves what is held to a place. Only what it leaves and what it comes to is drawn anew,
// and nothing is saved before it is let go.
func (b *Board) carry(at ink.Point) {
	v := b.look().View
	i := b.list.Find(b.pen.held.ID)
	if i < 0 || !b.pen.moved {
		return
	}
	dirty := v.BoundsIn(b.list.All(), i)
	b.list.Replace(b.pen.held.Moved(at.Minus(b.pen.from)), "move")
	b.drawIn(dirty.Union(v.BoundsIn(b.list.All(), i)))
}

// drawOn draws the note on to a place. Only what is new is drawn of a stroke: it has to
// follow the pointer at once.
func (b *Board) drawOn(at ink.Point, even bool) {
	v, drawn := b.look().View, b.pen.drawn
	shape, ok := drawn.Shape.(notes.Drawn)
	if !ok {
		return
	}
	before := *drawn
	drawn.Shape = shape.DrawnTo(at, even)
	var dirty image.Rectangle
	switch s := drawn.Shape.(type) {
	case notes.Stroke:
		dirty = v.Bounds(notes.Note{ID: drawn.ID, Shape: notes.Stroke{Points: lastTwo(s.Points), Width: s.Width}})
	case notes.Area:
		last := lastTwo(s.Points)
		b.painted.Paint(s.Side, last[0], last[len(last)-1], s.Width)
		b.acts.Measured()
		dirty = v.Bounds(notes.Note{ID: drawn.ID, Shape: notes.Area{Side: s.Side, Points: last, Width: s.Width}})
	default:
		dirty = v.Bounds(before, *drawn)
	}
	b.drawIn(dirty)
}

func lastTwo(points []ink.Point) []ink.Point { return points[max(len(points)-2, 0):] }

// Up lifts the pen: what was drawn becomes a note, what was carried stays where it is.
func (b *Board) Up() {
	n, tool := b.pen.drawn, Tools()[b.tool]
	b.pen.drawn = nil
	if b.still == nil {
		return
	}
	b.list.Settle()
	switch {
	case b.pen.held != nil:
		b.pen.held = nil
		if b.pen.moved {
			b.repaint()
			b.changed()
		}
	case n == nil || !tool.least && !b.pen.moved:
		b.draw()
	default:
		b.list.Add(*n)
		b.Select(n.ID)
		b.changed()
		if _, area := n.Shape.(notes.Area); !area {
			b.fresh = n.ID
		}
		if tool.text {
			b.acts.Words()
		}
	}
}

// Leave ends what the pen is at when the still or its page is left: what was carried stays
// where it is, what was being drawn is none, and nothing is selected.
func (b *Board) Leave() {
	if b.still == nil {
		return
	}
	if b.pen.held != nil {
		b.Up()
	}
	if b.pen.drawn != nil {
		b.pen.drawn = nil
		b.repaint()
	}
	b.Select("")
}

// place is a place of the still, kept inside its borders.
func (b *Board) place(x, y float64) ink.Point {
	w, h := float64(b.still.Picture.Width), float64(b.still.Picture.Height)
	return ink.Pt(hundredths(min(max(x, 0), w)), hundredths(min(max(y, 0), h)))
}

// hundredths rounds to what is written down.
func hundredths(v float64) float64 { return math.Round(100*v) / 100 }
