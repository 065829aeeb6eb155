package gui

import (
	"context"
	"image"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"app.tonedesk/gui/native"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// Waits while a region is chosen.
const (
	// hideWait is how long the desktop gets to paint what our window covered.
	hideWait = 250 * time.Millisecond
	// stillWait is how long the picture of the desktop may take.
	stillWait = 5 * time.Second
)

// PickRegion lets the painter choose a region on a frozen picture of the desktop. Our own
// window hides meanwhile.
func (d *Desk) PickRegion() {
	if d.picking {
		return
	}
	d.picking = true
	d.keep()
	own := native.SameDisplay()
	if own {
		d.window.Hide()
	}
	go func() {
		if own {
			time.Sleep(hideWait)
		}
		ctx, cancel := context.WithTimeout(context.Background(), stillWait)
		defer cancel()
		still, screen, err := d.screen.still(ctx)
		fyne.Do(func() { d.showPicker(still, screen, err) })
	}()
}

func (d *Desk) showPicker(still *image.RGBA, screen image.Rectangle, err error) {
	if err != nil {
		d.picked(nil)
		d.parts.strip.Say(widgets.MessageTrouble, wording.Explain("the screen", err))
		fyne.LogError("taking a picture of the desktop", err)
		return
	}
	var chosen image.Rectangle
	if d.setup.Source.Kind == setup.SourceRegion {
		chosen = d.setup.Source.Region
	}
	overlay := d.newOverlay()
	picker := widgets.NewPicker(still, screen, chosen, func(region image.Rectangle, ok bool) {
		d.picked(overlay)
		if ok {
			d.watch(setup.Source{Kind: setup.SourceRegion, Region: region})
		}
	})
	overlay.SetContent(picker)
	overlay.SetCloseIntercept(func() { picker.End(false) })
	d.coverScreen(overlay, screen)
	overlay.Canvas().Focus(picker)
}

// newOverlay is a window without a frame, where there can be one.
func (d *Desk) newOverlay() fyne.Window {
	if drv, ok := d.app.Driver().(desktop.Driver); ok && native.SameDisplay() {
		return drv.CreateSplashWindow()
	}
	return d.app.NewWindow(Title + ": choose a region")
}

// coverScreen shows the overlay over the whole desktop. Where that can't be had the
// picture is shown as large as it will go.
func (d *Desk) coverScreen(overlay fyne.Window, screen image.Rectangle) {
	overlay.SetPadded(false)
	scale := d.window.Canvas().Scale()
	overlay.Resize(fyne.NewSize(float32(screen.Dx())/scale, float32(screen.Dy())/scale))
	overlay.Show()
	if err := native.CoverDesktop(nativeWindow{overlay}.handle(), screen); err != nil {
		overlay.SetFullScreen(true)
	}
	overlay.RequestFocus()
}

// Picked ends the choosing: our window comes back where it was.
func (d *Desk) picked(overlay fyne.Window) {
	d.picking = false
	d.Show()
	if overlay != nil {
		overlay.Close()
	}
}
