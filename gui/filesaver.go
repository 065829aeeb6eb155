package gui

import (
	"cmp"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/swatches"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// fileSaver lets the painter choose files to write.
type fileSaver struct {
	*host.Host
	reads  func() []string // paths of the files that the window reads
	folder string          // that was chosen last; "" before any was
}

// fileFormat is a way to write a file: its name in the list, the ending that it sets by itself, what
// follows the name that is offered, and how it is written.
type fileFormat struct {
	name, ending, suffix string
	write                func(path string)
}

// saveForm asks for the name, the format and the folder of a file to write. The toolkit's own dialog
// empties the file that is chosen before anybody knows whether it can be written.
type saveForm struct {
	*widgets.Entry // the name
	s              *fileSaver
	what           string // its title
	base           string // of the name that is offered
	dialog         *dialog.CustomDialog
	folder         *widget.Label
	format         *widgets.Picklist
	formats        []fileFormat
}

// ask lets the painter choose a file to write. what is the deed, "save the colours"; base is the name
// that is offered, without an ending. The format's write is called with the path that was chosen. The
// painter has then agreed to writing over a file that is there; nothing has been done to it yet. What
// can be done instead are buttons. It returns the form that is shown.
func (s *fileSaver) ask(what, base string, formats []fileFormat, instead ...host.Choice) *saveForm {
	f := &saveForm{Entry: widgets.NewEntry(s.Keys, ""), s: s, what: wording.Capitalised(what), base: base, folder: widgets.SmallLabel(), formats: formats}
	f.Text = base + formats[0].suffix
	f.OnSubmitted, f.OnEscape = func(string) { f.submit() }, s.CloseDialog
	if s.folder == "" {
		s.folder, _ = os.UserHomeDir() // without one: where the program was started
	}
	names := make([]string, len(formats))
	for i, format := range formats {
		names[i] = format.name
	}
	offered := formats[0].suffix
	f.format = widgets.NewPicklist(names, 0, s.Keys, s.OpenList, func(i int) {
		if f.Text == base+offered { // the painter named it otherwise: then it stays
			f.SetText(base + formats[i].suffix)
			f.TypedShortcut(&fyne.ShortcutSelectAll{}) // typing goes on from it
		}
		offered = formats[i].suffix
	})
	where := container.NewBorder(nil, nil, nil, container.NewCenter(widgets.NewButton(language.Say("Folder…"), s.Keys, f.askFolder)), f.folder)
	box := container.NewVBox(f.Entry, f.format, where)
	for _, c := range instead {
		box.Add(widgets.NewButton(c.Name, s.Keys, func() {
			s.CloseDialog()
			c.Do()
		}))
	}
	// buttons of our own: the toolkit's keep Esc for themselves
	box.Add(container.NewGridWithColumns(2, widgets.NewButton(language.Say("Cancel"), s.Keys, s.CloseDialog), widgets.NewButton(language.Say("Save"), s.Keys, f.submit)))
	f.dialog = dialog.NewCustomWithoutButtons(f.what, box, s.Window)
	f.show()
	f.TypedShortcut(&fyne.ShortcutSelectAll{})
	return f
}

// show shows the form, or shows it again, with its folder.
func (f *saveForm) show() {
	f.folder.SetText(widgets.Shortened(f.s.folder, 250))
	f.dialog.Resize(fyne.NewSize(45*widgets.Step, 0)) // where the window has the room
	f.s.ShowDialog(f.what, f.dialog)
	f.s.Window.Canvas().Focus(f.Entry)
}

// askFolder lets the painter choose another folder.
func (f *saveForm) askFolder() {
	f.s.AskFolder(f.s.folder, func(folder string) {
		f.s.folder = cmp.Or(folder, f.s.folder)
		f.show()
	})
}

// submit closes the form, and writes or asks further.
func (f *saveForm) submit() {
	f.s.CloseDialog()
	name := strings.TrimSpace(f.Text)
	if name == "" {
		f.show()
		return
	}
	format := f.formats[f.format.Chosen()]
	if !strings.EqualFold(filepath.Ext(name), format.ending) {
		name += format.ending
	}
	path := filepath.Join(f.s.folder, name)
	switch err := f.s.over(path).Check(); {
	case err != nil:
		f.s.Messages.Fail(wording.ExplainWriting(wording.On("write %s", name), err))
	case isThere(path):
		f.askOver(path, format)
	default:
		format.write(path)
	}
}

// askOver asks before a file is written over.
func (f *saveForm) askOver(path string, format fileFormat) {
	words := widget.NewLabel(language.Say("%s is there already.", wording.Quote(filepath.Base(path))))
	words.Wrapping = fyne.TextWrapWord
	f.s.Question(language.Say("Write over it?"), words, f.show,
		host.Choice{Name: language.Say("Back"), Do: f.show},
		host.Choice{Name: language.Say("Write over"), Do: func() { format.write(path) }})
}

// over is a file that the painter agreed to write over. None that the window reads is.
func (s *fileSaver) over(path string) files.To {
	return files.To{Path: path, Over: true, Not: s.reads()}
}

func isThere(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}

// swatchFormats are the ways to write colours down; all is what JSON holds.
var swatchFormats = []struct {
	name           language.Words
	ending, suffix string
	write          func(w io.Writer, rows []swatches.Row, all any) error
}{
	{"Swatches as a picture (PNG)", ".png", "", func(w io.Writer, rows []swatches.Row, _ any) error { return swatches.WritePNG(w, rows) }},
	{"Style sheet (CSS)", ".css", "", func(w io.Writer, rows []swatches.Row, _ any) error { return swatches.WriteCSS(w, rows) }},
	{"Figures (JSON)", ".json", "", func(w io.Writer, _ []swatches.Row, all any) error { return json.NewEncoder(w).Encode(all) }},
	{"Words (text)", ".txt", "", func(w io.Writer, rows []swatches.Row, _ any) error { return swatches.WriteText(w, rows) }},
	{"Codes alone (text)", ".txt", "-codes", func(w io.Writer, rows []swatches.Row, _ any) error { return swatches.WriteCodes(w, rows) }},
}

// askSwatches lets the painter choose a file for colours.
func (s *fileSaver) askSwatches(rows []swatches.Row, all any, name string) {
	formats := make([]fileFormat, len(swatchFormats))
	for i, f := range swatchFormats {
		formats[i] = fileFormat{f.name.String(), f.ending, f.suffix, func(path string) {
			s.save(path, func(w io.Writer) error { return f.write(w, rows, all) })
		}}
	}
	s.ask(language.Say("save the colours"), name, formats)
}

// save writes a file. The painter has agreed to writing over one that is there.
func (s *fileSaver) save(path string, write func(io.Writer) error) {
	if err := s.over(path).Write(write); err != nil {
		s.Messages.Fail(wording.ExplainWriting(wording.On("save %s", path), err))
		return
	}
	s.Messages.Note(language.Say("Saved as %s", wording.Quote(filepath.Base(path))))
}
