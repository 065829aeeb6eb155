package gui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// stillHead says which still is open, and what can be done with it as a whole.
type stillHead struct {
	*host.Host
	marker   *marker
	box      *fyne.Container
	words    *widget.Label
	name     *widgets.Entry
	exporter *exporter
	acts     *fyne.Container // while a still is open
	id       string          // of the still whose name is shown
}

func newStillHead(m *marker, k *keptStills, on *exporter, target func()) *stillHead {
	h := &stillHead{Host: m.Host, marker: m, exporter: on, words: widgets.SmallLabel(), name: newNameEntry(m, k)}
	var out *widgets.Button
	out = m.Button("Hand on", "Save a sheet, the picture with notes, or its layers", func() { on.ask(out.Below()) })
	h.acts = container.New(layout.NewCustomPaddedVBoxLayout(0), widgets.Inset(h.name), widgets.Inset(container.New(layout.NewCustomPaddedHBoxLayout(widgets.Step/2),
		m.Button("Back", "Watch again what was watched before", k.back),
		out,
		m.Button("Target", "Paint toward this still: see the page Structure", target),
		m.Button("Folder", "Show the still's folder", k.showFolder),
		m.Button("Delete", "Put the still into the trash", func() { k.delete(k.now().Source.Path) }),
	)))
	h.acts.Hide()
	h.box = container.NewBorder(nil, h.acts, nil, nil, h.words)
	return h
}

// show renews the words.
func (h *stillHead) show() {
	still := h.marker.Still()
	open := still != nil
	words := "Take a tool to draw on the picture: it is kept as a still first. Or open one from the shelf."
	if open {
		words = wording.SayStill(still.Meta, still.Barred)
		if h.id != still.ID {
			h.id = still.ID
			h.name.SetText(still.Meta.Name)
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
		h.LayOutPage()
	}
}

// newNameEntry takes the still's name.
func newNameEntry(m *marker, k *keptStills) *widgets.Entry {
	e := widgets.NewEntry(m.Keys, "Name of this still")
	e.Most, e.OnFull = func() int { return stills.MostName }, func() { m.Messages.Note(wording.SayFull("name", stills.MostName)) }
	e.OnSubmitted = func(string) { m.FocusMirror() }
	e.OnLeft = func() {
		if s := m.Still(); s != nil {
			name := strings.TrimSpace(e.Text)
			e.SetText(name)
			k.rename(s, name)
		}
	}
	e.OnEscape = func() { // the name stays as it was
		if s := m.Still(); s != nil {
			e.SetText(s.Meta.Name)
		}
		m.FocusMirror()
	}
	return e
}
