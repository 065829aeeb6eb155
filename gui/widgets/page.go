package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

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
}

// Page lays the window out: source bar, messages, mirror, verdict, below them what can be
// scrolled, and the tabs at the foot; in a wide window all from the verdict on stands beside
// the mirror. Its owner refreshes it when a part asks for another height.
type Page struct {
	widget.BaseWidget
	parts   PageParts
	heights pageHeights // that the parts ask for, in the page's width of now
	width   float32     // of what is scrolled
}

// NewPage returns a page of parts, all of which have to be there.
func NewPage(parts PageParts) *Page {
	p := &Page{parts: parts}
	p.ExtendBaseWidget(p)
	return p
}

// Resize measures the parts in their new width, and then lays them out.
func (p *Page) Resize(size fyne.Size) {
	if size != p.Size() {
		p.measure(size)
		p.BaseWidget.Resize(size)
	}
}

// measure asks the parts for their heights. Wrapped texts know theirs only once they have
// their widths, so these parts get them here.
func (p *Page) measure(size fyne.Size) {
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

// CreateRenderer lays out the parts.
func (p *Page) CreateRenderer() fyne.WidgetRenderer { return pageRenderer{p} }

type pageRenderer struct{ p *Page }

// Layout places everything.
func (r pageRenderer) Layout(size fyne.Size) {
	rows, parts := pageRowsFor(size, r.p.heights), r.p.parts
	rows.lower.w += Gutter
	for _, at := range []struct {
		part fyne.CanvasObject
		rect
	}{{parts.Bar, rows.bar}, {parts.Messages, rows.messages}, {parts.Verdict, rows.verdict}, {parts.Lower, rows.lower}, {parts.Tabs, rows.tabs}, {parts.Mirror, rows.mirror}} {
		put(at.part, fyne.NewPos(at.x, at.y), fyne.NewSize(max(at.w, 0), max(at.h, 0)))
	}
}

// MinSize is the smallest window in which everything still fits.
func (pageRenderer) MinSize() fyne.Size { return fyne.NewSize(settings.MinWidth, settings.MinHeight) }

// Refresh measures and lays out the parts anew.
func (r pageRenderer) Refresh() {
	r.p.measure(r.p.Size())
	r.Layout(r.p.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

// Objects are the parts; the order is that of the Tab key.
func (r pageRenderer) Objects() []fyne.CanvasObject {
	p := r.p.parts
	return []fyne.CanvasObject{p.Bar, p.Messages, p.Mirror, p.Verdict, p.Lower, p.Tabs}
}

// Destroy has nothing to let go of.
func (pageRenderer) Destroy() {}
