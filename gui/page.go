package gui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// page is a part of the window that the tabs at its foot change: what stands below the
// sentence. A new page is one file and its line in pages.
type page struct {
	name string // on its tab, and in the settings
	make func(d *Desk) pageView
}

// pageView is a page as the window has it. It is used on the Fyne goroutine only.
type pageView interface {
	content() fyne.CanvasObject
	sentence() wording.Sentence // the answer to what the page asks; the zero one is the pair's
	show(r *analysis.Reading)   // renews the figures; only the open page is asked
	opened(open bool)           // the page has just been opened, or left
	handle(e host.PageEvent)    // something happened; only the open page is told
	trace(line *traceLine)      // adds what the page shows
	wantsFamilies() bool        // the page shows families: they are to be looked for
}

// fixedParts is a page of which some stays while the rest is scrolled, above it and below; nil is
// nothing.
type fixedParts interface {
	fixed() (head, foot fyne.CanvasObject)
}

// pages lists them in the order of the tabs.
func pages() []page {
	return []page{
		{settings.PageWatch, newWatchPage},
		{settings.PageStructure, newStructurePage},
		{settings.PageColours, newColoursPage},
		{settings.PageStills, newStillsPage},
	}
}

// pageIndex returns the place of a page in the list, -1 if there is none of that name.
func pageIndex(name string) int {
	return slices.IndexFunc(pages(), func(p page) bool { return p.name == name })
}

// buildPages makes the tabs and the open page; the others are made when they are first opened.
func (d *Desk) buildPages() {
	var names []string
	for _, p := range pages() {
		names = append(names, language.Name(p.name))
	}
	d.parts.pages = make([]pageView, len(names))
	d.parts.tabs = widgets.NewTabs(names, alwaysSeen{d}, d.openPage)
	d.parts.tabs.Set(pageIndex(d.settings.Page))
	d.page().opened(true)
}

// page is the open one.
func (d *Desk) page() pageView {
	i := pageIndex(d.settings.Page)
	if d.parts.pages[i] == nil {
		d.parts.pages[i] = pages()[i].make(d)
	}
	return d.parts.pages[i]
}

// openPage shows a page, and closes a panel that lies over it.
func (d *Desk) openPage(i int) {
	if next := pages()[i].name; next != d.settings.Page {
		d.page().opened(false)
		d.settings.Page = next
		d.parts.tabs.Set(i)
		d.page().opened(true)
		leaveFocus(d, d.parts.tabs)
		d.keep()
	}
	d.parts.panel = panelNone
	d.showLower()
	d.showMarks()
	d.refresh()
}

// leaveFocus gives the focus to the mirror when other parts are shown, unless what had them shown has
// it: no keys go to what isn't seen.
func leaveFocus(d *Desk, but fyne.Focusable) {
	if at := d.Window.Canvas().Focused(); at != nil && at != but {
		d.FocusMirror()
	}
}

// nextPage goes through the pages.
func (d *Desk) nextPage(by int) {
	n := len(pages())
	d.openPage((pageIndex(d.settings.Page) + by + n) % n)
}

// goOnFrom shows what can be painted next to a colour.
func goOnFrom(d *Desk) func(colour.RGB) {
	return func(c colour.RGB) {
		d.Steps.BeginFrom(&c)
		d.openPage(pageIndex(settings.PageColours))
	}
}

// plainPage is a page that asks for little; what it is told it takes itself.
type plainPage struct{}

func (plainPage) opened(bool)                {}
func (plainPage) wantsFamilies() bool        { return false }
func (plainPage) sentence() wording.Sentence { return wording.Sentence{} }

// Reveal scrolls the page so that a part that was given the focus by the keyboard is seen:
// the toolkit gives none of our parts the focus by a click.
func (d *Desk) Reveal(part fyne.CanvasObject) {
	if d.Window.Canvas().Overlays().Top() != nil || !part.Visible() {
		return // it lies in a dialog, or comes only now, in a row that is seen: as yet it has no place
	}
	lower := scrolledOf(d)
	driver := d.App.Driver()
	top := driver.AbsolutePositionForObject(part).Y - driver.AbsolutePositionForObject(lower).Y
	by := widgets.ScrollToShow(top, part.Size().Height, lower.Size().Height)
	if by != 0 {
		lower.ScrollToOffset(lower.Offset.AddXY(0, by))
	}
}

// pageTurn is how much of what is seen a key scrolls by.
const pageTurn = 0.8

// scrollPage scrolls the page by a part of what is seen of it.
func (d *Desk) scrollPage(by float32) {
	lower := scrolledOf(d)
	lower.ScrollToOffset(lower.Offset.AddXY(0, by*lower.Size().Height))
}

// scrolledOf is what scrolls: of the open panel, or of the page, some of which keep a part in its
// place.
func scrolledOf(d *Desk) *container.Scroll {
	if d.parts.sheet != nil {
		return d.parts.sheet.Scroll()
	}
	if p, ok := d.page().(interface{ scrolled() *container.Scroll }); ok && d.parts.panel == panelNone {
		return p.scrolled()
	}
	return d.parts.lower
}

// alwaysSeen are the window's keys for parts that are no part of the page: they are always
// seen.
type alwaysSeen struct{ widgets.Keys }

// Reveal has nothing to do.
func (alwaysSeen) Reveal(fyne.CanvasObject) {}
