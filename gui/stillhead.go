package gui

import (
	"net/url"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// stillHead says which still is open, and what can be done with it as a whole.
type stillHead struct {
	d      *Desk
	box    *fyne.Container
	words  *widget.Label
	name   *nameEntry
	handOn *widgets.Button
	acts   *fyne.Container // while a still is open
	id     string          // of the still whose name is shown
}

func newStillHead(d *Desk) *stillHead {
	h := &stillHead{d: d, words: widgets.SmallLabel()}
	h.name = newNameEntry(d)
	h.handOn = widgets.NewButton("Hand on", d, func() { d.askHandOn(h.handOn.Below()) })
	h.handOn.Explain(d.parts.tips, "Save a sheet, the picture with notes, or its layers")
	act := func(name, tip string, do func()) *widgets.Button {
		b := widgets.NewButton(name, d, do)
		b.Explain(d.parts.tips, tip)
		return b
	}
	h.acts = container.New(layout.NewCustomPaddedVBoxLayout(0), widgets.Inset(h.name), widgets.Inset(container.New(layout.NewCustomPaddedHBoxLayout(widgets.Step/2),
		act("Back", "Watch again what was watched before", d.closeStill),
		h.handOn,
		act("Target", "Paint toward this still: see the page Structure", d.targetStill),
		act("Folder", "Show the still's folder", d.openStillFolder),
		act("Delete", "Put the still into the trash", func() { d.deleteStill(d.setup.Source.Path) }),
	)))
	h.acts.Hide()
	h.box = container.NewBorder(nil, h.acts, nil, nil, h.words)
	return h
}

// show renews the words.
func (h *stillHead) show() {
	open := h.d.still != nil
	words := "Take a tool to draw on the picture: it is kept as a still first. Or open one from the shelf."
	if open {
		words = wording.SayStill(h.d.still.Meta, h.d.still.Barred)
		if h.id != h.d.still.ID {
			h.id = h.d.still.ID
			h.name.SetText(h.d.still.Meta.Name)
		}
	}
	resized := widgets.SetWords(h.words, words)
	if h.acts.Hidden == open {
		h.acts.Hidden = !open
		resized = true
	}
	if !open {
		h.id = ""
	}
	if resized {
		h.d.relayPage()
	}
}

// nameEntry takes the still's name.
type nameEntry struct {
	widget.Entry
	d *Desk
}

func newNameEntry(d *Desk) *nameEntry {
	e := &nameEntry{d: d}
	e.PlaceHolder = "Name of this still"
	e.ExtendBaseWidget(e)
	e.OnSubmitted = func(string) { d.focusMirror() }
	return e
}

// FocusLost gives the still its name.
func (e *nameEntry) FocusLost() {
	e.Entry.FocusLost()
	d := e.d
	if d.still == nil {
		return
	}
	id, name := d.still.ID, strings.TrimSpace(e.Text)
	e.SetText(name)
	if d.still.Meta.Name == name {
		return
	}
	d.still.Meta.Name = name
	d.aside(func() {
		err := d.options.Stills.Rename(id, name)
		d.onWindow(func() {
			if err != nil {
				d.parts.strip.Say(widgets.MessageNote, wording.ExplainWriting("rename the still", err))
			}
			d.stillsChanged()
		})
	})
}

// FocusGained reveals it.
func (e *nameEntry) FocusGained() {
	e.d.Reveal(e)
	e.Entry.FocusGained()
}

// TypedKey goes back to the picture with Esc, the name as it was.
func (e *nameEntry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape && e.d.still != nil {
		e.SetText(e.d.still.Meta.Name)
		e.d.focusMirror()
		return
	}
	e.Entry.TypedKey(k)
}

// deleteStill puts a still into the trash; the strip offers to bring it back.
func (d *Desk) deleteStill(id string) {
	if d.setup.Source == (setup.Source{Kind: setup.SourceStill, Path: id}) {
		d.closeStill()
		d.saver.flush() // which lets go of it
	}
	d.history.Forget(func(s setup.Setup) bool { return s.Source.Kind == setup.SourceStill && s.Source.Path == id })
	d.aside(func() {
		err := d.options.Stills.Delete(id)
		d.onWindow(func() {
			if err != nil {
				d.parts.strip.Say(widgets.MessageNote, wording.ExplainWriting("delete the still", err))
				return
			}
			d.deleted = append(d.deleted, id)
			d.parts.strip.SayWith(widgets.MessageNote, "The still is in the trash.", widgets.MessageAct{Name: "Bring it back", Do: func() { d.undoDelete() }})
			d.stillsChanged()
		})
	})
}

// undoDelete brings the still back that was deleted last, and reports whether there is one.
func (d *Desk) undoDelete() bool {
	if len(d.deleted) == 0 {
		return false
	}
	id := d.deleted[len(d.deleted)-1]
	d.deleted = d.deleted[:len(d.deleted)-1]
	d.parts.strip.Clear(widgets.MessageNote)
	d.restoreStill(id)
	return true
}

// restoreStill takes a still out of the trash.
func (d *Desk) restoreStill(id string) {
	d.aside(func() {
		err := d.options.Stills.Restore(id)
		d.onWindow(func() {
			if err != nil {
				d.parts.strip.Say(widgets.MessageNote, wording.ExplainWriting("bring the still back", err))
				return
			}
			d.parts.strip.Say(widgets.MessageNote, "The still is back.")
			d.stillsChanged()
		})
	})
}

// openStillFolder shows the still's folder in the desktop's file window.
func (d *Desk) openStillFolder() {
	folder := d.options.Stills.Folder(d.setup.Source.Path)
	if err := d.app.OpenURL(&url.URL{Scheme: "file", Path: filepath.ToSlash(folder)}); err != nil {
		fyne.LogError("opening the still's folder", err)
	}
	d.parts.strip.Say(widgets.MessageNote, "It lies in "+folder+".")
}
