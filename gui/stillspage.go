package gui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/comparing"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/stills/marking"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// stillsPage keeps pictures, marks them, compares them, and shows what was kept. One of its
// three parts is shown at a time, so that each has the room there is.
type stillsPage struct {
	plainPage
	d       *Desk
	box     *fyne.Container
	parts   *widgets.Chooser
	part    *fyne.Container // the one that is shown
	shown   int             // which it is
	head    *stillHead
	tools   *toolRows
	text    *noteEntry
	measure *widget.Label
	compare *comparing.Panel
	shelf   *shelf
	marks   fyne.CanvasObject
}

// The parts of the page, by their place in its chooser.
const (
	partShelf = iota
	partMarks
	partCompare
)

func newStillsPage(d *Desk) pageView {
	p := &stillsPage{d: d, measure: widgets.SmallLabel(), text: newNoteEntry(d.marker), part: container.NewStack()}
	on := &exporter{&d.Host, d.marker, &d.settings, d.saves.ask, d.saves.over, d.clipboard.copyImage}
	p.head = newStillHead(d.marker, d.stills, on, d.targetStill)
	p.tools = newToolRows(d.marker)
	p.measure.Hide()
	p.compare = comparing.NewPanel(&d.Host, d.comparison)
	p.shelf = newShelf(d.stills, p.open)
	p.marks = container.NewVBox(widgets.OnPanel(p.head.box, p.tools.box, container.New(widgets.LeastLines(measureLines), p.measure), widgets.Inset(p.text.Entry)))
	p.parts = widgets.NewChooser([]string{"Shelf", "Marks", "Compare"}, 4.5*widgets.Step, d, p.choose)
	keep := d.Button("Keep", "Keep the picture as a still (Ctrl+S)", func() { d.stills.keep(false) })
	top := container.NewBorder(nil, nil, nil, container.NewCenter(keep), p.parts)
	p.box = container.NewBorder(top, nil, nil, nil, p.part)
	p.showPart(partShelf)
	return p
}

// showPart shows one of the parts.
func (p *stillsPage) showPart(i int) {
	p.shown = i
	p.parts.Set(i)
	p.part.Objects = []fyne.CanvasObject{[]fyne.CanvasObject{p.shelf.box, p.marks, container.NewVBox(p.compare.Box)}[i]}
	p.part.Refresh()
	p.d.LayOutPage()
}

func (p *stillsPage) content() fyne.CanvasObject { return p.box }

func (p *stillsPage) trace(line *traceLine) {
	d := p.d
	line.Tools = [2][4]float32{d.boxOf(p.tools.rows[0]), d.boxOf(p.tools.rows[1])}
	line.Grid, line.Parts = d.boxOf(p.shelf.grid), d.boxOf(p.parts)
	for _, e := range p.shelf.shown {
		line.Shelf = append(line.Shelf, e.ID)
	}
	still := d.marker.Still()
	if still == nil {
		return
	}
	line.Still = &tracedStill{ID: still.ID, Tool: d.marker.toolName(), Kinds: []string{}}
	for _, n := range d.marker.Notes() {
		line.Still.Kinds = append(line.Still.Kinds, strings.ToLower(strings.TrimPrefix(fmt.Sprintf("%T", n.Shape), "notes.")))
	}
}

func (p *stillsPage) handle(e host.PageEvent) {
	switch e {
	case host.StillsChanged:
		p.shelf.load()
	case host.NotesSaved, host.FolderChanged:
		if p.shown == partShelf { // else it counts them anew once it is shown
			p.shelf.load()
		}
	case host.NoteChanged:
		p.showNote()
	case host.NoteWordsAsked:
		p.askWords()
	case host.MeasuredChanged:
		p.showMeasured()
	case host.ToolChanged:
		p.showTool()
	case host.ComparisonChanged:
		p.compare.Show()
	case host.ShelfAsked:
		p.choose(partShelf)
	case host.MarksAsked:
		p.showPart(partMarks)
	case host.ComparisonAsked:
		p.choose(partCompare)
	}
}

// askWords has the words of the selected note written. What is not seen can't take them.
func (p *stillsPage) askWords() {
	if p.d.parts.panel != panelNone {
		p.d.openPanel(panelNone)
	}
	if p.shown != partMarks {
		p.showPart(partMarks)
	}
	p.d.Window.Canvas().Focus(p.text.Entry)
}

// choose shows a part that the painter asked for.
func (p *stillsPage) choose(i int) {
	p.d.stills.leaveAnswer()
	p.showPart(i)
	if i == partShelf {
		p.shelf.load()
	}
}

// open opens a still that was clicked on the shelf, or compares with it.
func (p *stillsPage) open(id string) {
	if p.d.comparison.Asked() {
		p.d.comparison.Begin(id)
		return
	}
	p.d.stills.open(id)
}

// showTool shows which tool is in use.
func (p *stillsPage) showTool() {
	if p.d.marker.Still() == nil {
		p.tools.show(-1)
		return
	}
	p.tools.show(p.d.marker.Tool())
}

func (p *stillsPage) opened(open bool) {
	if open {
		p.shelf.load()
		p.d.marker.showPen()
		p.showNote()
		return
	}
	p.d.marker.leavePage()
}

func (p *stillsPage) show(*analysis.Reading) {
	p.head.show()
	p.compare.Show()
}

// showNote shows what can be done with the selected note.
func (p *stillsPage) showNote() {
	p.head.show()
	p.text.show()
	p.showMeasured()
}

// measureLines is how many lines the words on what is painted take in a narrow window: so
// much room is theirs while a still is open, or the page would move while it is painted.
const measureLines = 3

// showMeasured says what is painted as light and as shadow.
func (p *stillsPage) showMeasured() {
	open, words := p.d.marker.Still() != nil, ""
	if open {
		words = wording.SayMeasured(p.d.marker.Measure())
	}
	resized := widgets.SetWords(p.measure, words)
	if p.measure.Hidden == open {
		p.measure.Hidden = !open
		resized = true
	}
	if resized {
		p.d.LayOutPage()
	}
}

// toolRows are the tools for drawing, in two rows.
type toolRows struct {
	box  *fyne.Container
	rows [2]*widgets.Chooser
	cut  int // how many are in the first row
}

func newToolRows(m *marker) *toolRows {
	var names []string
	for _, t := range marking.Tools() {
		names = append(names, t.Name)
	}
	t := &toolRows{cut: (len(names) + 1) / 2}
	t.rows[0] = widgets.NewChooser(names[:t.cut], 4*widgets.Step, m.Keys, m.setTool)
	t.rows[1] = widgets.NewChooser(names[t.cut:], 4*widgets.Step, m.Keys, func(i int) { m.setTool(t.cut + i) })
	t.box = container.New(layout.NewCustomPaddedVBoxLayout(0), t.rows[0], t.rows[1])
	t.show(-1)
	return t
}

// show shows which tool is in use; -1 for none.
func (t *toolRows) show(i int) {
	t.rows[0].Set(i)
	t.rows[1].Set(i - t.cut)
}

// noteEntry takes the text of the selected note.
type noteEntry struct {
	*widgets.Entry
	marker  *marker
	showing bool // the entry is being set: what it reports is no wish
}

func newNoteEntry(m *marker) *noteEntry {
	e := &noteEntry{Entry: widgets.NewTextEntry(m.Keys, "Words to the selected note"), marker: m}
	e.OnChanged = func(text string) {
		if !e.showing {
			m.Write(text)
		}
	}
	e.Most, e.OnFull = m.Room, func() {
		if m.Room() < notes.MostText {
			m.Messages.Note(wording.SayFullStill())
		} else {
			m.Messages.Note(wording.SayFull("note", notes.MostText))
		}
	}
	e.OnSubmitted = func(string) { m.FocusMirror() }
	e.OnEscape = m.FocusMirror
	e.OnLeft = m.Settle // the next change is a step of undo of its own
	e.Hide()
	return e
}

// show shows the text of the selected note.
func (e *noteEntry) show() {
	n, ok := e.marker.Selected()
	if e.Text != n.Text {
		e.showing = true
		e.SetText(n.Text)
		e.showing = false
	}
	if e.Disabled() == ok { // it keeps its place while a still is open: nothing below may jump
		if ok {
			e.Enable()
		} else {
			e.Disable()
		}
	}
	if open := e.marker.Still() != nil; e.Hidden == open {
		e.Hidden = !open
		e.marker.LayOutPage()
	}
}
