package marking

import (
	"image"

	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
)

// Look is how the still lies in the picture that notes are drawn on.
type Look struct {
	View    notes.View // Inside is all of that picture, from (0, 0); the board knows what is selected
	Flipped bool       // that picture is mirrored left-right
}

// layer is what is drawn of the notes.
type layer struct {
	drawer ink.Drawer
	img    *image.RGBA // nil before anything was drawn
	as     Look        // for which it was drawn
}

// look is how the still lies now, with what is selected.
func (b *Board) look() Look {
	l := b.acts.Look()
	l.View.Selected = b.selected
	if b.still != nil {
		l.View.Still = image.Pt(b.still.Picture.Width, b.still.Picture.Height)
	}
	return l
}

// toDraw are the notes of the still, with that which is being drawn on top.
func (b *Board) toDraw() []notes.Note {
	list := b.list.All()
	if n := b.pen.drawn; n != nil {
		list = append(list, *n) // a copy: the list is cut to its length
	}
	return list
}

// draw draws all notes anew.
func (b *Board) draw() {
	if b.still == nil {
		b.acts.Drawn(nil)
		return
	}
	l := &b.layer
	l.as = b.look()
	size := l.as.View.Inside.Max
	if l.img == nil || l.img.Rect.Size() != size {
		l.img = image.NewRGBA(image.Rectangle{Max: size})
	}
	clear(l.img.Pix)
	l.as.View.Draw(&l.drawer, l.img, l.img.Rect, b.toDraw())
	if l.as.Flipped {
		views.FlipLeftRight(l.img.Pix, size.X, size.Y)
	}
	b.acts.Drawn(l.img)
}

// drawIn draws the notes anew where something changed, in the layer's pixels.
func (b *Board) drawIn(dirty image.Rectangle) {
	l := &b.layer
	if l.img == nil || l.as.Flipped || l.as != b.look() {
		b.draw()
		return
	}
	dirty = dirty.Inset(-1).Intersect(l.img.Rect)
	for y := dirty.Min.Y; y < dirty.Max.Y; y++ {
		clear(l.img.Pix[l.img.PixOffset(dirty.Min.X, y):l.img.PixOffset(dirty.Max.X, y)])
	}
	l.as.View.Draw(&l.drawer, l.img, dirty, b.toDraw())
	b.acts.Drawn(l.img)
}

// Renew draws the notes anew if the still lies otherwise by now.
func (b *Board) Renew() {
	if b.still != nil && b.layer.as != b.look() {
		b.draw()
	}
}
