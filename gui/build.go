package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/views"
)

// parts are the window's widgets.
type parts struct {
	bar     *sourceBar
	strip   *strip
	mirror  *Mirror
	verdict *Verdict
	cards   *CardGrid
	spread  *Spread
	frame   *fyne.Container // all of the window but what lies over it
	lower   *container.Scroll
	pages   []pageView // in the order of the list of pages
	tabs    *chooser
	panel   panel
	ground  *canvas.Rectangle
	tips    *tips
}

// panel is what stands in place of the page.
type panel uint8

const (
	panelNone panel = iota
	panelSettings
	panelKeys
)

// Title is the window's name; desktops know its windows by it.
const Title = "Tonedesk"

// build makes the window and joins its parts.
func (d *Desk) build() {
	d.app.Settings().SetTheme(NewTheme(d.settings.Ground))
	d.window = d.app.NewWindow(Title)
	d.native.window = d.window
	d.window.SetPadded(false)
	p := &d.parts
	p.tips = newTips()
	p.bar = newSourceBar(fixed{d})
	p.strip = newStrip(fixed{d}, d.relay)
	p.mirror = NewMirror()
	p.mirror.Acts = d.mirrorActs()
	p.verdict = NewVerdict()
	p.cards = NewCardGrid(d.cardActs())
	p.spread = NewSpread(SpreadActs{Edge: d.edgeMoved, Automatic: d.edgesAutomatic, Keys: d})
	d.buildPages()
	p.lower = container.NewVScroll(nil)
	p.lower.OnScrolled = func(fyne.Position) { // something else lies under the pointer now
		p.tips.leave()
		d.pointed = -1
		d.showOutline()
	}
	d.showLower()
	p.ground = canvas.NewRectangle(nil)
	lay := &pageLayout{bar: p.bar, strip: p.strip.box, mirror: p.mirror, verdict: p.verdict, lower: p.lower, tabs: p.tabs,
		content: func() fyne.Size { return p.lower.Content.MinSize() }, rewrap: func() { p.lower.Content.Refresh() }}
	p.frame = container.New(lay, p.bar, p.strip.box, p.mirror, p.verdict, p.lower, p.tabs)
	d.joinBar()
	d.window.SetContent(container.NewStack(p.ground, p.frame, p.tips.box))
	d.window.Resize(fyne.NewSize(d.settings.Width, d.settings.Height))
	d.window.SetOnDropped(d.Dropped)
	d.window.SetCloseIntercept(d.quit)
	d.joinKeys()
	d.colour()
	d.showNoPicture()
	d.showStrip()
	for _, problem := range d.options.Problems {
		p.strip.say(stripNote, problem)
	}
	d.focusMirror()
}

func (d *Desk) joinBar() {
	bar := d.parts.bar
	act := func(b *button, tip string, do func()) {
		b.explain(d.parts.tips, tip)
		b.OnTapped = func() {
			d.focusMirror()
			do()
		}
	}
	act(bar.region, "Choose a region of the screen (R)", d.PickRegion)
	act(bar.freeze, "Hold the picture, or go on (F)", d.Freeze)
	act(bar.view, "Choose a view (V is the next)", d.openViews)
	act(bar.more, "Menu; F1 lists all keys", func() { d.openMenu(below(bar.more)) })
}

// joinKeys makes the window's keys work while nothing has the focus.
func (d *Desk) joinKeys() {
	c := d.window.Canvas()
	c.SetOnTypedRune(d.typedRune)
	c.SetOnTypedKey(func(e *fyne.KeyEvent) {
		if !d.typedKey(e.Name) {
			d.focusMirror()
			d.parts.mirror.TypedKey(e)
		}
	})
	// keys with Ctrl that Fyne would give to nobody
	for _, s := range shortcuts() {
		c.AddShortcut(s, d.typedShortcut)
	}
}

func (d *Desk) mirrorActs() MirrorActs {
	return MirrorActs{
		Click: d.clicked, Drag: d.dragged, Carry: d.carried, Select: d.selectSpot, Look: d.looked,
		Resized: d.renew, Menu: d.openMenu,
		Key:   func(name fyne.KeyName, _ bool) bool { return d.typedKey(name) },
		Rune:  d.typedRune,
		Short: d.typedShortcut,
	}
}

// colour gives the theme's colours of now to what isn't a widget.
func (d *Desk) colour() {
	th, v := d.app.Settings().Theme(), d.app.Settings().ThemeVariant()
	d.parts.ground.FillColor = th.Color(theme.ColorNameBackground, v)
	d.parts.ground.Refresh()
	d.parts.strip.colour(th, v)
}

// relay lays the page anew, after a part asks for another height.
func (d *Desk) relay() {
	if d.pen.down { // the picture must not move away from under it
		d.pen.relay = true
		return
	}
	if d.parts.frame != nil {
		d.parts.frame.Refresh()
	}
}

// openPanel shows a panel in place of the page; asked twice, it closes it.
func (d *Desk) openPanel(which panel) {
	p := &d.parts
	if which == p.panel {
		which = panelNone
	}
	p.panel = which
	d.showLower()
	if which == panelNone {
		d.focusMirror()
	}
}

// showLower puts the open panel or page below the sentence.
func (d *Desk) showLower() {
	p := &d.parts
	content := d.page().content()
	switch p.panel {
	case panelSettings:
		content = d.framed("Settings", newSettingsPanel(&d.settings, d.settled, quietLine))
	case panelKeys:
		content = d.framed("Keys", newKeysPanel(d.options.Messages))
	}
	p.lower.Content = container.New(layout.NewCustomPaddedLayout(0, 0, 0, gutter), content)
	p.lower.ScrollToTop()
	p.tips.leave() // its part may be gone
	p.lower.Refresh()
	d.relay()
}

// framed puts a heading with a button to close it over a panel.
func (d *Desk) framed(heading string, content fyne.CanvasObject) fyne.CanvasObject {
	title := widget.NewLabel(heading)
	title.TextStyle.Bold = true
	done := newButton("Done", d, func() { d.openPanel(panelNone) })
	back := newGround(ColorNamePanel)
	inner := container.NewVBox(container.NewBorder(nil, nil, title, done), content)
	return container.NewStack(back, container.NewPadded(inner))
}

// Show shows the window where it was when it was closed, and keeps it above others if that
// is wished.
func (d *Desk) Show() {
	d.window.Show()
	d.restore()
}

// restore puts the window, just shown, where it was and above others if that is wished:
// a window that was hidden has lost both.
func (d *Desk) restore() {
	d.native.restore(d.settings.Place.Rectangle())
	d.keepAbove()
	d.focusMirror()
}

// viewWord is what the view's button says.
func viewWord(key string) string {
	v, ok := views.ByKey(key)
	if !ok {
		return "View"
	}
	return v.Name
}
