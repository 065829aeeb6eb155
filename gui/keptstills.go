package gui

import (
	"errors"
	"image"
	"net/url"
	"path/filepath"
	"sync"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/capture"
	"app.tonedesk/capture/picturefile"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/wording"
)

// keptStills keeps pictures as stills, opens what was kept, goes back to what was watched
// before, renames, deletes and brings back.
type keptStills struct {
	*host.Host
	keptAsks
	settings *settings.Settings            // read only
	takeBack func(id string) *stills.Still // one that was closed while not all of it was saved, or nil
	flush    func()                        // waits until all is saved, or was tried

	exporter *exporter

	asked   host.Writing // stills that wait for a copy of the picture, which the window hands over
	opening sync.Mutex   // held while a still is being opened, one at a time
	last    keptStill
	before  setup.Setup // from before stills
	deleted []string    // IDs, deleted last last
	offered string      // what was said last of a still, with what takes it back
}

// keptAsks is what the kept stills ask of the desk, about what is watched.
type keptAsks struct {
	now    func() setup.Setup
	seen   func() (image.Rectangle, time.Time) // bounds of the last picture, and when it was read
	copy   func(func(*live.Copy))              // hands a copy of the picture
	watch  func(setup.Source)
	goTo   func(setup.Setup)     // as a step of undo
	forget func(id string)       // no step of undo leads to this still any more
	opened func(*stills.Still)   // a still was opened; it may not be wanted any more
	judged func() []setup.Judged // what was said of local colours
	reopen func(id string)       // opens a still anew that could only be shown, if it is watched
}

// errNoStills says that there is no folder for stills.
var errNoStills = errors.New("no folder for stills")

// asSource is a still as what is watched.
func asSource(id string) setup.Source { return setup.Source{Kind: setup.SourceStill, Path: id} }

// stream opens a still for the watcher, on its goroutine, and tells the window of it.
func (k *keptStills) stream(id string) (capture.Stream, error) {
	if k.Store == nil {
		return nil, errNoStills
	}
	k.opening.Lock() // what the window does not want any more is let go of before the next
	defer k.opening.Unlock()
	s := k.takeBack(id)
	if s == nil {
		var err error
		if s, err = k.Store.Mark(id); err != nil {
			return nil, err
		}
	}
	k.OnWindow(func() { k.opened(s) })
	p := s.Picture
	return (&picturefile.Picture{Pix: p.Pix, Stride: p.Stride, Size: image.Pt(p.Width, p.Height), Space: p.Space}).Stream(), nil
}

// open shows a still that was kept. One that could only be shown is opened anew: it may have
// been let go of.
func (k *keptStills) open(id string) {
	k.reopen(id)
	k.watch(asSource(id))
}

// sourceLeft is for the moment when another source is watched: was is the setup until now.
func (k *keptStills) sourceLeft(was setup.Setup) {
	if was.Source.Kind != setup.SourceStill {
		k.before = was
	}
}

// back goes back to what was watched before stills, spots and all, or to the demo painting.
func (k *keptStills) back() {
	next := k.now()
	if next.Source.Kind != setup.SourceStill {
		return
	}
	from := k.before
	next.Source, next.Places, next.Out, next.Borders, next.Families, next.Focus, next.Judged = from.Source, from.Places, from.Out, from.Borders, from.Families, from.Focus, from.Judged
	k.goTo(next)
}

// openFailed goes back to what was watched before, since the still can't be opened.
func (k *keptStills) openFailed(err error) {
	id := k.now().Source.Path
	k.back()
	k.forget(id)
	k.Messages.Fail(wording.Explain("open the still", err))
	k.Notify(host.StillsChanged)
}

// rename gives a still that is open another name.
func (k *keptStills) rename(s *stills.Still, name string) {
	if s.Meta.Name == name {
		return
	}
	s.Meta.Name = name
	id := s.ID
	k.Try("rename the still", func() error { return k.Store.Rename(id, name) }, func() { k.Notify(host.StillsChanged) })
}

// judge keeps in a still that is open what is said of its local colours.
func (k *keptStills) judge(s *stills.Still, judged []setup.Judged) {
	list := stills.LocalColoursOf(judged, image.Point{})
	s.Meta.LocalColours = list
	if id := s.ID; s.Barred == nil {
		k.Try("keep the local colours of the still", func() error { return k.Store.Judge(id, list) }, func() {})
	}
}

// focus keeps in a still that is open where the eye should go.
func (k *keptStills) focus(s *stills.Still, places []setup.Place) {
	list := stills.FocusOf(places, image.Point{})
	s.Meta.Focus = list
	if id := s.ID; s.Barred == nil {
		k.Try("keep the focus of the still", func() error { return k.Store.Focus(id, list) }, func() {})
	}
}

// showFolder shows a still's folder in the desktop's file window.
func (k *keptStills) showFolder(id string) { k.openFolder(k.Store.Folder(id)) }

// openFolder shows a folder there.
func (k *keptStills) openFolder(folder string) {
	if err := k.App.OpenURL(&url.URL{Scheme: "file", Path: filepath.ToSlash(folder)}); err != nil {
		fyne.LogError("opening the folder of stills", err)
	}
	k.Messages.Note(language.Say("It lies in %s", wording.Quote(folder)))
}

// export asks how to export the still that is watched, or the one that was kept last.
func (k *keptStills) export() {
	id := k.last.id
	if from := k.now().Source; from.Kind == setup.SourceStill {
		id = from.Path
	}
	if id == "" {
		k.Messages.Note(language.Say("Keep a still to export it, Ctrl+S"))
		return
	}
	k.exporter.ask(id)
}
