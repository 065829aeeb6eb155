package gui

import (
	"cmp"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/swatches"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// fileSaver lets the painter choose files to write.
type fileSaver struct {
	*host.Host
	reads  func() []string // paths of the files that the window reads
	folder string          // that was chosen last; "" before any was
}

// saveForm asks for the name and the folder of a file to write. The toolkit's own dialog
// empties the file that is chosen before anybody knows whether it can be written.
type saveForm struct {
	widget.Entry // the name
	s            *fileSaver
	what         string // its title
	dialog       *dialog.ConfirmDialog
	folder       *widget.Label
	endings      []string
	write        func(path string)
}

// ask lets the painter choose a file to write. what is the deed, "save the colours"; a
// name with none of the endings gets the first. write is called with the path that was
// chosen. The painter has then agreed to writing over a file that is there; nothing has been
// done to it yet.
func (s *fileSaver) ask(what, name string, endings []string, write func(path string)) {
	f := &saveForm{s: s, what: wording.Capitalised(what), folder: widgets.SmallLabel(), endings: endings, write: write}
	f.ExtendBaseWidget(f)
	f.Text = name
	f.OnSubmitted = func(string) { f.dialog.Confirm() }
	if s.folder == "" {
		s.folder, _ = os.UserHomeDir() // without one: where the program was started
	}
	ending := widgets.SmallLabel()
	ending.SetText("Ending: " + strings.Join(endings, ", "))
	where := container.NewBorder(nil, nil, nil, container.NewCenter(widget.NewButton("Folder…", f.askFolder)), f.folder)
	f.dialog = dialog.NewCustomConfirm(f.what, "Save", "Cancel", container.NewVBox(f, ending, where), f.answered, s.Window)
	f.show()
	f.TypedShortcut(&fyne.ShortcutSelectAll{})
}

// show shows the form, or shows it again, with its folder.
func (f *saveForm) show() {
	f.folder.SetText(widgets.Shortened(f.s.folder, 250))
	f.dialog.Resize(fyne.NewSize(45*widgets.Step, 0)) // where the window has the room
	f.s.ShowDialog(f.what, f.dialog)
	f.s.Window.Canvas().Focus(f)
}

// TypedKey closes the form with Esc.
func (f *saveForm) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		f.dialog.Dismiss()
		return
	}
	f.Entry.TypedKey(k)
}

// askFolder lets the painter choose another folder.
func (f *saveForm) askFolder() {
	f.s.AskFolder(f.s.folder, func(folder string) {
		f.s.folder = cmp.Or(folder, f.s.folder)
		f.show()
	})
}

// answered takes the painter's answer to the form.
func (f *saveForm) answered(save bool) {
	f.s.FocusMirror()
	if !save {
		return
	}
	name := strings.TrimSpace(f.Text)
	if name == "" {
		f.show()
		return
	}
	if !slices.Contains(f.endings, strings.ToLower(filepath.Ext(name))) {
		name += f.endings[0]
	}
	path := filepath.Join(f.s.folder, name)
	switch err := f.s.over(path).Check(); {
	case err != nil:
		f.s.Messages.Note(wording.ExplainWriting(wording.On("write", name), err))
	case isThere(path):
		f.askOver(path)
	default:
		f.write(path)
	}
}

// askOver asks before a file is written over.
func (f *saveForm) askOver(path string) {
	words := widget.NewLabel(wording.Quote(filepath.Base(path)) + " is there already.")
	words.Wrapping = fyne.TextWrapWord
	f.s.Question("Write over it?", words, f.show,
		host.Choice{Name: "Back", Do: f.show},
		host.Choice{Name: "Write over", Do: func() { f.write(path) }})
}

// over is a file that the painter agreed to write over. None that the window reads is.
func (s *fileSaver) over(path string) files.To {
	return files.To{Path: path, Over: true, Not: s.reads()}
}

func isThere(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}

// swatchFormats are the ways to write colours down, by the ending of the file.
var swatchFormats = map[string]func(io.Writer, []swatches.Row, any) error{
	".png":  func(w io.Writer, rows []swatches.Row, _ any) error { return swatches.WritePNG(w, rows) },
	".css":  func(w io.Writer, rows []swatches.Row, _ any) error { return swatches.WriteCSS(w, rows) },
	".txt":  func(w io.Writer, rows []swatches.Row, _ any) error { return swatches.WriteText(w, rows) },
	".hex":  func(w io.Writer, rows []swatches.Row, _ any) error { return swatches.WriteHex(w, rows) },
	".json": func(w io.Writer, _ []swatches.Row, all any) error { return json.NewEncoder(w).Encode(all) },
}

// askSwatches lets the painter choose a file for colours; its ending says how they are
// written. all is what JSON holds.
func (s *fileSaver) askSwatches(rows []swatches.Row, all any, name string) {
	s.ask("save the colours", name+".png", []string{".png", ".css", ".json", ".txt", ".hex"}, func(path string) {
		s.saveSwatches(path, rows, all)
	})
}

// saveSwatches writes colours to a file with one of the endings. The painter has agreed to
// writing over one that is there.
func (s *fileSaver) saveSwatches(path string, rows []swatches.Row, all any) {
	write := swatchFormats[strings.ToLower(filepath.Ext(path))]
	err := s.over(path).Write(func(w io.Writer) error { return write(w, rows, all) })
	if err != nil {
		s.Messages.Note(wording.ExplainWriting(wording.On("save", path), err))
		return
	}
	s.Messages.Note("Saved as " + wording.Quote(filepath.Base(path)) + ".")
}
