package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// stillsPage keeps pictures, marks them, compares them, and shows what was kept. One of its
// three parts is shown at a time, so that each has the room there is.
type stillsPage struct {
	d       *Desk
	box     *fyne.Container
	parts   *widgets.Chooser
	part    *fyne.Container // the one that is shown
	head    *stillHead
	tools   *toolRows
	text    *noteEntry
	measure *widget.Label
	compare *comparePanel
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
	p := &stillsPage{d: d, head: newStillHead(d), measure: widgets.SmallLabel(), text: newNoteEntry(d), part: container.NewStack()}
	p.tools = newToolRows(d)
	p.measure.Hide()
	p.compare = newComparePanel(d)
	p.shelf = newShelf(d)
	p.marks = container.NewVBox(widgets.OnPanel(p.head.box, p.tools.box, container.New(widgets.LeastLines(measureLines), p.measure), widgets.Inset(p.text)))
	p.parts = widgets.NewChooser([]string{"Shelf", "Marks", "Compare"}, 4.5*widgets.Step, d, d.showStillsPart)
	keep := widgets.NewButton("Keep", d, func() { d.KeepStill(false) })
	keep.Explain(d.parts.tips, "Keep the picture as a still (Ctrl+S)")
	top := container.NewBorder(nil, nil, nil, container.NewCenter(keep), p.parts)
	p.box = container.NewBorder(top, nil, nil, nil, p.part)
	p.showPart(partShelf)
	return p
}

// showPart shows one of the parts.
func (p *stillsPage) showPart(i int) {
	p.parts.Set(i)
	p.part.Objects = []fyne.CanvasObject{[]fyne.CanvasObject{p.shelf.box, p.marks, container.NewVBox(p.compare.box)}[i]}
	p.part.Refresh()
	p.d.relayPage()
}

func (p *stillsPage) content() fyne.CanvasObject { return p.box }

func (p *stillsPage) searches() bool { return false }

func (p *stillsPage) opened(open bool) {
	if open {
		p.shelf.load()
		p.d.showPen()
		p.showNote()
		return
	}
	if p.d.still != nil {
		p.d.pen.leave()
		p.d.selectNote("")
	}
	p.d.parts.mirror.SetPen(nil)
	p.d.showPair()
}

func (p *stillsPage) show(*analysis.Reading) {
	p.head.show()
	p.compare.show()
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
	open, words := p.d.still != nil, ""
	if open {
		words = wording.SayMeasured(p.d.still.painted.Measure())
	}
	resized := widgets.SetWords(p.measure, words)
	if p.measure.Hidden == open {
		p.measure.Hidden = !open
		resized = true
	}
	if resized {
		p.d.relayPage()
	}
}

// toolRows are the tools for drawing, in two rows.
type toolRows struct {
	box  *fyne.Container
	rows [2]*widgets.Chooser
	cut  int // how many are in the first row
}

func newToolRows(d *Desk) *toolRows {
	var names []string
	for _, t := range noteTools() {
		names = append(names, t.name)
	}
	t := &toolRows{cut: (len(names) + 1) / 2}
	t.rows[0] = widgets.NewChooser(names[:t.cut], 4*widgets.Step, d, d.setTool)
	t.rows[1] = widgets.NewChooser(names[t.cut:], 4*widgets.Step, d, func(i int) { d.setTool(t.cut + i) })
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
	widget.Entry
	d       *Desk
	showing bool // the entry is being set: what it reports is no wish
}

func newNoteEntry(d *Desk) *noteEntry {
	e := &noteEntry{d: d}
	e.PlaceHolder = "Words to the selected note"
	e.ExtendBaseWidget(e)
	e.OnChanged = e.changed
	e.OnSubmitted = func(string) { d.focusMirror() }
	e.Hide()
	return e
}

func (e *noteEntry) changed(text string) {
	if e.showing || e.d.still == nil {
		return
	}
	if n, ok := e.d.still.note(); ok && n.Known() {
		e.d.still.list.Replace(n.WithText(text), "text")
		e.d.notesChanged()
	}
}

// show shows the text of the selected note.
func (e *noteEntry) show() {
	var n notes.Note
	ok := false
	if e.d.still != nil {
		n, ok = e.d.still.note()
	}
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
	if open := e.d.still != nil; e.Hidden == open {
		e.Hidden = !open
		e.d.relayPage()
	}
}

// FocusLost ends a row of changes: the next is a step of undo of its own.
func (e *noteEntry) FocusLost() {
	e.Entry.FocusLost()
	if e.d.still != nil {
		e.d.still.list.Settle()
	}
}

// FocusGained reveals it.
func (e *noteEntry) FocusGained() {
	e.d.Reveal(e)
	e.Entry.FocusGained()
}

// TypedKey goes back to the picture with Esc.
func (e *noteEntry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		e.d.focusMirror()
		return
	}
	e.Entry.TypedKey(k)
}
