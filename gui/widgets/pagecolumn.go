package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// PageColumn is the room of the open page: what is scrolled, and what stays above and below it.
// It asks for no room, so that no page makes the window larger.
type PageColumn struct {
	drawn
	Scroll     *container.Scroll
	head, foot fyne.CanvasObject // nil for none
	wheel      *wheel
}

// NewPageColumn returns an empty column.
func NewPageColumn() *PageColumn {
	c := &PageColumn{Scroll: container.NewVScroll(nil)}
	c.wheel = newWheel(c)
	c.draw(c)
	return c
}

// Set shows a page's content, with what stays above and below while it is scrolled; nil is none.
func (c *PageColumn) Set(content, head, foot fyne.CanvasObject) {
	c.Scroll.Content = container.New(gutter{}, content)
	c.head, c.foot = head, foot
	c.objects = []fyne.CanvasObject{c.Scroll}
	if head != nil {
		c.objects = append([]fyne.CanvasObject{head}, c.objects...)
	}
	if foot != nil {
		c.objects = append(c.objects, foot)
	}
	c.objects = append(c.objects, c.wheel)
	c.Scroll.ScrollToTop()
	c.Scroll.Refresh()
	c.Refresh()
}

func (c *PageColumn) write(size fyne.Size, _ colours) {
	if size.IsZero() {
		return
	}
	for _, o := range []fyne.CanvasObject{c.head, c.foot} { // wrapped words know their height in their width only
		if o != nil {
			o.Resize(fyne.NewSize(size.Width-Gutter, o.MinSize().Height))
		}
	}
	c.Scroll.Resize(fyne.NewSize(size.Width, c.Scroll.Size().Height))
}

// place gives what is scrolled what the others leave.
func (c *PageColumn) place(size fyne.Size) {
	top, bottom := float32(0), size.Height
	if c.head != nil {
		h := c.head.MinSize().Height
		put(c.head, fyne.Position{}, fyne.NewSize(size.Width-Gutter, h))
		top = h + Step
	}
	if c.foot != nil {
		h := c.foot.MinSize().Height
		bottom -= h
		put(c.foot, fyne.NewPos(0, bottom), fyne.NewSize(size.Width-Gutter, h))
		bottom -= Step
	}
	put(c.Scroll, fyne.NewPos(0, top), fyne.NewSize(size.Width, max(bottom-top, 0)))
	c.wheel.Resize(size)
}

// gutter keeps the scroll bar's room free beside its one part.
type gutter struct{}

// Layout gives the part all but the gutter.
func (gutter) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(fyne.NewSize(size.Width-Gutter, size.Height))
}

// MinSize is the part's height; a page is as wide as the window.
func (gutter) MinSize(o []fyne.CanvasObject) fyne.Size { return fyne.NewSize(0, o[0].MinSize().Height) }
