package structure

import (
	"path/filepath"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/live"
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

	Grouping    func() analysis.Options   // that is asked for
	CopyPicture func(do func(*live.Copy)) // has the picture of now copied
	Put         func(setup.Setup)         // replaces the setup without a step of undo

	restores int // counts what was begun to be read so, and given up
}

// Set makes a picture the target; nil takes it away.
func (t *Targets) Set(target *setup.Target) {
	t.GiveUp()
	next := t.Steps.Now()
	next.Target = target
	t.Steps.Change(next, "")
}

// Take makes what is in the mirror the target.
func (t *Targets) Take() {
	t.CopyPicture(func(c *live.Copy) {
		grouping := t.Grouping()
		grouping.Mask = &c.Mask
		t.read("take the picture as the target", t.Set, func() (*setup.Target, error) {
			return targetOf(language.Say("as it was at %s", c.At.Format("15:04")), c.Pixels, grouping), nil
		})
	})
}

// Ask lets the painter choose the target's file.
func (t *Targets) Ask() {
	t.AskPictureFile("open the target", func(path string) { t.openFile(path, t.Set) })
}

// openFile reads a picture file and hands it to take as a target.
func (t *Targets) openFile(path string, take func(*setup.Target)) {
	grouping := t.Grouping()
	t.read(wording.On("read %s as the target", path), take, func() (*setup.Target, error) { return targetOfFile(path, grouping) })
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
			t.Messages.Fail(wording.Explain(deed, err))
			return
		}
		take(target)
	})
}

// GiveUp has a target that is being read so not be taken any more: another one is wanted, or none.
func (t *Targets) GiveUp() {
	t.restores++
	t.Restoring = false
}

// Restore reads the target of the last time, a file's or a still's, without a step of undo.
func (t *Targets) Restore(path, still string) {
	t.GiveUp()
	this := t.restores
	take := func(target *setup.Target) {
		if this != t.restores {
			return
		}
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
	p, err := pictures.ReadOpaque(path, analysis.White)
	if err != nil {
		return nil, err
	}
	target := targetOf(filepath.Base(path), p, grouping)
	target.Path = path
	return target, nil
}

// targetOfStill reads a still in the same way.
func targetOfStill(store *stills.Store, id string, grouping analysis.Options) (*setup.Target, error) {
	s, err := store.Open(id)
	if err != nil {
		return nil, err
	}
	s.Picture.LayOver(analysis.White) // it is ours alone
	grouping.Mask = s.Meta.LeftOut.Mask(s.Picture)
	target := targetOf(export.SheetTitle(s.Meta.Name, s.Meta.Time), s.Picture, grouping)
	target.Still = id
	return target, nil
}

// targetSide is the longer side of a target's small picture, in pixels: twice what is shown at one
// pixel a unit, so that it is sharp on a fine display too.
const targetSide = 172

// targetOf makes a picture the plan to paint toward.
func targetOf(name string, p analysis.Pixels, grouping analysis.Options) *setup.Target {
	w, h := stills.Fit(p.Width, p.Height, targetSide, targetSide)
	return &setup.Target{
		Name: name, Plan: analysis.NewTarget(analysis.Read(p, grouping)),
		Picture: stills.Paint(p, "grey", w, h, views.Look{}),
	}
}
