package widgets

import (
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/settings"
)

// PageParts are what a page consists of.
type PageParts struct {
	Bar      *SourceBar
	Mirror   *Mirror
	Start    fyne.CanvasObject // in place of the picture while there is none; hidden later
	Messages *Messages         // over both
	Strip    *Strip
	Sentence *Sentence
	Lower    *PageColumn // with what can be scrolled
	Tabs     *Chooser
	Later    func(after time.Duration) // lays the page out anew after a while
}

// Page lays the window out: source bar, picture, strip, sentence, below them the page that is open,
// and the tabs at the foot. In a wide window the page stands beside the picture, in a low one the
// strip does. What is fixed moves with the window's size, the size of text and the shape of a new
// source, with nothing else.
type Page struct {
	drawn
	parts      PageParts
	proportion float32 // of the picture: height by width
	lines      int     // of the sentence
	covered    bool    // something stands in place of the sentence and what is scrolled
	rows       pageRows
	back       time.Time // when it is to be laid out anew
}

// plainProportion is a picture's before one was seen.
const plainProportion = 0.75

// NewPage returns a page of parts, all of which have to be there.
func NewPage(parts PageParts) *Page {
	p := &Page{parts: parts, proportion: plainProportion, lines: 2}
	p.order()
	parts.Messages.Beyond = p.order
	p.draw(p)
	return p
}

// order is that in which all is drawn, and that of the Tab key. Messages are over the page only while one
// reaches that far.
func (p *Page) order() {
	parts := p.parts
	p.objects = []fyne.CanvasObject{parts.Bar, parts.Mirror, parts.Start, parts.Strip, parts.Messages, parts.Sentence, parts.Lower, parts.Tabs}
	if parts.Messages.reaches {
		p.objects = []fyne.CanvasObject{parts.Bar, parts.Mirror, parts.Start, parts.Strip, parts.Sentence, parts.Lower, parts.Messages, parts.Tabs}
	}
}

// SetProportion gives the picture the shape of a new source: its height by its width.
func (p *Page) SetProportion(proportion float32) {
	if proportion > 0 && proportion != p.proportion {
		p.proportion = proportion
		p.redraw()
	}
}

// SetSentenceLines gives the sentence two lines, one, or with 0 none at all: then the page begins
// where it would.
func (p *Page) SetSentenceLines(lines int) {
	if lines != p.lines {
		p.lines = lines
		p.redraw()
	}
}

// SetCovered hides the sentence and what can be scrolled, since something else stands in their place:
// no keys go to what isn't seen.
func (p *Page) SetCovered(on bool) {
	if on != p.covered {
		p.covered = on
		p.redraw()
	}
}

// SetRoom says how large the window can be on its screen. Only then has it a least size, which asks
// for no more than that: the toolkit could not make it smaller at once.
func (p *Page) SetRoom(room fyne.Size) {
	if least := fyne.NewSize(settings.MinWidth, settings.MinHeight).Min(room); least != p.least {
		p.least = least
		p.Refresh()
	}
}

func (p *Page) write(size fyne.Size, _ colours) {
	if size.IsZero() { // not laid out as yet
		return
	}
	form := formOf(size, textScale())
	p.parts.Bar.setWide(form.wide)
	p.parts.Strip.setBeside(form.beside())
	show(p.parts.Strip, !p.startsBeside(size)) // there is nothing to read or to enlarge
	show(p.parts.Sentence, p.lines > 0 && !p.covered)
	show(p.parts.Lower, !p.covered)
}

// place lays out all parts. The mirror never moves so that it flashes: until it may, all lies
// where it lay.
func (p *Page) place(size fyne.Size) {
	rows, parts := pageRowsFor(formOf(size, textScale()), p.proportion, p.lines), p.parts
	if wait := parts.Mirror.standing(stand{rows.mirror, size}); wait > 0 {
		rows = p.rows
		if now := time.Now(); !now.Before(p.back) {
			p.back = now.Add(wait)
			parts.Later(wait)
		}
	}
	p.rows = rows
	start := rows.mirror
	if p.startsBeside(size) {
		start.w = rows.strip.x + rows.strip.w - start.x
	}
	parts.Messages.chipsIn = rows.mirror.w // what lasts covers no button
	lower := rows.lower
	lower.w += Gutter
	said, below := p.said(rows, size)
	p.parts.Messages.setBelow(below)
	for _, at := range []struct {
		part fyne.CanvasObject
		rect
	}{{parts.Bar, rows.bar}, {parts.Strip, rows.strip}, {parts.Sentence, rows.sentence}, {parts.Lower, lower}, {parts.Tabs, rows.tabs}, {parts.Mirror, rows.mirror}, {parts.Start, start}, {parts.Messages, said}} {
		put(at.part, fyne.NewPos(at.x, at.y), fyne.NewSize(max(at.w, 0), max(at.h, 0)))
	}
}

// leastSaid is the width in which messages have room, in text of plain size (our choice: two
// answers beside each other).
const leastSaid = 25 * Step

// said is where messages lie: over the picture as it is seen, and over the strip beside it too where the
// picture alone has no room for them. There an offer may reach below it: so much of the height is below
// the picture.
func (p *Page) said(rows pageRows, size fyne.Size) (at rect, below float32) {
	if !formOf(size, textScale()).beside() {
		return seenPart(rows.mirror, p.proportion), 0
	}
	at = rows.mirror
	if at.w >= leastSaid*textScale() {
		at = seenPart(rows.mirror, p.proportion)
	} else {
		at.w = rows.strip.x + rows.strip.w - at.x
	}
	below = max(rows.lower.bottom()-at.bottom(), 0)
	at.h += below
	return at, below
}

// startsBeside reports whether the ways to begin stand where strip and picture would be side by side.
func (p *Page) startsBeside(size fyne.Size) bool {
	return p.parts.Start.Visible() && formOf(size, textScale()).beside()
}

// Wide reports whether the page stands beside the picture.
func (p *Page) Wide() bool { return formOf(p.Size(), textScale()).wide }
