package host

import (
	"bytes"
	"image"
	"sync"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/wording"
)

// Clipboard puts pictures on the clipboard, and says so. Of pictures asked for at
// the same time, the one asked for last stays there, whichever is ready first.
type Clipboard struct {
	*Host
	Put func(png []byte) error // native.CopyPicture, but in tests

	mu    sync.Mutex
	asked int // pictures so far
}

// CopyImage copies a picture, without holding up the window. The picture must not change
// meanwhile.
func (c *Clipboard) CopyImage(img image.Image) {
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
			c.Messages.Note(language.Say("Copied the picture"))
		}
	})
}

// ask returns the number of a picture that is to be copied.
func (c *Clipboard) ask() int {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.asked++
	return c.asked
}

// putNumber copies the picture with that number; false if a later one was asked for meanwhile.
func (c *Clipboard) putNumber(number int, png []byte) (bool, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if number != c.asked {
		return false, nil
	}
	return true, c.Put(png)
}
