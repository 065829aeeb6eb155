package host

import (
	"os"

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
	open.SetFilter(pictureFilter{storage.NewExtensionFileFilter(pictureEndings)})
	open.Show()
}

// pictureFilter shows what may be a picture. A pipe would hang the dialog, which opens what
// is chosen.
type pictureFilter struct{ storage.FileFilter }

// Matches implements storage.FileFilter.
func (f pictureFilter) Matches(uri fyne.URI) bool {
	if !f.FileFilter.Matches(uri) {
		return false
	}
	info, err := os.Stat(uri.Path())
	return err == nil && info.Mode().IsRegular()
}

// pictureEndings are the endings of the files that can be opened.
var pictureEndings = []string{".png", ".jpg", ".jpeg", ".gif", ".bmp", ".tif", ".tiff", ".webp", ".ora"}
