package gui

import (
	"path/filepath"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/pictures"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/export"
	"app.tonedesk/gui/wording"
)

// targets owns the ways to a target: a picture file, a still, or what is in the mirror. The
// target itself is part of the setup, so that undo knows it. It is used on the Fyne goroutine
// only.
type targets struct {
	*host
	restoring bool // the target of the last time is being read
	taking    bool // the next picture becomes the target

	groups func() int        // that are asked for
	renew  func()            // has the last picture shown again
	put    func(setup.Setup) // replaces the setup without a step of undo
}

// set makes a picture the target; nil takes it away.
func (t *targets) set(target *setup.Target) {
	next := t.steps.now()
	next.Target = target
	t.steps.change(next, "")
}

// take makes what is in the mirror the target.
func (t *targets) take() {
	t.taking = true
	t.renew()
}

// taken takes the reading of a picture that was read at a time as the target, if that was
// asked for.
func (t *targets) taken(r *analysis.Reading, at time.Time) {
	if !t.taking || r == nil {
		return
	}
	t.taking = false
	if r.Counted == 0 {
		t.messages.note("Nothing is counted in this picture, so it can't be a target.")
		return
	}
	t.set(&setup.Target{Name: "The picture as it was at " + at.Format("15:04:05"), Plan: analysis.NewTarget(r)})
}

// ask lets the painter choose the target's file.
func (t *targets) ask() {
	t.askPicture("open the target", func(path string) { t.openFile(path, t.set) })
}

// openFile reads a picture file and hands it to take as a target.
func (t *targets) openFile(path string, take func(*setup.Target)) {
	groups := t.groups()
	t.read(wording.Quote(path), take, func() (*setup.Target, error) { return targetOfFile(path, groups) })
}

// openStill reads a still and hands it to take as a target.
func (t *targets) openStill(id string, take func(*setup.Target)) {
	groups := t.groups()
	t.read("the still", take, func() (*setup.Target, error) { return targetOfStill(t.store, id, groups) })
}

// read reads a target without holding up the window.
func (t *targets) read(what string, take func(*setup.Target), read func() (*setup.Target, error)) {
	t.background(func() {
		target, err := read()
		t.onWindow(func() {
			t.restoring = false
			if err == nil && len(target.Plan.Groups()) == 0 {
				err = pictures.ErrUncounted
			}
			if err != nil {
				t.messages.note(wording.Explain("read "+what+" as the target", err))
				return
			}
			take(target)
		})
	})
}

// restore reads the target of the last time, a file's or a still's, without a step of undo.
func (t *targets) restore(path, still string) {
	take := func(target *setup.Target) {
		next := t.steps.now()
		next.Target = target
		t.put(next)
	}
	switch {
	case still != "" && t.store != nil:
		t.restoring = true
		t.openStill(still, take)
	case path != "":
		t.restoring = true
		t.openFile(path, take)
	}
}

// targetOfFile reads a picture file as a target of a number of groups, 0 for as many as it
// needs.
func targetOfFile(path string, groups int) (*setup.Target, error) {
	plan, err := pictures.ReadTarget(path, groups, analysis.White)
	return &setup.Target{Name: filepath.Base(path), Path: path, Plan: plan}, err
}

// targetOfStill reads a still in the same way.
func targetOfStill(store *stills.Store, id string, groups int) (*setup.Target, error) {
	s, err := store.Open(id)
	if err != nil {
		return nil, err
	}
	plan := analysis.NewTarget(analysis.Read(analysis.Opaque(s.Picture), analysis.Options{Groups: groups, Out: s.Meta.LeftOut.Out()}))
	return &setup.Target{Name: export.SheetTitle(s.Meta.Name, s.Meta.Time), Still: id, Plan: plan}, nil
}
