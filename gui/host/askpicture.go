package host

import (
	"os"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"

	"app.tonedesk/gui/language"
	"app.tonedesk/gui/wording"
)

// AskPictureFile lets the painter choose a picture file, what for in words: "open the picture".
// Its path is handed to take.
func (h *Host) AskPictureFile(what wording.Phrase, take func(path string)) {
	h.askFile(what, pictureEndings, take)
}

// AskProfileFile lets the painter choose the file of a colour profile.
func (h *Host) AskProfileFile(take func(path string)) {
	h.askFile("choose the profile", []string{".icc", ".icm"}, take)
}

// askFile lets the painter choose a file whose name ends in one of some endings.
func (h *Host) askFile(what wording.Phrase, endings []string, take func(path string)) {
	open := dialog.NewFileOpen(func(file fyne.URIReadCloser, err error) {
		h.FocusMirror()
		if err != nil {
			h.Messages.Fail(wording.Explain(what, err))
			return
		}
		if file == nil {
			return
		}
		path := file.URI().Path()
		_ = file.Close() // it is opened again by its path, as all pictures are
		take(path)
	}, h.Window)
	open.SetFilter(pictureFilter{storage.NewExtensionFileFilter(endings)})
	h.ShowDialog(wording.Capitalised(string(what)), open)
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

// AskFolder lets the painter choose a folder, beginning in one, or where the last was chosen
// if there is none. Its path is handed to take; "" for none.
func (h *Host) AskFolder(from string, take func(path string)) {
	open := dialog.NewFolderOpen(func(folder fyne.ListableURI, err error) {
		h.FocusMirror()
		path := ""
		if err != nil {
			h.Messages.Fail(wording.Explain("open the folder", err))
		} else if folder != nil {
			path = folder.Path()
		}
		take(path)
	}, h.Window)
	if now, err := storage.ListerForURI(storage.NewFileURI(from)); err == nil && from != "" {
		open.SetLocation(now)
	}
	h.ShowDialog(language.Say("Choose a folder"), open)
}
