package watching

import (
	"context"
	"image"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// pictureWait is how long the picture of the desktop may take.
const pictureWait = 5 * time.Second

// closeAfter is how long the window over the desktop stays, hidden, for another choosing (our
// choice): long enough for what was pressed in it to be let go and to have arrived.
const closeAfter = 2 * time.Second

// regionPicker lets the painter choose a region on a frozen picture of the desktop. Our own
// window hides meanwhile.
//
// The window over the desktop only hides at first. A press may end the choosing before its
// button is let go, and the toolkit breaks down where that reaches a window that is closed. Later
// it is closed: its graphics take 10 MB and the driver some 14 for each million of its pixels.
type regionPicker struct {
	*host.Host
	screen  *screen
	handle  func() uintptr               // of our own window
	chosen  func() image.Rectangle       // what is watched now; empty for no region
	back    func()                       // shows our own window again
	take    func(region image.Rectangle) // the painter chose
	picking bool
	overlay fyne.Window     // nil where there is none
	picker  *widgets.Picker // its content
	unused  *time.Timer     // closes it; nil until the first choosing ended
}

// pick begins choosing. While a region is being chosen it does nothing.
func (p *regionPicker) pick() {
	if p.picking {
		return
	}
	p.picking = true
	if p.unused != nil {
		p.unused.Stop()
	}
	gone := func() bool { return true }
	if native.SameDisplay() {
		own := p.handle()
		p.Window.Hide()
		gone = func() bool {
			hidden, err := native.Hidden(own)
			return hidden || err != nil // where the system doesn't tell there is nothing to wait for
		}
	}
	var picture *image.RGBA
	var screen image.Rectangle
	p.Background(func() (err error) {
		ctx, cancel := context.WithTimeout(context.Background(), pictureWait)
		defer cancel()
		picture, screen, err = p.screen.picture(ctx, gone)
		return err
	}, func(err error) { p.show(picture, screen, err) })
}

// show shows the picture of the desktop to choose on, or says why there is none.
func (p *regionPicker) show(picture *image.RGBA, screen image.Rectangle, err error) {
	if err != nil {
		p.end()
		p.Messages.Fail(wording.Explain("take a picture of the screen", err))
		fyne.LogError("taking a picture of the desktop", err)
		return
	}
	if p.overlay == nil {
		p.overlay, p.picker = p.newOverlay(), widgets.NewPicker(p.Keys)
		p.overlay.SetPadded(false)
		p.overlay.SetContent(p.picker)
		p.overlay.SetCloseIntercept(func() { p.picker.End(false) })
	}
	p.picker.Begin(picture, screen, p.chosen(), func(region image.Rectangle, ok bool) {
		p.end()
		if ok {
			p.take(region)
		}
	})
	p.cover(screen)
	p.overlay.Canvas().Focus(p.picker)
}

// newOverlay is a window without a frame, where there can be one.
func (p *regionPicker) newOverlay() fyne.Window {
	if drv, ok := p.App.Driver().(desktop.Driver); ok && native.SameDisplay() {
		return drv.CreateSplashWindow()
	}
	return p.App.NewWindow(language.Say("%s: choose a region", p.Window.Title()))
}

// cover shows the overlay over the whole desktop. Where that can't be had the picture is
// shown as large as it will go.
func (p *regionPicker) cover(screen image.Rectangle) {
	scale := p.Window.Canvas().Scale()
	p.overlay.Resize(fyne.NewSize(float32(screen.Dx())/scale, float32(screen.Dy())/scale))
	p.overlay.Show()
	if err := native.CoverDesktop(host.NativeHandle(p.overlay), screen); err != nil {
		p.overlay.SetFullScreen(true)
	}
	p.overlay.RequestFocus()
}

// end ends the choosing: our window comes back where it was. Of the other one nothing stays.
func (p *regionPicker) end() {
	p.picking = false
	p.back()
	if p.overlay != nil {
		p.overlay.Hide()
		p.unused = time.AfterFunc(closeAfter, func() { p.Soon(p.close) })
	}
}

// close closes the window over the desktop, unless it is in use again.
func (p *regionPicker) close() {
	if !p.picking && p.overlay != nil {
		p.overlay.Close()
		p.overlay, p.picker = nil, nil
	}
}
