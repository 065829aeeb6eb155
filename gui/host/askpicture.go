package host

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"

	"app.tonedesk/gui/wording"
)

// AskPictureFile lets the painter choose a picture file, what for in words: "open the picture".
// Its path is handed to take.
func (h *Host) AskPictureFile(what wording.Phrase, take func(path string)) {
	open := dialog.NewFileOpen(func(file fyne.URIReadCloser, err error) {
		h.FocusMirror()
		if err != nil {
			h.Messages.Note(wording.Explain(what, err))
			return
		}
		if file == nil {
			return
		}
		path := file.URI().Path()
		_ = file.Close() // it is opened again by its path, as all pictures are
		take(path)
	}, h.Window)
	open.SetFilter(storage.NewExtensionFileFilter(pictureEndings))
	open.Show()
}

// pictureEndings are the endings of the files that can be opened.
var pictureEndings = []string{".png", ".jpg", ".jpeg", ".gif", ".bmp", ".tif", ".tiff", ".webp", ".ora"}
