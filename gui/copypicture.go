package gui

import (
	"bytes"
	"image"
	"sync"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// pictureClip puts pictures on the clipboard. Of those asked for at the same time, the one
// asked for last stays there, whichever is ready first.
type pictureClip struct {
	put func(png []byte) error

	mu    sync.Mutex
	asked int // so far
}

// ask returns the number of a picture that is to be copied.
func (c *pictureClip) ask() int {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.asked++
	return c.asked
}

// copy copies the picture with that number; false if a later one was asked for meanwhile.
func (c *pictureClip) copy(number int, png []byte) (bool, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if number != c.asked {
		return false, nil
	}
	return true, c.put(png)
}

// copyImage puts a picture on the clipboard, without holding up the window, and says so. The
// picture must not change meanwhile.
func (d *Desk) copyImage(img image.Image) {
	number := d.clip.ask()
	d.aside(func() {
		var file bytes.Buffer
		wanted, err := true, stills.WritePNG(&file, img)
		if err == nil {
			wanted, err = d.clip.copy(number, file.Bytes())
		}
		if !wanted {
			return
		}
		d.onWindow(func() {
			if err != nil {
				d.parts.strip.Say(widgets.MessageNote, wording.Explain("copy the picture", err))
				fyne.LogError("copying a picture", err)
				return
			}
			d.parts.strip.Say(widgets.MessageNote, "The picture is copied.")
		})
	})
}
