package structure

import (
	"path/filepath"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/pictures"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/export"
	"app.tonedesk/gui/wording"
)

// Targets owns the ways to a target: a picture file, a still, or what is in the mirror. The
// target itself is part of the setup, so that undo knows it. It is used on the Fyne goroutine
// only.
type Targets struct {
	*host.Host
	Restoring bool // the target of the last time is being read
	taking    bool // the next picture becomes the target

	Grouping func() analysis.Options // that is asked for
	Refresh  func()                  // has the last picture shown again
	Put      func(setup.Setup)       // replaces the setup without a step of undo
}

// Set makes a picture the target; nil takes it away.
func (t *Targets) Set(target *setup.Target) {
	next := t.Steps.Now()
	next.Target = target
	t.Steps.Change(next, "")
}

// Take makes what is in the mirror the target.
func (t *Targets) Take() {
	t.taking = true
	t.Refresh()
}

// Taken takes the reading of a picture that was read at a time as the target, if that was
// asked for.
func (t *Targets) Taken(r *analysis.Reading, at time.Time) {
	if !t.taking || r == nil {
		return
	}
	t.taking = false
	if r.Counted == 0 {
		t.Messages.Note("Nothing is counted in this picture, so it can't be a target.")
		return
	}
	t.Set(&setup.Target{Name: "The picture as it was at " + at.Format("15:04:05"), Plan: analysis.NewTarget(r)})
}

// Ask lets the painter choose the target's file.
func (t *Targets) Ask() {
	t.AskPictureFile("open the target", func(path string) { t.openFile(path, t.Set) })
}

// openFile reads a picture file and hands it to take as a target.
func (t *Targets) openFile(path string, take func(*setup.Target)) {
	grouping := t.Grouping()
	t.read(wording.On("read", path)+" as the target", take, func() (*setup.Target, error) { return targetOfFile(path, grouping) })
}

// OpenStill reads a still and hands it to take as a target.
func (t *Targets) OpenStill(id string, take func(*setup.Target)) {
	grouping := t.Grouping()
	t.read("read the still as the target", take, func() (*setup.Target, error) { return targetOfStill(t.Store, id, grouping) })
}

// read reads a target without holding up the window.
func (t *Targets) read(deed wording.Phrase, take func(*setup.Target), read func() (*setup.Target, error)) {
	var target *setup.Target
	t.Background(func() (err error) {
		target, err = read()
		return err
	}, func(err error) {
		t.Restoring = false
		if err == nil && len(target.Plan.Groups()) == 0 {
			err = pictures.ErrUncounted
		}
		if err != nil {
			t.Messages.Note(wording.Explain(deed, err))
			return
		}
		take(target)
	})
}

// Restore reads the target of the last time, a file's or a still's, without a step of undo.
func (t *Targets) Restore(path, still string) {
	take := func(target *setup.Target) {
		next := t.Steps.Now()
		next.Target = target
		t.Put(next)
	}
	switch {
	case still != "" && t.Store != nil:
		t.Restoring = true
		t.OpenStill(still, take)
	case path != "":
		t.Restoring = true
		t.openFile(path, take)
	}
}

// targetOfFile reads a picture file as a target.
func targetOfFile(path string, grouping analysis.Options) (*setup.Target, error) {
	plan, err := pictures.ReadTarget(path, grouping, analysis.White)
	return &setup.Target{Name: filepath.Base(path), Path: path, Plan: plan}, err
}

// targetOfStill reads a still in the same way.
func targetOfStill(store *stills.Store, id string, grouping analysis.Options) (*setup.Target, error) {
	s, err := store.Open(id)
	if err != nil {
		return nil, err
	}
	s.Picture.LayOver(analysis.White) // it is ours alone
	grouping.Mask = s.Meta.LeftOut.Mask(s.Picture)
	plan := analysis.NewTarget(analysis.Read(s.Picture, grouping))
	return &setup.Target{Name: export.SheetTitle(s.Meta.Name, s.Meta.Time), Still: id, Plan: plan}, nil
}
