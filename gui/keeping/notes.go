package keeping

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/marking"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// Notes shows the tools and what is marked on the open still.
type Notes struct {
	*host.Host
	of    Marked
	Box   fyne.CanvasObject
	Tools *widgets.ToolRow
	Text  *widgets.Entry // words of the selected note
	Name  *widgets.Entry // of the still

	list    *widgets.NoteList
	rows    []noteRow
	acts    []*widgets.Button
	id      string // of the still whose name is shown
	showing bool   // an entry is being set: what it reports is no wish
}

// Marked is the open still with what can be done on it.
type Marked struct {
	*marking.Board
	Take       func(tool int)
	Undo, Redo func()
	Rename     func(s *stills.Still, name string)
	FromWhite  func() bool
	// With the still as a whole, by its ID:
	Target, Folder, Delete func(id string)
	Export                 func(id string)
}

// NewNotes returns the part, without a still.
func NewNotes(h *host.Host, of Marked) *Notes {
	n := &Notes{Host: h, of: of}
	n.Tools = n.newTools()
	n.Text, n.Name = n.newText(), n.newName()
	list, rows := widgets.NewNoteList(h.Keys, func() int { return len(n.rows) }, func(i int) widgets.NoteText {
		if i >= len(n.rows) {
			return widgets.NoteText{}
		}
		return n.rows[i].text
	}, n.Tapped)
	n.list = list
	card := container.NewStack(widgets.NewPanel(), container.New(widgets.Snug{Stretch: 1, Least: leastRows, Around: true}, n.newWords(),
		container.New(layout.NewCustomPaddedLayout(-widgets.Step/2, -0.6*widgets.Step, -widgets.Step/2, -widgets.Step/2), rows))) // four rows in the usual window
	n.Box = container.New(widgets.Snug{Stretch: 1}, n.Tools, card, n.newFoot())
	n.Show()
	return n
}

// leastRows is the height in which a note's row can be read.
func leastRows() float32 { return 0.75 * widgets.Row() }

// newTools are the tools that draw, each named by its tip.
func (n *Notes) newTools() *widgets.ToolRow {
	var tools []widgets.Tool
	for i, t := range marking.Tools() {
		tools = append(tools, widgets.Tool{Icon: icons.Name(strings.ToLower(t.Name)), Tip: wording.ToolName(strings.ToLower(t.Name)), Do: func() { n.of.Take(i) }})
	}
	return widgets.NewToolRow(tools, n.steps(), n.Tips, n.Keys)
}

// steps go back and forth.
func (n *Notes) steps() []widgets.Tool {
	return []widgets.Tool{
		{Icon: icons.Undo, Tip: language.Say("Undo, Ctrl+Z"), Do: func() { n.of.Undo() }},
		{Icon: icons.Redo, Tip: language.Say("Redo, Ctrl+Y"), Do: func() { n.of.Redo() }},
	}
}

// newWords is the entry, and beside it the steps where the tools' row has no room for them.
func (n *Notes) newWords() fyne.CanvasObject {
	row := container.New(wordsRow{n.Tools}, n.Text)
	for _, step := range n.steps() {
		b := widgets.NewIconButton(step.Icon, n.Keys, step.Do)
		b.Explain(n.Tips, step.Tip)
		row.Add(b)
	}
	return row
}

// wordsRow stands an entry beside buttons, which are seen where a row of tools has left its own out.
type wordsRow struct{ tools *widgets.ToolRow }

// Layout gives the entry what the buttons leave; the row of tools was laid out before.
func (r wordsRow) Layout(o []fyne.CanvasObject, size fyne.Size) {
	left, side := !r.tools.Acts[0].Visible(), widgets.Row()
	for i := len(o) - 1; i > 0; i-- {
		if !left {
			o[i].Hide()
			continue
		}
		o[i].Show()
		size.Width -= side
		o[i].Move(fyne.NewPos(size.Width, (size.Height-side)/2))
		o[i].Resize(fyne.NewSquareSize(side))
		size.Width -= widgets.Step / 2
	}
	o[0].Move(fyne.Position{})
	o[0].Resize(size)
}

// MinSize is the entry's.
func (wordsRow) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }

// newText takes the words of the selected note.
func (n *Notes) newText() *widgets.Entry {
	e := widgets.NewTextEntry(n.Keys, language.Say("Words to the selected note"))
	e.Brief = language.Say("Words to it")
	e.OnChanged = func(text string) {
		if !n.showing {
			n.of.Write(text)
		}
	}
	e.Most, e.OnFull = n.of.Room, func() {
		if n.of.Room() < notes.MostText {
			n.Messages.Note(wording.SayFullStill())
		} else {
			n.Messages.Note(wording.SayFullNote(notes.MostText))
		}
	}
	e.OnSubmitted = func(string) { n.FocusMirror() }
	e.OnEscape = n.FocusMirror
	e.OnLeft = n.of.Settle // the next change is a step of undo of its own
	return e
}

// newName takes the still's name.
func (n *Notes) newName() *widgets.Entry {
	e := widgets.NewEntry(n.Keys, language.Say("Name of this still"))
	e.Brief = language.Say("Name")
	e.Most, e.OnFull = func() int { return stills.MostName }, func() { n.Messages.Note(wording.SayFullName(stills.MostName)) }
	e.OnSubmitted = func(string) { n.FocusMirror() }
	e.OnLeft = func() {
		if s := n.of.Still(); s != nil {
			name := strings.TrimSpace(e.Text)
			e.SetText(name)
			n.of.Rename(s, name)
		}
	}
	e.OnEscape = func() { // the name stays as it was
		if s := n.of.Still(); s != nil {
			e.SetText(s.Meta.Name)
		}
		n.FocusMirror()
	}
	return e
}

// newFoot is the still's name and what can be done with it as a whole.
func (n *Notes) newFoot() fyne.CanvasObject {
	parts := []fyne.CanvasObject{n.Name}
	add := func(icon icons.Name, tip string, do func(id string)) {
		b := widgets.NewIconButton(icon, n.Keys, func() {
			if s := n.of.Still(); s != nil {
				do(s.ID)
			}
		}).Shortens()
		b.Explain(n.Tips, tip)
		n.acts = append(n.acts, b)
		parts = append(parts, b)
	}
	add(icons.Target, language.Say("Make it the target"), n.of.Target)
	add(icons.Export, language.Say("Export, Ctrl+E"), n.of.Export)
	add(icons.Folder, language.Say("Show its folder"), n.of.Folder)
	add(icons.Delete, language.Say("Put it into the trash"), n.of.Delete)
	return widgets.NewFolding(parts...)
}

// Tapped selects a note of the list on the picture.
func (n *Notes) Tapped(i int) {
	if i < len(n.rows) {
		n.of.Take(0)
		n.of.Select(n.rows[i].id)
	}
}

// Show renews the list, the entries, and what can be done now.
func (n *Notes) Show() {
	note, selected := n.of.Selected()
	rows := rowsOf(n.of.Notes(), n.of.Measure(), note.ID, n.of.FromWhite())
	if !slices.Equal(rows, n.rows) {
		n.rows = rows
		n.list.Refresh()
		if i := slices.IndexFunc(rows, func(r noteRow) bool { return r.text.Selected }); i >= 0 {
			n.list.ScrollTo(i)
		}
	}
	n.showing = true
	if n.Text.Text != note.Text {
		n.Text.SetText(note.Text)
	}
	n.showing = false
	enable(n.Text, selected)
	n.showStill()
	n.Tools.Acts[0].SetOff(!n.of.CanUndo())
	n.Tools.Acts[1].SetOff(!n.of.CanRedo())
}

// showStill shows the still's name, and whether there is one.
func (n *Notes) showStill() {
	s := n.of.Still()
	enable(n.Name, s != nil)
	for _, b := range n.acts {
		b.SetOff(s == nil)
	}
	switch {
	case s == nil && n.id != "":
		n.id = ""
		n.Name.SetText("")
	case s != nil && n.id != s.ID:
		n.id = s.ID
		n.Name.SetText(s.Meta.Name)
	}
}

// enable lets an entry be typed in, or not; it keeps its place.
func enable(e *widgets.Entry, on bool) {
	if e.Disabled() == on {
		if on {
			e.Enable()
		} else {
			e.Disable()
		}
	}
}

// ShowTool shows which tool is in use: none without a still.
func (n *Notes) ShowTool() {
	if n.of.Still() == nil {
		n.Tools.Use(-1)
		return
	}
	n.Tools.Use(n.of.Tool())
}

// Sentence is the page's: what the selected note shows, or the next step of the tool in use.
func (n *Notes) Sentence() wording.Sentence {
	if n.of.Still() == nil {
		return wording.SayTakeTool(false)
	}
	list, measured := n.of.Notes(), n.of.Measure()
	if note, ok := n.of.Selected(); ok && note.Known() {
		i := slices.IndexFunc(list, func(o notes.Note) bool { return o.ID == note.ID })
		if _, area := note.Shape.(notes.Area); !area && !note.Speaks() {
			return wording.SayWordless(string(IconOf(note.Shape)))
		}
		return wording.SayNote(notes.Numbers(list)[i], string(IconOf(note.Shape)), note.Shape, measured, n.of.FromWhite())
	}
	if n.of.Tool() == 0 && len(list) == 0 {
		return wording.SayTakeTool(true)
	}
	return wording.SayToolStep(strings.ToLower(marking.Tools()[n.of.Tool()].Name), measured)
}
