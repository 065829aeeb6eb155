package gui

import (
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
)

// targetPanel shows how the picture stands to its target.
type targetPanel struct {
	d      *Desk
	box    *fyne.Container
	words  *widget.Label
	remove *button
}

func newTargetPanel(d *Desk) *targetPanel {
	t := &targetPanel{d: d, words: smallLabel()}
	title := widget.NewLabel("Target")
	title.TextStyle.Bold = true
	open := newButton("Picture", d, d.AskTarget)
	open.explain(d.parts.tips, "Choose a picture file to paint toward (T)")
	this := newButton("This one", d, d.takeTarget)
	this.explain(d.parts.tips, "Take what is in the mirror now")
	t.remove = newButton("Remove", d, func() { d.setTarget(nil) })
	buttons := container.NewHBox(open, this, t.remove)
	t.box = container.NewVBox(onPanel(container.NewBorder(nil, nil, title, atRight(buttons)), t.words))
	return t
}

// show renews the words; r is nil before the first picture.
func (t *targetPanel) show(r *analysis.Reading) {
	now := t.d.setup.Target
	words := "A picture to paint toward: its spread is laid over this one's, with what differs."
	if now != nil {
		words = now.name + "."
		if r != nil {
			m := now.plan.Match(r)
			words = now.name + ". " + SayTargetDistance(m) + ". " + SayTarget(m) + "."
		}
	}
	resized := t.remove.Hidden != (now == nil)
	t.remove.Hidden = now == nil
	if say(t.words, words) || resized {
		t.box.Refresh()
		t.d.relayPage()
	}
}

// setTarget makes a picture the target; nil takes it away.
func (d *Desk) setTarget(t *target) {
	next := d.setup
	next.Target = t
	d.change(next, "")
}

// keepTarget keeps the target's file for the next start.
func (d *Desk) keepTarget() {
	if d.restoring {
		return // what was kept is being read
	}
	var now target
	if d.setup.Target != nil {
		now = *d.setup.Target
	}
	if d.settings.Target != now.path || d.settings.TargetStill != now.still {
		d.settings.Target, d.settings.TargetStill = now.path, now.still
		d.keep()
	}
}

// takeTarget makes what is in the mirror the target.
func (d *Desk) takeTarget() {
	d.taking = true
	d.renew()
}

// takenTarget takes the reading as the target, if that was asked for.
func (d *Desk) takenTarget(r *analysis.Reading) {
	if !d.taking || r == nil {
		return
	}
	d.taking = false
	if r.Counted == 0 {
		d.parts.strip.say(stripNote, "Nothing is counted in this picture, so it can't be a target.")
		return
	}
	d.setTarget(&target{name: "The picture as it was at " + d.at.Format("15:04:05"), plan: analysis.NewTarget(r)})
}

// AskTarget lets the painter choose the target's file.
func (d *Desk) AskTarget() {
	open := dialog.NewFileOpen(func(file fyne.URIReadCloser, err error) {
		d.focusMirror()
		if err != nil {
			d.parts.strip.say(stripNote, Explain("open the target", err))
			return
		}
		if file == nil {
			return
		}
		path := file.URI().Path()
		_ = file.Close() // it is read by its path, as all pictures are
		d.OpenTarget(path)
	}, d.window)
	open.SetFilter(storage.NewExtensionFileFilter(pictureEndings))
	open.Show()
}

// OpenTarget reads a picture file, without holding up the window, and makes it the target.
func (d *Desk) OpenTarget(path string) {
	d.openTargetFile(path, d.setTarget)
}

// openTargetFile reads a picture file and hands it to take as a target.
func (d *Desk) openTargetFile(path string, take func(*target)) {
	groups := d.settings.Groups
	d.readTarget(Quote(path), take, func() (*target, error) {
		plan, err := ReadTarget(path, groups, paper)
		return &target{name: filepath.Base(path), path: path, plan: plan}, err
	})
}

// targetStill makes the open still the target.
func (d *Desk) targetStill() {
	if d.still != nil {
		d.openTargetStill(d.still.ID, d.setTarget)
	}
}

// openTargetStill reads a still and hands it to take as a target.
func (d *Desk) openTargetStill(id string, take func(*target)) {
	groups := d.settings.Groups
	d.readTarget("the still", take, func() (*target, error) {
		s, err := d.options.Stills.Open(id)
		if err != nil {
			return nil, err
		}
		plan := analysis.NewTarget(analysis.Read(s.Picture, analysis.Options{Groups: groups, Out: s.Meta.LeftOut.Out()}))
		return &target{name: SheetTitle(s.Meta.Name, s.Meta.Time), still: id, plan: plan}, nil
	})
}

// readTarget reads a target without holding up the window.
func (d *Desk) readTarget(what string, take func(*target), read func() (*target, error)) {
	d.aside(func() {
		t, err := read()
		d.onWindow(func() {
			d.restoring = false
			if err == nil && len(t.plan.Groups()) == 0 {
				err = errUncounted
			}
			if err != nil {
				d.parts.strip.say(stripNote, Explain("read "+what+" as the target", err))
				return
			}
			take(t)
		})
	})
}

// restoreTarget reads the target of the last time, without a step of undo.
func (d *Desk) restoreTarget() {
	take := func(t *target) {
		next := d.setup
		next.Target = t
		d.apply(next)
	}
	switch {
	case d.settings.TargetStill != "" && d.options.Stills != nil:
		d.restoring = true
		d.openTargetStill(d.settings.TargetStill, take)
	case d.settings.Target != "":
		d.restoring = true
		d.openTargetFile(d.settings.Target, take)
	}
}
