package widgets

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"app.tonedesk/gui/settings"
)

// PageParts are what a page consists of.
type PageParts struct {
	Bar      *SourceBar
	Messages *MessageBar
	Mirror   *Mirror
	Verdict  *Verdict
	Lower    *container.Scroll // what can be scrolled
	Tabs     *Chooser
	Later    func(after time.Duration) // lays the page out anew after a while
}

// Page lays the window out: source bar, messages, mirror, verdict, below them what can be
// scrolled, and the tabs at the foot; in a wide window all from the verdict on stands beside
// the mirror. Its owner refreshes it when a part asks for another height.
type Page struct {
	drawn
	parts   PageParts
	heights pageHeights // that the parts ask for, in the page's width of now
	width   float32     // of what is scrolled
	rows    pageRows    // where all lies
	back    time.Time   // when it is to be laid out anew
}

// NewPage returns a page of parts, all of which have to be there.
func NewPage(parts PageParts) *Page {
	p := &Page{parts: parts}
	// the order is that of the Tab key
	p.objects = []fyne.CanvasObject{parts.Bar, parts.Messages, parts.Mirror, parts.Verdict, parts.Lower, parts.Tabs}
	p.least = fyne.NewSize(settings.MinWidth, settings.MinHeight)
	p.draw(p)
	return p
}

// write asks the parts for their heights in the page's width. Wrapped texts know theirs only
// once they have their widths, so these parts get them here.
func (p *Page) write(size fyne.Size, _ colours) {
	if size.IsZero() { // not laid out as yet
		return
	}
	parts := p.parts
	p.heights = pageHeights{bar: parts.Bar.heightFor(size.Width), verdict: parts.Verdict.MinSize().Height, tabs: parts.Tabs.MinSize().Height}
	if parts.Messages.Visible() {
		parts.Messages.Resize(fyne.NewSize(messagesWidth(size), parts.Messages.MinSize().Height))
		p.heights.messages = parts.Messages.MinSize().Height
	}
	width := lowerWidth(size) + Gutter
	parts.Lower.Resize(fyne.NewSize(width, parts.Lower.Size().Height))
	if width != p.width {
		p.width = width
		parts.Lower.Content.Refresh()
	}
	p.heights.content = parts.Lower.Content.MinSize().Height
}

// place lays out all parts. However often they ask for other heights, the mirror never moves
// so that it flashes: until it may, all lies where it lay.
func (p *Page) place(size fyne.Size) {
	rows, parts := pageRowsFor(size, p.heights), p.parts
	if wait := parts.Mirror.standing(stand{rows.mirror, size}); wait > 0 {
		rows = p.rows
		if now := time.Now(); !now.Before(p.back) {
			p.back = now.Add(wait)
			parts.Later(wait)
		}
	}
	p.rows = rows
	rows.lower.w += Gutter
	for _, at := range []struct {
		part fyne.CanvasObject
		rect
	}{{parts.Bar, rows.bar}, {parts.Messages, rows.messages}, {parts.Verdict, rows.verdict}, {parts.Lower, rows.lower}, {parts.Tabs, rows.tabs}, {parts.Mirror, rows.mirror}} {
		put(at.part, fyne.NewPos(at.x, at.y), fyne.NewSize(max(at.w, 0), max(at.h, 0)))
	}
}

// Widths and heights of the page, in Fyne units.
const (
	wideFrom      = 95 * Step // from this width on there are two columns
	sideWidth     = 46 * Step // of the right one
	leastMirror   = 18 * Step // height
	leastLower    = 12 * Step // height
	underMessages = 10 * Step // least height of the mirror below the messages
	Gutter        = Step      // right of what is scrolled, for the scroll bar
)

type rect struct{ x, y, w, h float32 }

// pageRows is where everything lies.
type pageRows struct{ bar, messages, mirror, verdict, lower, tabs rect }

// pageHeights are the heights that the parts ask for.
type pageHeights struct{ bar, messages, verdict, content, tabs float32 }

// lowerWidth is the width of what is scrolled, without the scroll bar.
func lowerWidth(size fyne.Size) float32 {
	if size.Width >= wideFrom {
		return sideWidth
	}
	return size.Width - 2*Step
}

// messagesWidth is the messages' width: that of the mirror's column.
func messagesWidth(size fyne.Size) float32 {
	if size.Width >= wideFrom {
		return size.Width - sideWidth - 2*Step
	}
	return size.Width
}

// pageRowsFor is the geometry of the page. The mirror gets what the others leave; where
// that is little, the scrolled part gives way first. The messages, which come and go, lie
// in the mirror's place, so that nothing moves away from under the pointer.
func pageRowsFor(size fyne.Size, h pageHeights) pageRows {
	// whole units: a picture between pixels would be blurred, and lines around it uneven
	whole := func(v float32) float32 { return float32(math.Ceil(float64(v))) }
	h.bar, h.messages, h.verdict, h.tabs = whole(h.bar), whole(h.messages), whole(h.verdict), whole(h.tabs)
	y := h.bar + Step
	left := size.Height - y - Step
	var r pageRows
	if size.Width >= wideFrom {
		x := size.Width - sideWidth - Step
		r.mirror = rect{Step, y, x - 2*Step, left}
		r.verdict = rect{x, y, sideWidth, h.verdict}
		r.lower = rect{x, y + h.verdict + Step, sideWidth, left - h.verdict - 2*Step - h.tabs}
		r.tabs = rect{x, y + left - h.tabs, sideWidth, h.tabs}
	} else {
		inner := size.Width - 2*Step
		left -= h.verdict + 2*Step + h.tabs
		r.tabs = rect{0, size.Height - h.tabs, size.Width, h.tabs}
		least := max(leastMirror, 0.4*left)
		lower := whole(max(min(h.content, left-least), min(leastLower, left/3)))
		r.mirror = rect{Step, y, inner, left - lower}
		r.verdict = rect{Step, y + r.mirror.h + Step, inner, h.verdict}
		r.lower = rect{Step, r.verdict.y + h.verdict + Step, inner, lower}
	}
	r.bar = rect{0, 0, size.Width, h.bar}
	r.messages = rect{0, h.bar, messagesWidth(size), h.messages}
	r.mirror.y, r.mirror.h = r.mirror.y+h.messages, r.mirror.h-h.messages
	if short := underMessages - r.mirror.h; short > 0 && size.Width < wideFrom {
		r.mirror.h, r.verdict.y = underMessages, r.verdict.y+short
		r.lower.y, r.lower.h = r.lower.y+short, r.lower.h-short
	}
	return r
}
