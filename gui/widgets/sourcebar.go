package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"app.tonedesk/gui/icons"
)

// SourceBar is the window's first row: what is watched, and what can be done with it. How wide its
// parts are depends on the window and on the size of text, never on words.
type SourceBar struct {
	drawn

	// Source, OnTop, Freeze, View and More are pressed to do what they say; their owner gives them
	// their tasks. OnTop is there in a wide window only, if it has one: else it stands in the menu.
	Source                    *SourceChip
	OnTop, Freeze, View, More *Button

	view string
	wide bool
	back *canvas.Rectangle
}

// NewSourceBar returns a bar that waits for its source.
func NewSourceBar(keys Keys) *SourceBar {
	b := &SourceBar{}
	b.back = b.addBox()
	b.Source = add(&b.drawn, NewSourceChip(keys))
	b.OnTop = add(&b.drawn, NewIconButton(icons.OnTop, keys, nil))
	b.OnTop.Hide()
	b.Freeze = add(&b.drawn, NewIconButton(icons.Freeze, keys, nil))
	b.View = add(&b.drawn, NewButton("", keys, nil).Opens())
	b.More = add(&b.drawn, NewIconButton(icons.Menu, keys, nil))
	b.draw(b)
	return b
}

// SetView names the view that is shown.
func (b *SourceBar) SetView(name string) {
	if name != b.view {
		b.view = name
		b.redraw()
	}
}

// SetFrozen shows what the button beside the source does: hold the picture, or go on.
func (b *SourceBar) SetFrozen(frozen bool) {
	icon := icons.Freeze
	if frozen {
		icon = icons.Resume
	}
	b.Freeze.SetIcon(icon)
	b.Freeze.SetOn(frozen)
}

// setWide says that the window is wide.
func (b *SourceBar) setWide(wide bool) {
	if wide != b.wide {
		b.wide = wide
		b.Source.wide = wide
		b.Source.redraw()
		b.redraw()
	}
}

// barPlan is where the parts of the bar lie.
type barPlan struct{ source, onTop, freeze, view, more rect }

// Lengths of the bar, at the text's plain size.
const (
	barSquare  = 36        // side of its buttons
	barView    = 104       // width of the view's button
	barLowPart = 8.0 / 9   // by how much all is smaller in a low window: its buttons are 32
	barChip    = 33 * Step // most width of the source chip, 264
	leastChip  = 12 * Step // and least: for that the view's button gives its word (our choice)
	barGap     = Step / 2
)

// barPlanFor is the geometry of a bar.
func barPlanFor(size fyne.Size, text float32, wide bool) (p barPlan) {
	square, view := round(barSquare*text), round(barView*text)
	if size.Height-Step <= square { // the low form
		square, view = round(barSquare*barLowPart*text), round(88*text)
	}
	y, gap := (size.Height-square)/2, float32(barGap)
	chip := func() float32 { return size.Width - 2*Step - 2*square - view - Step - 2*gap }
	if chip() < leastChip*text {
		view = square
	}
	x := size.Width - Step
	put := func(w float32) rect {
		x -= w
		r := rect{x, y, w, square}
		x -= gap
		return r
	}
	p.more, p.view, p.freeze = put(square), put(view), put(square)
	if wide {
		p.onTop = put(square)
	}
	p.source = rect{Step, y, max(min(x+gap-2*Step, barChip*text), 0), square}
	return p
}

// onTop reports whether OnTop is there.
func (b *SourceBar) onTop() bool { return b.wide && b.OnTop.OnTapped != nil }

func (b *SourceBar) write(size fyne.Size, of colours) {
	fill(b.back, of(ColorNamePanel))
	show(b.OnTop, b.onTop())
	p := barPlanFor(size, textScale(), b.onTop())
	if p.view.w == p.view.h { // no room for the name
		b.View.SetText("")
		b.View.SetIcon(icons.View)
	} else {
		b.View.SetText(b.view)
		b.View.SetIcon("")
	}
}

func (b *SourceBar) place(size fyne.Size) {
	b.back.Resize(size)
	p := barPlanFor(size, textScale(), b.onTop())
	if !b.onTop() {
		p.onTop = p.freeze // it is hidden
	}
	for _, at := range []struct {
		part fyne.CanvasObject
		rect
	}{{b.Source, p.source}, {b.OnTop, p.onTop}, {b.Freeze, p.freeze}, {b.View, p.view}, {b.More, p.more}} {
		put(at.part, fyne.NewPos(at.x, at.y), fyne.NewSize(at.w, at.h))
	}
}
