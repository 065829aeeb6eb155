package gui

import (
	"image"

	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
)

// notePen draws notes on the open still, and takes hold of them.
type notePen struct {
	d    *Desk
	tool int // place in noteTools

	drawn *notes.Note // being drawn, not in the list yet
	held  *notes.Note // being moved, as it was taken hold of
	from  notes.Point
	moved bool

	down  bool // on the picture: the page keeps its layout
	relay bool // and is to be laid anew afterwards
}

// noteReach is how far from a note a press takes hold of it, in Fyne units.
const noteReach = 4

// leastDrag is how long a note that is drawn by a drag has to be, in Fyne units.
const leastDrag = 3

// Down begins a note, or takes hold of one.
func (p *notePen) Down(x, y float64, _ bool) {
	d := p.d
	p.down = true
	if d.still == nil {
		return
	}
	at := d.notePoint(x, y)
	p.from, p.moved = at, false
	tool := noteTools()[p.tool]
	if tool.begin == nil {
		p.take(at)
		return
	}
	shape, ok := tool.begin(d, at)
	if !ok {
		return
	}
	n := notes.New(shape, "")
	p.drawn = &n
	d.still.selected = ""
	if a, ok := shape.(notes.Area); ok {
		d.still.painted.Paint(a.Side, at, at, a.Width)
		d.tellPage(measuredChanged)
	}
	d.showNotes()
}

// take selects the note at a place, and holds it.
func (p *notePen) take(at notes.Point) {
	d := p.d
	v := d.notesView()
	list := d.still.list.All()
	i := v.Top(list, v.To(at), noteReach*v.Pixel)
	p.held = nil
	if i < 0 || !d.mayMark() {
		d.selectNote("")
		return
	}
	n := list[i]
	p.held = &n
	d.selectNote(n.ID)
}

// Move draws on, or carries what is held.
func (p *notePen) Move(x, y float64, even bool) {
	d := p.d
	if d.still == nil {
		return
	}
	at := d.notePoint(x, y)
	p.moved = p.moved || at.Minus(p.from).Length()*d.notesView().Scale >= leastDrag*d.notesView().Pixel
	switch tool := noteTools()[p.tool]; {
	case p.held != nil:
		p.carry(at)
	case tool.begin == nil:
		d.mirror.PanBy(image.Pt(int(p.from.X-at.X), int(p.from.Y-at.Y)))
	case p.drawn != nil && tool.to != nil:
		p.drawOn(tool, at, even)
	}
}

// carry moves what is held to a place. Only what it leaves and what it comes to is drawn anew,
// and nothing is saved before it is let go.
func (p *notePen) carry(at notes.Point) {
	d, v := p.d, p.d.notesView()
	i := d.still.list.Find(p.held.ID)
	if i < 0 || !p.moved {
		return
	}
	dirty := v.BoundsIn(d.still.list.All(), i)
	d.still.list.Replace(p.held.Moved(at.Minus(p.from)), "move")
	d.showNotesIn(dirty.Union(v.BoundsIn(d.still.list.All(), i)))
}

// drawOn draws the note on to a place. Only what is new is drawn of a stroke: it has to
// follow the pointer at once.
func (p *notePen) drawOn(tool noteTool, at notes.Point, even bool) {
	d, v := p.d, p.d.notesView()
	before := *p.drawn
	p.drawn.Shape = tool.to(p.drawn.Shape, at, even)
	var dirty image.Rectangle
	switch s := p.drawn.Shape.(type) {
	case notes.Stroke:
		dirty = v.Bounds(notes.Note{ID: p.drawn.ID, Shape: notes.Stroke{Points: lastTwo(s.Points), Width: s.Width}})
	case notes.Area:
		last := lastTwo(s.Points)
		d.still.painted.Paint(s.Side, last[0], last[len(last)-1], s.Width)
		d.tellPage(measuredChanged)
		dirty = v.Bounds(notes.Note{ID: p.drawn.ID, Shape: notes.Area{Side: s.Side, Points: last, Width: s.Width}})
	default:
		dirty = v.Bounds(before, *p.drawn)
	}
	d.showNotesIn(dirty)
}

func lastTwo(points []notes.Point) []notes.Point { return points[max(len(points)-2, 0):] }

// Up ends it: what was drawn becomes a note.
func (p *notePen) Up() {
	defer p.lift()
	d := p.d
	n, tool := p.drawn, noteTools()[p.tool]
	p.drawn = nil
	if d.still == nil {
		return
	}
	d.still.list.Settle()
	if p.held != nil {
		p.held = nil
		if p.moved {
			d.notesChanged()
			d.still.painted.Set(d.still.list.All())
			d.tellPage(measuredChanged)
		}
		return
	}
	if n == nil || !tool.least && !p.moved {
		d.showNotes()
		return
	}
	d.still.list.Add(*n)
	d.selectNote(n.ID)
	d.notesChanged()
	if tool.text {
		d.tellPage(noteWordsAsked)
	}
}

// Leave ends what the pointer was at when the still or its page is left: what was carried
// stays where it is, what was being drawn is none.
func (p *notePen) leave() {
	if p.held != nil {
		p.Up()
	}
	p.drawn = nil
	p.lift()
}

// lift lays the page anew, if that had to wait for the pen.
func (p *notePen) lift() {
	late := p.relay
	p.down, p.relay = false, false
	if late {
		p.d.relayPage()
	}
}

// notePoint is a place of the still, kept a little beyond its borders at most.
func (d *Desk) notePoint(x, y float64) notes.Point {
	w, h := float64(d.still.Picture.Width), float64(d.still.Picture.Height)
	return ink.Pt(hundredths(min(max(x, 0), w)), hundredths(min(max(y, 0), h)))
}
