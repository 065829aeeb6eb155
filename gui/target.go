package gui

import (
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/pictures"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills/export"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// targetPanel shows how the picture stands to its target.
type targetPanel struct {
	d      *Desk
	box    *fyne.Container
	words  *widget.Label
	remove *widgets.Button
}

func newTargetPanel(d *Desk) *targetPanel {
	t := &targetPanel{d: d, words: widgets.SmallLabel()}
	title := widget.NewLabel("Target")
	title.TextStyle.Bold = true
	open := widgets.NewButton("Picture", d, d.AskTarget)
	open.Explain(d.parts.tips, "Choose a picture file to paint toward (T)")
	this := widgets.NewButton("This one", d, d.takeTarget)
	this.Explain(d.parts.tips, "Take what is in the mirror now")
	t.remove = widgets.NewButton("Remove", d, func() { d.setTarget(nil) })
	buttons := container.NewHBox(open, this, t.remove)
	t.box = container.NewVBox(widgets.OnPanel(container.NewBorder(nil, nil, title, widgets.AtRight(buttons)), t.words))
	return t
}

// show renews the words; r is nil before the first picture.
func (t *targetPanel) show(r *analysis.Reading) {
	now := t.d.setup.Target
	words := "A picture to paint toward: its spread is laid over this one's, with what differs."
	if now != nil {
		words = now.Name + "."
		if r != nil {
			m := now.Plan.Match(r)
			words = now.Name + ". " + wording.SayTargetDistance(m) + ". " + wording.SayTarget(m) + "."
		}
	}
	resized := t.remove.Hidden != (now == nil)
	t.remove.Hidden = now == nil
	if widgets.SetWords(t.words, words) || resized {
		t.box.Refresh()
		t.d.relayPage()
	}
}

// setTarget makes a picture the target; nil takes it away.
func (d *Desk) setTarget(t *setup.Target) {
	next := d.setup
	next.Target = t
	d.change(next, "")
}

// keepTarget keeps the target's file for the next start.
func (d *Desk) keepTarget() {
	if d.restoring {
		return // what was kept is being read
	}
	var now setup.Target
	if d.setup.Target != nil {
		now = *d.setup.Target
	}
	if d.settings.Target != now.Path || d.settings.TargetStill != now.Still {
		d.settings.Target, d.settings.TargetStill = now.Path, now.Still
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
		d.parts.strip.Say(widgets.MessageNote, "Nothing is counted in this picture, so it can't be a target.")
		return
	}
	d.setTarget(&setup.Target{Name: "The picture as it was at " + d.at.Format("15:04:05"), Plan: analysis.NewTarget(r)})
}

// AskTarget lets the painter choose the target's file.
func (d *Desk) AskTarget() {
	open := dialog.NewFileOpen(func(file fyne.URIReadCloser, err error) {
		d.focusMirror()
		if err != nil {
			d.parts.strip.Say(widgets.MessageNote, wording.Explain("open the target", err))
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
func (d *Desk) openTargetFile(path string, take func(*setup.Target)) {
	groups := d.settings.Groups
	d.readTarget(wording.Quote(path), take, func() (*setup.Target, error) {
		plan, err := pictures.ReadTarget(path, groups, pictures.Paper)
		return &setup.Target{Name: filepath.Base(path), Path: path, Plan: plan}, err
	})
}

// targetStill makes the open still the target.
func (d *Desk) targetStill() {
	if d.still != nil {
		d.openTargetStill(d.still.ID, d.setTarget)
	}
}

// openTargetStill reads a still and hands it to take as a target.
func (d *Desk) openTargetStill(id string, take func(*setup.Target)) {
	groups := d.settings.Groups
	d.readTarget("the still", take, func() (*setup.Target, error) {
		s, err := d.options.Stills.Open(id)
		if err != nil {
			return nil, err
		}
		plan := analysis.NewTarget(analysis.Read(s.Picture, analysis.Options{Groups: groups, Out: s.Meta.LeftOut.Out()}))
		return &setup.Target{Name: export.SheetTitle(s.Meta.Name, s.Meta.Time), Still: id, Plan: plan}, nil
	})
}

// readTarget reads a target without holding up the window.
func (d *Desk) readTarget(what string, take func(*setup.Target), read func() (*setup.Target, error)) {
	d.aside(func() {
		t, err := read()
		d.onWindow(func() {
			d.restoring = false
			if err == nil && len(t.Plan.Groups()) == 0 {
				err = pictures.ErrUncounted
			}
			if err != nil {
				d.parts.strip.Say(widgets.MessageNote, wording.Explain("read "+what+" as the target", err))
				return
			}
			take(t)
		})
	})
}

// restoreTarget reads the target of the last time, without a step of undo.
func (d *Desk) restoreTarget() {
	take := func(t *setup.Target) {
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
