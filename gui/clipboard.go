package gui

import (
	"bytes"
	"image"
	"strings"
	"sync"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis/swatches"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/wording"
)

// clipboard puts texts and pictures on the clipboard, and says so. Of pictures asked for at
// the same time, the one asked for last stays there, whichever is ready first.
type clipboard struct {
	*host.Host
	put func(png []byte) error

	mu    sync.Mutex
	asked int // pictures so far
}

// copySwatches copies colours as text.
func (c *clipboard) copySwatches(rows []swatches.Row) {
	var text strings.Builder
	_ = swatches.WriteText(&text, rows) // a builder takes all
	c.App.Clipboard().SetContent(text.String())
	c.Messages.Note("Copied all of these colours")
}

// copyImage copies a picture, without holding up the window. The picture must not change
// meanwhile.
func (c *clipboard) copyImage(img image.Image) {
	number := c.ask()
	wanted := true
	c.Background(func() error {
		var file bytes.Buffer
		err := stills.WritePNG(&file, img)
		if err == nil {
			wanted, err = c.putNumber(number, file.Bytes())
		}
		return err
	}, func(err error) {
		switch {
		case err != nil:
			c.Messages.Fail(wording.Explain("copy the picture", err))
			fyne.LogError("copying a picture", err)
		case wanted:
			c.Messages.Note("Copied the picture")
		}
	})
}

// ask returns the number of a picture that is to be copied.
func (c *clipboard) ask() int {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.asked++
	return c.asked
}

// putNumber copies the picture with that number; false if a later one was asked for meanwhile.
func (c *clipboard) putNumber(number int, png []byte) (bool, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if number != c.asked {
		return false, nil
	}
	return true, c.put(png)
}
