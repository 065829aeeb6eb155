package gui

import (
	"os"
	"path/filepath"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/storage/repository"

	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// askFile lets the painter choose a file to write. what is the deed, "save the colours";
// write is called with the path that was chosen. The painter has then agreed to writing
// over a file that is there; nothing has been done to it yet.
func (d *Desk) askFile(what, name string, endings []string, write func(path string)) {
	waitForWriting()
	save := dialog.NewFileSave(func(file fyne.URIWriteCloser, err error) {
		d.focusMirror()
		if err != nil {
			d.parts.strip.Say(widgets.StripNote, wording.Explain(what, err))
			return
		}
		if file == nil {
			return
		}
		path := file.URI().Path()
		_ = file.Close() // it is written by its path, in one step
		if d.reads(path) {
			d.parts.strip.Say(widgets.StripNote, wording.Sentence("write "+wording.Quote(filepath.Base(path)), "it is the picture that is read", "choose another name"))
			return
		}
		write(path)
	}, d.window)
	save.SetFileName(name)
	save.SetFilter(storage.NewExtensionFileFilter(endings))
	save.Show()
}

// reads reports whether the file is one that the window reads: the picture, or the target.
func (d *Desk) reads(path string) bool {
	there, err := os.Stat(path)
	if err != nil {
		return false
	}
	read := []string{d.setup.Source.Path}
	if d.setup.Target != nil {
		read = append(read, d.setup.Target.Path)
	}
	return slices.ContainsFunc(read, func(path string) bool {
		info, err := os.Stat(path) // of no path: an error
		return err == nil && os.SameFile(there, info)
	})
}

// fileRepository is the toolkit's files.
type fileRepository interface {
	repository.AppendableRepository
	repository.CopyableRepository
	repository.DeleteAllRepository
	repository.HierarchicalRepository
	repository.ListableRepository
	repository.MovableRepository
}

// patientFiles are the toolkit's files, but for one thing: its dialog empties the file that
// was chosen, or makes it, before anybody knows whether it can be written. Here that waits
// for the first byte.
type patientFiles struct{ fileRepository }

// waitForWriting makes the toolkit's files patient.
func waitForWriting() {
	const scheme = "file"
	all, err := repository.ForScheme(scheme)
	if err != nil {
		return
	}
	if hasty, ok := all.(fileRepository); ok {
		if _, patient := all.(patientFiles); !patient {
			repository.Register(scheme, patientFiles{hasty})
		}
	}
}

// Writer returns what writes to u, and opens it with the first byte.
func (f patientFiles) Writer(u fyne.URI) (fyne.URIWriteCloser, error) {
	return &patientWriter{uri: u, open: f.fileRepository.Writer}, nil
}

type patientWriter struct {
	uri  fyne.URI
	open func(fyne.URI) (fyne.URIWriteCloser, error)
	to   fyne.URIWriteCloser // nil until something is written
}

func (w *patientWriter) URI() fyne.URI { return w.uri }

func (w *patientWriter) Write(b []byte) (int, error) {
	if w.to == nil {
		to, err := w.open(w.uri)
		if err != nil {
			return 0, err
		}
		w.to = to
	}
	return w.to.Write(b)
}

func (w *patientWriter) Close() error {
	if w.to == nil {
		return nil
	}
	return w.to.Close()
}
