package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"app.tonedesk/gui/wording"
)

// CardActs are told what the painter does with card i.
type CardActs struct {
	Copy, Select, Delete func(i int)
	Keys                 Keys  // gets the keys that a card has no use for
	Tips                 *Tips // says what the parts of a card are for
}

// spotCard shows one spot: colour and grey edge to edge, and the figures. A click on it
// selects the spot, one on the hex code copies it, one on the cross deletes the spot.
type spotCard struct {
	drawn
	focus
	index int
	acts  CardActs
	text  wording.CardText
	look  *spotCardLook
}

func newSpotCard(index int, acts CardActs) *spotCard {
	c := &spotCard{index: index, acts: acts}
	c.focus = focus{keys: acts.Keys, owner: c, changed: c.redraw}
	c.look = newSpotCardLook(c)
	c.draw(c, c.look, c.look.objects()...)
	return c
}

func (c *spotCard) set(t wording.CardText) {
	if t != c.text {
		c.text = t
		c.redraw()
	}
}

// Tapped does what the tapped part is for.
func (c *spotCard) Tapped(e *fyne.PointEvent) {
	switch {
	case c.text.Empty:
	case inside(e.Position, c.look.cross):
		c.acts.Delete(c.index)
	case !c.text.Lost && inside(e.Position, c.look.hex):
		c.acts.Copy(c.index)
	default:
		c.acts.Select(c.index)
	}
}

// inside reports whether p lies on o, or next to it by four units.
func inside(p fyne.Position, o fyne.CanvasObject) bool {
	at, size := o.Position(), o.Size()
	return p.X >= at.X-4 && p.Y >= at.Y-4 && p.X <= at.X+size.Width+4 && p.Y <= at.Y+size.Height+4
}

// What the tips say of a card's parts.
const (
	hexTip   = "Copy the code (Enter)"
	crossTip = "Delete the spot (Delete)"
)

// MouseIn is MouseMoved.
func (c *spotCard) MouseIn(e *desktop.MouseEvent) { c.MouseMoved(e) }

// MouseMoved lets the tip come of the part under the pointer.
func (c *spotCard) MouseMoved(e *desktop.MouseEvent) {
	switch {
	case c.text.Empty:
	case inside(e.Position, c.look.cross):
		c.acts.Tips.enter(crossTip, c.look.cross)
	case inside(e.Position, c.look.hex) && !c.text.Lost:
		c.acts.Tips.enter(hexTip, c.look.hex)
	default:
		c.acts.Tips.Leave()
	}
}

// MouseOut lets the tip go.
func (c *spotCard) MouseOut() { c.acts.Tips.Leave() }

// Cursor is the hand: cards are there to be pressed.
func (c *spotCard) Cursor() desktop.Cursor { return desktop.PointerCursor }

// TypedKey copies with Enter or Space and deletes with Delete.
func (c *spotCard) TypedKey(e *fyne.KeyEvent) {
	switch {
	case presses(e):
		if !c.text.Lost {
			c.acts.Copy(c.index)
		}
	case deletes(e):
		c.acts.Delete(c.index)
	default:
		c.keys.TypedKey(e.Name)
	}
}
