package gui

import (
	"context"
	"image"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// pictureWait is how long the picture of the desktop may take.
const pictureWait = 5 * time.Second

// regionPicker lets the painter choose a region on a frozen picture of the desktop. Our own
// window hides meanwhile.
type regionPicker struct {
	*host.Host
	screen  *screen
	handle  func() uintptr               // of our own window
	chosen  func() image.Rectangle       // what is watched now; empty for no region
	back    func()                       // shows our own window again
	take    func(region image.Rectangle) // the painter chose
	picking bool
}

// pick begins choosing. While a region is being chosen it does nothing.
func (p *regionPicker) pick() {
	if p.picking {
		return
	}
	p.picking = true
	gone := func() bool { return true }
	if native.SameDisplay() {
		own := p.handle()
		p.Window.Hide()
		gone = func() bool {
			hidden, err := native.Hidden(own)
			return hidden || err != nil // where the system doesn't tell there is nothing to wait for
		}
	}
	go func() {
		ctx, cancel := context.WithTimeout(context.Background(), pictureWait)
		defer cancel()
		picture, screen, err := p.screen.picture(ctx, gone)
		p.Soon(func() { p.show(picture, screen, err) })
	}()
}

// show shows the picture of the desktop to choose on, or says why there is none.
func (p *regionPicker) show(picture *image.RGBA, screen image.Rectangle, err error) {
	if err != nil {
		p.end(nil)
		p.Messages.Say(host.MessageTrouble, wording.Explain("take a picture of the screen", err))
		fyne.LogError("taking a picture of the desktop", err)
		return
	}
	overlay := p.newOverlay()
	picker := widgets.NewPicker(picture, screen, p.chosen(), func(region image.Rectangle, ok bool) {
		p.end(overlay)
		if ok {
			p.take(region)
		}
	})
	overlay.SetContent(picker)
	overlay.SetCloseIntercept(func() { picker.End(false) })
	p.cover(overlay, screen)
	overlay.Canvas().Focus(picker)
}

// newOverlay is a window without a frame, where there can be one.
func (p *regionPicker) newOverlay() fyne.Window {
	if drv, ok := p.App.Driver().(desktop.Driver); ok && native.SameDisplay() {
		return drv.CreateSplashWindow()
	}
	return p.App.NewWindow(Title + ": choose a region")
}

// cover shows the overlay over the whole desktop. Where that can't be had the picture is
// shown as large as it will go.
func (p *regionPicker) cover(overlay fyne.Window, screen image.Rectangle) {
	overlay.SetPadded(false)
	scale := p.Window.Canvas().Scale()
	overlay.Resize(fyne.NewSize(float32(screen.Dx())/scale, float32(screen.Dy())/scale))
	overlay.Show()
	if err := native.CoverDesktop(host.NativeHandle(overlay), screen); err != nil {
		overlay.SetFullScreen(true)
	}
	overlay.RequestFocus()
}

// end ends the choosing: our window comes back where it was.
func (p *regionPicker) end(overlay fyne.Window) {
	p.picking = false
	p.back()
	if overlay != nil {
		overlay.Close()
	}
}
