package gui

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// saveForm asks for the name and the folder of a file to write. The toolkit's own dialog
// empties the file that is chosen before anybody knows whether it can be written.
type saveForm struct {
	widget.Entry // the name
	d            *Desk
	dialog       *dialog.ConfirmDialog
	folder       *widget.Label
	endings      []string
	write        func(path string)
}

// askFile lets the painter choose a file to write. what is the deed, "save the colours"; a
// name with none of the endings gets the first. write is called with the path that was
// chosen. The painter has then agreed to writing over a file that is there; nothing has been
// done to it yet.
func (d *Desk) askFile(what, name string, endings []string, write func(path string)) {
	f := &saveForm{d: d, folder: widgets.SmallLabel(), endings: endings, write: write}
	f.ExtendBaseWidget(f)
	f.Text = name
	f.OnSubmitted = func(string) { f.dialog.Confirm() }
	if d.folder == "" {
		d.folder, _ = os.UserHomeDir() // without one: where the program was started
	}
	ending := widgets.SmallLabel()
	ending.SetText("Ending: " + strings.Join(endings, ", "))
	where := container.NewBorder(nil, nil, nil, container.NewCenter(widget.NewButton("Folder…", f.askFolder)), f.folder)
	f.dialog = dialog.NewCustomConfirm(wording.Capitalised(what), "Save", "Cancel", container.NewVBox(f, ending, where), f.answered, d.window)
	f.show()
	f.TypedShortcut(&fyne.ShortcutSelectAll{})
}

// show shows the form, or shows it again, with its folder.
func (f *saveForm) show() {
	f.folder.SetText(f.d.folder)
	f.dialog.Resize(fyne.NewSize(45*widgets.Step, 0)) // where the window has the room
	f.dialog.Show()
	f.d.window.Canvas().Focus(f)
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
	open := dialog.NewFolderOpen(func(folder fyne.ListableURI, err error) {
		if err != nil {
			f.d.parts.strip.Say(widgets.MessageNote, wording.Explain("open the folder", err))
		} else if folder != nil {
			f.d.folder = folder.Path()
		}
		f.show()
	}, f.d.window)
	if now, err := storage.ListerForURI(storage.NewFileURI(f.d.folder)); err == nil {
		open.SetLocation(now)
	}
	open.Show()
}

// answered takes the painter's answer to the form.
func (f *saveForm) answered(save bool) {
	f.d.focusMirror()
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
	path := filepath.Join(f.d.folder, name)
	there, err := os.Stat(path)
	switch {
	case err != nil: // there is none, or writing says why not
		f.write(path)
	case there.IsDir():
		f.d.parts.strip.Say(widgets.MessageNote, wording.ExplainWriting("write "+wording.Quote(name), syscall.EISDIR))
	case f.d.reads(there):
		f.d.parts.strip.Say(widgets.MessageNote, wording.Sentence("write "+wording.Quote(name), "it is the picture that is read", "choose another name"))
	default:
		f.askOver(path)
	}
}

// askOver asks before a file is written over.
func (f *saveForm) askOver(path string) {
	over := dialog.NewConfirm("Write over it?", wording.Quote(filepath.Base(path))+" is there already.", func(yes bool) {
		if !yes {
			f.show()
			return
		}
		f.d.focusMirror()
		f.write(path)
	}, f.d.window)
	over.SetConfirmText("Write over")
	over.SetDismissText("Back")
	over.SetConfirmImportance(widget.MediumImportance) // what can't be undone isn't urged
	over.Show()
}

// reads reports whether the file is one that the window reads: the picture, or the target.
func (d *Desk) reads(there os.FileInfo) bool {
	read := []string{d.setup.Source.Path}
	if d.setup.Target != nil {
		read = append(read, d.setup.Target.Path)
	}
	return slices.ContainsFunc(read, func(path string) bool {
		info, err := os.Stat(path) // of no path: an error
		return err == nil && os.SameFile(there, info)
	})
}
