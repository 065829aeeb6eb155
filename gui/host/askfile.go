package host

import (
	"cmp"
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"

	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// AskPictureFile lets the painter choose a picture file, what for in words: "open the picture".
// Its path is handed to take.
func (h *Host) AskPictureFile(what wording.Phrase, take func(path string)) {
	h.askFile(wording.Capitalised(what.String()), pictureEndings, take)
}

// AskProfileFile lets the painter choose the file of a colour profile.
func (h *Host) AskProfileFile(take func(path string)) {
	h.askFile(language.Say("Choose the profile"), []string{".icc", ".icm"}, take)
}

// pictureEndings are the endings of the files that can be opened.
var pictureEndings = []string{".png", ".jpg", ".jpeg", ".gif", ".bmp", ".tif", ".tiff", ".webp", ".ora"}

// AskFolder lets the painter choose a folder, beginning in one, or where the last was chosen
// if there is none. Its path is handed to take; "" for none.
func (h *Host) AskFolder(from string, take func(path string)) {
	f := h.newFileForm(language.Say("Choose a folder"), nil, take)
	f.open(from)
}

func (h *Host) askFile(title string, endings []string, take func(path string)) {
	f := h.newFileForm(title, endings, func(path string) {
		if path != "" {
			take(path)
		}
	})
	f.open("")
}

// fileForm asks for a file or a folder. The toolkit's own dialog keeps Esc from the window while one
// of its lists or buttons has the focus, and breaks down where text grows under it.
type fileForm struct {
	h       *Host
	endings []string // of the files; nil where a folder is asked for
	folder  string   // that is listed
	chosen  string   // "" for nothing yet
	rows    []entry
	says    string // in place of rows
	way     *fyne.Container
	list    *fyne.Container
	up      *widgets.Button
	dialog  *dialog.CustomDialog
}

// newFileForm builds the form and shows it. take gets what was chosen, "" for nothing, once it is gone.
func (h *Host) newFileForm(title string, endings []string, take func(path string)) *fileForm {
	f := &fileForm{h: h, endings: endings, way: container.NewStack(), list: container.NewStack()}
	f.up = widgets.NewButton(language.Say("Up"), h.Keys, func() { f.open(filepath.Dir(f.folder)) })
	answers := []fyne.CanvasObject{widgets.NewButton(language.Say("Cancel"), h.Keys, h.CloseDialog)}
	if endings == nil {
		answers = append(answers, widgets.NewButton(language.Say("Take this folder"), h.Keys, func() { f.take(f.folder) }))
	}
	head, foot := container.NewBorder(nil, nil, nil, f.up, f.way), container.NewGridWithColumns(f.columns(answers), answers...)
	inside := container.New(layout.NewBorderLayout(head, foot, nil, nil), head, f.list, foot) // Tab goes from top to bottom
	f.dialog = dialog.NewCustomWithoutButtons(title, inside, h.Window)
	f.dialog.SetOnClosed(func() {
		h.FocusMirror()
		take(f.chosen)
	})
	f.dialog.Resize(h.Window.Canvas().Size().SubtractWidthHeight(4*widgets.Step, 4*widgets.Step))
	h.ShowDialog(title, f.dialog)
	return f
}

// columns are as many as there are answers where their words find room beside each other, else one.
func (f *fileForm) columns(answers []fyne.CanvasObject) int {
	wide := float32(0)
	for _, a := range answers {
		wide = max(wide, a.MinSize().Width+widgets.Step)
	}
	if float32(len(answers))*wide > f.h.Window.Canvas().Size().Width-8*widgets.Step {
		return 1
	}
	return len(answers)
}

// take closes the form with an answer.
func (f *fileForm) take(path string) {
	f.chosen = path
	f.dialog.Hide()
}

// open lists a folder, "" the one that was listed last, without holding up the window: it may lie far
// away. One that can't be listed is said to be so, and can be left again.
func (f *fileForm) open(folder string) {
	home, _ := os.UserHomeDir() // without one: where the program was started
	folder = cmp.Or(folder, f.h.folder, home)
	if whole, err := filepath.Abs(folder); err == nil {
		folder = whole
	}
	f.folder, f.h.folder, f.rows, f.says = folder, folder, nil, ""
	list := f.show(waysFrom(folder, home))
	var rows []entry
	f.h.Background(func() (err error) {
		rows, err = listed(folder, f.endings)
		return err
	}, func(err error) {
		if f.folder != folder { // another was asked for meanwhile
			return
		}
		f.rows = rows
		switch {
		case err != nil:
			f.says = language.Say("This folder can't be listed.")
		case len(rows) == 0:
			f.says = language.Say("Nothing here.")
		}
		list.Refresh()
	})
}

// show shows a new list, which has the keyboard, and the ways from its folder.
func (f *fileForm) show(ways []string) *widgets.NoteList {
	names := make([]string, len(ways))
	for i, way := range ways {
		names[i] = widgets.Shortened(folderName(way), 24)
	}
	f.up.SetOff(filepath.Dir(f.folder) == f.folder)
	f.way.Objects = []fyne.CanvasObject{widgets.NewPicklist(names, 0, f.h.Keys, f.h.OpenList, func(i int) { f.open(ways[i]) })}
	f.way.Refresh()
	list, rows := widgets.NewNoteList(f.h.Keys, func() int { return max(len(f.rows), 1) }, f.row, f.tap)
	f.list.Objects = []fyne.CanvasObject{rows}
	f.list.Refresh()
	f.h.Window.Canvas().Focus(list)
	return list
}

// row is what is shown of an entry.
func (f *fileForm) row(i int) widgets.NoteText {
	if i >= len(f.rows) {
		return widgets.NoteText{Words: f.says, Quiet: true}
	}
	icon := icons.File
	if f.rows[i].folder {
		icon = icons.Folder
	}
	return widgets.NoteText{Icon: icon, Words: f.rows[i].name}
}

// tap opens a folder, or takes a file.
func (f *fileForm) tap(i int) {
	if i >= len(f.rows) {
		return
	}
	path := filepath.Join(f.folder, f.rows[i].name)
	if f.rows[i].folder {
		f.open(path)
	} else {
		f.take(path)
	}
}
