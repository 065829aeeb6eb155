package gui

import (
	"errors"
	"fmt"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
	"app.tonedesk/capture"
)

// errUncounted says that a picture has no pixel to count.
var errUncounted = errors.New("nothing to count")

// target is a picture as the plan to paint toward. It never changes.
type target struct {
	name string // for the window
	path string // of its file; empty for what was in the mirror
	plan *analysis.Target
}

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
	t.box = container.NewVBox(onPanel(container.NewBorder(nil, nil, title, container.NewCenter(buttons)), t.words))
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
	path := ""
	if d.setup.Target != nil {
		path = d.setup.Target.path
	}
	if d.settings.Target != path {
		d.settings.Target = path
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
	groups := d.settings.Groups
	d.aside(func() {
		t, err := readTarget(path, groups)
		d.onWindow(func() {
			if err != nil {
				d.parts.strip.say(stripNote, Explain("read "+Quote(path), err))
				return
			}
			d.setTarget(t)
		})
	})
}

// readTarget reads a target's file.
func readTarget(path string, groups int) (*target, error) {
	picture, err := capture.OpenPicture(path)
	if err != nil {
		return nil, err
	}
	p := analysis.Pixels{Pix: picture.Pix, Stride: picture.Stride, Width: picture.Size.X, Height: picture.Size.Y, Layout: analysis.RGBA}
	p.LayOver(paper)
	r := analysis.Read(p, analysis.Options{Groups: groups})
	if r.Counted == 0 {
		return nil, fmt.Errorf("target %s: %w", path, errUncounted)
	}
	return &target{name: filepath.Base(path), path: path, plan: analysis.NewTarget(r)}, nil
}
