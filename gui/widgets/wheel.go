package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// wheel lies over a page and hears its wheel alone: it scrolls the innermost part under the pointer that
// goes on that way, as the toolkit doesn't, which leaves the page standing over a list that has ended.
type wheel struct {
	drawn
	page *PageColumn
}

func newWheel(page *PageColumn) *wheel {
	w := &wheel{page: page}
	w.draw(w)
	return w
}

func (w *wheel) write(fyne.Size, colours) {}
func (w *wheel) place(fyne.Size)          {}

// Scrolled scrolls what is under the pointer, or what that lies in.
func (w *wheel) Scrolled(e *fyne.ScrollEvent) {
	if !w.page.Scroll.Visible() {
		return
	}
	chain := []scroller{wholeScroll{w.page.Scroll}} // also over what stays above and below it
	for _, o := range []fyne.CanvasObject{w.page.head, w.page.Scroll, w.page.foot} {
		if o != nil {
			scrollersAt(o, e.Position, &chain)
		}
	}
	for i := len(chain) - 1; i >= 0; i-- {
		before := chain[i].offset()
		if chain[i].scroll(e); chain[i].offset() != before {
			return
		}
	}
}

// scroller is something that scrolls up and down.
type scroller interface {
	offset() float32
	scroll(e *fyne.ScrollEvent)
}

// scrollersAt adds the scrollers in o under a place, in whose measure o lies, the innermost last.
func scrollersAt(o fyne.CanvasObject, at fyne.Position, chain *[]scroller) {
	if at = at.Subtract(o.Position()); !o.Visible() || at.X < 0 || at.Y < 0 || at.X >= o.Size().Width || at.Y >= o.Size().Height {
		return
	}
	each := func(parts []fyne.CanvasObject) {
		for _, part := range parts {
			scrollersAt(part, at, chain)
		}
	}
	switch o := o.(type) {
	case *fyne.Container:
		each(o.Objects)
	case *container.ThemeOverride:
		scrollersAt(o.Content, at, chain)
	case *container.Scroll:
		*chain = append(*chain, wholeScroll{o})
		scrollersAt(o.Content, at, chain)
	case *Entry:
		if o.rows != nil {
			*chain = append(*chain, wholeScroll{o.rows})
		}
	case *NoteList:
		*chain = append(*chain, listScroll{o})
	case *StillGrid:
		*chain = append(*chain, listScroll{o})
	case interface{ inside() []fyne.CanvasObject }:
		each(o.inside())
	}
}

// inside is all that is drawn.
func (d *drawn) inside() []fyne.CanvasObject { return d.objects }

// wholeScroll scrolls what is laid out whole.
type wholeScroll struct{ *container.Scroll }

func (s wholeScroll) offset() float32 { return s.Offset.Y }

func (s wholeScroll) scroll(e *fyne.ScrollEvent) { s.Scrolled(e) }

// listScroll scrolls a list of which only what is in sight is laid out.
type listScroll struct {
	list interface {
		GetScrollOffset() float32
		ScrollToOffset(offset float32)
	}
}

func (s listScroll) offset() float32 { return s.list.GetScrollOffset() }

func (s listScroll) scroll(e *fyne.ScrollEvent) { s.list.ScrollToOffset(s.offset() - e.Scrolled.DY) }
