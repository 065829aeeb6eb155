package gui

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/everywhere"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/menus"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/preferences"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// parts are the window's widgets.
type parts struct {
	bar      *widgets.SourceBar
	message  *widgets.Messages
	strip    *widgets.Strip
	sentence *widgets.Sentence
	spots    *widgets.Spots
	spread   *widgets.Spread
	frame    *widgets.Page // all of the window but what lies over it
	column   *widgets.PageColumn
	lower    *container.Scroll // in it
	pages    []pageView        // in the order of the list of pages; nil until it is opened
	tabs     *widgets.Chooser
	panel    panel
	keys     *everywhere.Keys // those that work in every program, with their rows in the settings
	views    *menus.Views
	start    firstStart
	prefs    *preferences.Page // the settings; nil while they are closed
	sheet    *widgets.Sheet    // what stands in place of sentence and page; nil for nothing
	over     *fyne.Container   // where it stands
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
	d.App.Settings().SetTheme(widgets.NewTheme(d.settings.Theme, d.settings.TextPercent))
	p := &d.parts
	d.Tips = widgets.NewTips(d.Later)
	p.bar = widgets.NewSourceBar(alwaysSeen{d})
	p.message = widgets.NewMessages(alwaysSeen{d}, d.Tips)
	d.Messages.Over = p.message
	d.Mirror = widgets.NewMirror(d.mirrorActs())
	p.strip = widgets.NewStrip(alwaysSeen{d}, func(to float64) {
		d.settings = slid(d.settings, to)
		d.settled()
	})
	d.pointer.Strip = p.strip
	p.sentence = widgets.NewSentence()
	p.message.Over = d.Mirror.SetCovered
	p.spots = widgets.NewSpots(widgets.SpotActs{Copy: d.copyHex, Select: d.selectSpot, Delete: d.deleteSpot, Keys: d, Tips: d.Tips})
	p.spread = widgets.NewSpread(widgets.SpreadActs{Border: d.borderMoved, Automatic: d.bordersAutomatic, Keys: d})
	p.views, p.start = newViews(d), newFirstStart(d)
	d.buildPages()
	p.column = widgets.NewPageColumn()
	p.lower = p.column.Scroll
	p.lower.OnScrolled = func(fyne.Position) { // something else lies under the pointer now
		d.Tips.Leave()
		d.families.Scrolled()
	}
	p.over = widgets.Over(canvas.NewRectangle(nil), p.sentence, p.column)
	d.showLower()
	p.start.ways.Hide()
	p.frame = widgets.NewPage(widgets.PageParts{Bar: p.bar, Start: p.start.ways, Messages: p.message, Mirror: d.Mirror, Strip: p.strip, Sentence: p.sentence,
		Lower: p.column, Tabs: p.tabs, Later: func(after time.Duration) { d.Later(after, d.layOut) }})
	p.frame.SetSentenceLines(sentenceLines(d.settings.Page))
	d.joinBar()
	d.Tips.Clear = p.tabs
	d.Window = d.App.NewWindow(Title) // only now: what changes before need not be painted anew in it
	d.Window.SetPadded(false)
	d.Window.SetContent(container.NewStack(p.frame, p.over, d.Tips.Box))
	d.Window.Resize(fyne.NewSize(d.settings.Width, d.settings.Height))
	d.Window.SetOnDropped(d.Dropped)
	d.Window.SetCloseIntercept(d.quit)
	d.joinKeys()
	d.showNoPicture()
	d.standing.show(d)
	if len(d.options.Problems) > 0 {
		d.Messages.Fail(strings.Join(d.options.Problems, " ")) // one more would hide the one before
	}
	d.FocusMirror()
}

func (d *Desk) joinBar() {
	bar, strip := d.parts.bar, d.parts.strip
	bar.Source.OnTapped = func() {
		d.FocusMirror()
		openSourceMenu(d, bar.Source.Below())
	}
	act := func(b *widgets.Button, tip string, do func()) {
		b.Explain(d.Tips, tip)
		b.OnTapped = func() {
			d.FocusMirror()
			do()
		}
	}
	if native.StaysAbove() {
		act(bar.OnTop, language.Say("Stay on top, K"), d.toggleAbove)
	}
	act(bar.Freeze, language.Say("Freeze, F"), d.Freeze)
	act(bar.View, viewTip(d.settings.View), func() { d.parts.views.Open(bar.View.Below()) })
	act(bar.More, language.Say("Menu, F1 lists all keys"), func() { openMenu(d, bar.More.Below()) })
	act(strip.Under, language.Say("Read under the pointer, P"), func() { toggleUnder(d) })
	act(strip.Out, language.Say("Zoom out, Ctrl+−"), func() { d.Mirror.Zoom(-1) })
	act(strip.Fit, language.Say("All of the picture, Ctrl+0"), func() { d.Mirror.Zoom(0) })
	act(strip.In, language.Say("Zoom in, Ctrl++"), func() { d.Mirror.Zoom(1) })
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
		Resized: d.refresh, Menu: func(at fyne.Position) { openMenu(d, at) }, Later: func(after time.Duration, do func()) func() { return d.Later(after, do) },
		Keys: alwaysSeen{d},
	}
}

// layOut lays the page anew, after a part asks for another height.
func (d *Desk) layOut() {
	if d.marker.waits() { // the picture must not move away from under its pen
		return
	}
	if d.parts.frame != nil {
		d.parts.frame.Refresh()
		d.Window.Canvas().Refresh(d.parts.frame) // the toolkit may have forgotten that it is there
		d.parts.over.Refresh()
	}
}

// openPanel shows a panel in place of sentence and page; asked twice, it closes it.
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
	d.Changed()
}

// showLower puts the open page below the sentence, and the open panel in place of both.
func (d *Desk) showLower() {
	p := &d.parts
	content, head, foot := d.page().content(), fyne.CanvasObject(nil), fyne.CanvasObject(nil)
	if fixed, ok := d.page().(fixedParts); ok {
		head, foot = fixed.fixed()
	}
	if !chosen(d) && d.settings.Page == settings.PageWatch {
		content, head, foot = p.start.steps, nil, nil
	}
	p.column.Set(content, head, foot)
	showSheet(d)
	d.Tips.Leave() // its part may be gone
	if p.sheet != nil {
		d.FocusMirror() // what had the keys isn't seen any more
	}
	if p.frame != nil {
		p.frame.SetCovered(p.sheet != nil)
		p.frame.SetSentenceLines(sentenceLines(d.settings.Page))
	}
	d.layOut()
}

// showSheet shows the open panel.
func showSheet(d *Desk) {
	p := &d.parts
	p.sheet, p.prefs = nil, nil
	switch p.panel {
	case panelSettings:
		p.prefs = preferences.New(&d.Host, &d.settings, prefActs(d))
		p.sheet = p.prefs.Sheet
	case panelKeys:
		p.sheet = newKeysSheet(d)
	}
	p.over.RemoveAll()
	if p.sheet != nil {
		p.over.Add(p.sheet)
	}
}

// prefActs joins the page of settings to the window.
func prefActs(d *Desk) preferences.Acts {
	acts := preferences.Acts{Monitor: func() string { return d.ways.Colours.Now().Monitor },
		Shown: func() string {
			now := d.ways.Colours.Now()
			return wording.SayShownIn(now.Monitor, now.Space.Title(), now.Err)
		},
		Changed: d.chosen, Tray: func(on bool) { toggleTray(d, on) }, Done: func() { d.openPanel(panelNone) }}
	if native.StaysAbove() {
		acts.StayOnTop = func(bool) { d.toggleAbove() }
	}
	if native.CanLeaveOut() {
		acts.LeaveOut = func(on bool) { leaveOut(d, on) }
	}
	if d.Store != nil {
		acts.Folder = d.Store.Folder("")
		acts.ShowFolder = func() { d.stills.openFolder(acts.Folder) }
	}
	return acts
}

// Show shows the window where it was when it was closed, and keeps it above others if that
// is wished.
func (d *Desk) Show() {
	d.Window.Show()
	d.restore()
}

// restore puts the window, just shown, where it was, and as it is wished to be: a window that was hidden
// has lost that.
func (d *Desk) restore() {
	d.own.Restore(d.settings.KeepAbove, d.settings.LeaveOut)
	d.FocusMirror()
	d.Changed()
}

// viewTip explains the view's button, and a name that isn't plain.
func viewTip(key string) string {
	if v, ok := views.ByKey(key); ok && v.Says != "" {
		return language.Say("%s, %s; next view V", wording.ViewName(v), wording.ViewSays(v))
	}
	return language.Say("View, next V")
}
