package gui

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/widgets"
)

// parts are the window's widgets.
type parts struct {
	bar     *widgets.SourceBar
	message *widgets.MessageBar
	verdict *widgets.Verdict
	cards   *widgets.CardGrid
	spread  *widgets.Spread
	frame   *widgets.Page // all of the window but what lies over it
	lower   *container.Scroll
	pages   []pageView // in the order of the list of pages
	tabs    *widgets.Chooser
	panel   panel
	ground  *canvas.Rectangle
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
	d.App.Settings().SetTheme(widgets.NewTheme(d.settings.Ground))
	d.Window = d.App.NewWindow(Title)
	d.Window.SetPadded(false)
	p := &d.parts
	d.Tips = widgets.NewTips(d.Later)
	p.bar = widgets.NewSourceBar(alwaysSeen{d})
	p.message = widgets.NewMessageBar(alwaysSeen{d}, d.layOut)
	d.Messages.Bar = p.message
	d.Mirror = widgets.NewMirror(d.mirrorActs())
	p.verdict = widgets.NewVerdict()
	p.cards = widgets.NewCardGrid(d.cardActs())
	p.spread = widgets.NewSpread(widgets.SpreadActs{Edge: d.edgeMoved, Automatic: d.edgesAutomatic, Keys: d})
	d.buildPages()
	p.lower = container.NewVScroll(nil)
	p.lower.OnScrolled = func(fyne.Position) { // something else lies under the pointer now
		d.Tips.Leave()
		d.families.PointAtNone()
	}
	d.showLower()
	p.ground = canvas.NewRectangle(nil)
	p.frame = widgets.NewPage(widgets.PageParts{Bar: p.bar, Messages: p.message, Mirror: d.Mirror, Verdict: p.verdict, Lower: p.lower, Tabs: p.tabs,
		Later: func(after time.Duration) { d.Later(after, d.layOut) }})
	d.joinBar()
	d.Window.SetContent(container.NewStack(p.ground, p.frame, d.Tips.Box))
	d.Window.Resize(fyne.NewSize(d.settings.Width, d.settings.Height))
	d.Window.SetOnDropped(d.Dropped)
	d.Window.SetCloseIntercept(d.quit)
	d.joinKeys()
	d.colour()
	d.showNoPicture()
	d.showStanding()
	if len(d.options.Problems) > 0 {
		d.Messages.Note(strings.Join(d.options.Problems, " ")) // one more would hide the one before
	}
	d.FocusMirror()
}

func (d *Desk) joinBar() {
	bar := d.parts.bar
	act := func(b *widgets.Button, tip string, do func()) {
		b.Explain(d.Tips, tip)
		b.OnTapped = func() {
			d.FocusMirror()
			do()
		}
	}
	act(bar.Region, "Choose a region of the screen (R)", d.PickRegion)
	act(bar.Freeze, "Hold the picture, or go on (F)", d.Freeze)
	act(bar.View, "Choose a view (V is the next)", d.openViews)
	act(bar.More, "Menu; F1 lists all keys", func() { d.openMenu(bar.More.Below()) })
}

// joinKeys makes the window's keys work while nothing has the focus.
func (d *Desk) joinKeys() {
	c := d.Window.Canvas()
	c.SetOnTypedRune(d.TypedRune)
	c.SetOnTypedKey(func(e *fyne.KeyEvent) {
		if !d.TypedKey(e.Name) {
			d.FocusMirror()
			d.Mirror.TypedKey(e)
		}
	})
	// keys with Ctrl that Fyne would give to nobody
	for _, s := range shortcuts() {
		c.AddShortcut(s, d.TypedShortcut)
	}
}

func (d *Desk) mirrorActs() widgets.MirrorActs {
	return widgets.MirrorActs{
		Click: d.clicked, Drag: d.dragged, Carry: d.carried, Select: d.selectSpot, Look: d.looked,
		Resized: d.refresh, Menu: d.openMenu, Later: func(after time.Duration, do func()) { d.Later(after, do) },
		Keys: alwaysSeen{d},
	}
}

// colour gives the theme's colours of now to what isn't a widget.
func (d *Desk) colour() {
	th, v := d.App.Settings().Theme(), d.App.Settings().ThemeVariant()
	d.parts.ground.FillColor = th.Color(theme.ColorNameBackground, v)
	d.parts.ground.Refresh()
}

// layOut lays the page anew, after a part asks for another height.
func (d *Desk) layOut() {
	if d.marker.waits() { // the picture must not move away from under its pen
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
		d.FocusMirror()
	}
}

// showLower puts the open panel or page below the sentence.
func (d *Desk) showLower() {
	p := &d.parts
	content := d.page().content()
	switch p.panel {
	case panelSettings:
		content = d.framed("Settings", newSettingsPanel(&d.settings, d.chosen, widgets.QuietLine))
	case panelKeys:
		content = d.framed("Keys", newKeysPanel(d.options.Messages))
	}
	p.lower.Content = container.New(layout.NewCustomPaddedLayout(0, 0, 0, widgets.Gutter), content)
	p.lower.ScrollToTop()
	d.Tips.Leave() // its part may be gone
	p.lower.Refresh()
	d.layOut()
}

// framed puts a heading with a button to close it over a panel.
func (d *Desk) framed(heading string, content fyne.CanvasObject) fyne.CanvasObject {
	title := widget.NewLabel(heading)
	title.TextStyle.Bold = true
	done := widgets.NewButton("Done", d, func() { d.openPanel(panelNone) })
	back := widgets.NewPanel()
	inner := container.NewVBox(container.NewBorder(nil, nil, title, done), content)
	return container.NewStack(back, container.NewPadded(inner))
}

// Show shows the window where it was when it was closed, and keeps it above others if that
// is wished.
func (d *Desk) Show() {
	d.Window.Show()
	d.restore()
}

// restore puts the window, just shown, where it was and above others if that is wished:
// a window that was hidden has lost both.
func (d *Desk) restore() {
	d.own.Restore(d.settings.Place.Rectangle(), d.settings.KeepAbove)
	d.FocusMirror()
}

// viewWord is what the view's button says.
func viewWord(key string) string {
	v, ok := views.ByKey(key)
	if !ok {
		return "View"
	}
	return v.Name
}
