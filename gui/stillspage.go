package gui

import (
	"fmt"
	"image"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/comparing"
	"app.tonedesk/gui/growing"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/keeping"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/series"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// stillsPage keeps pictures, marks them, compares them, and shows what was kept. One of its
// three parts is shown at a time, below a row that stays.
type stillsPage struct {
	plainPage
	d       *Desk
	box     *fyne.Container
	parts   *widgets.Chooser
	part    *container.Scroll // shows one of them
	shown   int               // which it is
	keep    *widgets.Button
	kept    *keeping.Kept
	notes   *keeping.Notes
	compare *comparing.Panel
	begins  bool // comparing begins once there is a still to compare with
}

// The parts of the page, by their place in its chooser.
const (
	partKept = iota
	partNotes
	partCompare
)

func newStillsPage(d *Desk) pageView {
	p := &stillsPage{d: d, part: container.NewVScroll(nil)}
	p.part.OnScrolled = func(fyne.Position) { d.Tips.Leave() }
	p.kept = p.newKept()
	p.notes = p.newNotes()
	p.compare = comparing.NewPanel(&d.Host, d.comparison, comparing.PanelActs{
		Last: p.last, All: func() { p.choose(partKept) }, FromWhite: func() bool { return d.settings.FromWhite },
	})
	p.parts = widgets.NewBrief([]widgets.Choice{
		{Word: language.Say("Kept"), Icon: icons.Still, Tip: language.Say("Kept")}, {Word: language.Say("Notes"), Icon: icons.Label, Tip: language.Say("Notes")}, {Word: language.Say("Compare"), Icon: icons.Compare, Tip: language.Say("Compare, D")},
	}, d.Tips, d, p.choose)
	p.keep = widgets.NewIconButton(icons.Keep, d, func() { d.stills.keep(false) }).Shortens()
	p.keep.SetText(language.Say("Keep"))
	p.keep.Explain(d.Tips, language.Say("Keep the picture as a still, Ctrl+S"))
	row := container.New(widgets.Abreast{Stretch: widgets.All}, p.parts, p.keep)
	p.box = container.New(widgets.Snug{Stretch: 1, Least: func() float32 { return 18.5 * widgets.Step }}, row, container.New(layout.NewCustomPaddedLayout(0, 0, 0, -widgets.Gutter), p.part)) // its bar in the gutter
	p.put(partKept)
	return p
}

// newKept joins the list of stills to their owner.
func (p *stillsPage) newKept() *keeping.Kept {
	d := p.d
	return keeping.NewKept(&d.Host, keeping.KeptActs{
		Open: d.stills.open, Compare: d.comparison.Begin, Target: d.targetStill, Export: d.stills.exporter.ask,
		Folder: d.stills.showFolder, Delete: d.stills.delete, Restore: d.stills.restore,
		OfThis: func(e stills.Entry) bool { return e.Source.Meets(p.watched()) },
		Loaded: p.loaded, Came: func() { p.compare.Show() }, Missing: errNoStills,
		Grow: growActs(d), Shift: func() bool { return shiftHeld(d) },
	})
}

// growActs says how is measured how a picture grew.
func growActs(d *Desk) growing.Acts {
	return growing.Acts{Asked: func() (series.Asked, series.Told) {
		asked, told := grownAs(&d.settings)
		if t := d.setup.Target; t != nil {
			asked.Target = t.Plan
		}
		return asked, told
	}}
}

// newNotes joins the notes to the still that is open.
func (p *stillsPage) newNotes() *keeping.Notes {
	d := p.d
	return keeping.NewNotes(&d.Host, keeping.Marked{
		Board: d.marker.Board, Take: d.marker.setTool,
		Undo: func() { d.marker.undo() }, Redo: func() { d.marker.redo() },
		Rename: d.stills.rename, FromWhite: func() bool { return d.settings.FromWhite },
		Target: d.targetStill, Folder: d.stills.showFolder, Delete: d.stills.delete, Export: d.stills.exporter.ask,
	})
}

// exportStill exports the still that the open list means, or that is watched or was kept last.
func exportStill(d *Desk) {
	if p, ok := d.page().(*stillsPage); ok && p.parts.Chosen() == partKept && p.kept.At() != "" {
		d.stills.exporter.ask(p.kept.At())
	} else {
		d.stills.export()
	}
}

// watched is what is watched, as a still of it would name it; of a still, what that is of.
func (p *stillsPage) watched() stills.Source {
	if s := p.d.marker.Still(); s != nil {
		return s.Meta.Source
	}
	return stills.SourceOf(p.d.setup.Source, p.d.last.bounds)
}

// put puts one of the parts below the row.
func (p *stillsPage) put(i int) {
	p.shown = i
	p.parts.Set(i)
	p.part.Content = container.New(layout.NewCustomPaddedLayout(0, 0, 0, widgets.Gutter), []fyne.CanvasObject{p.kept.Box, p.notes.Box, p.compare.Box}[i])
	p.part.ScrollToTop()
	p.part.Refresh()
}

// showPart shows one of the parts. What is compared is seen only beside what is said of it.
func (p *stillsPage) showPart(i int) {
	if i != p.shown {
		leaveFocus(p.d, p.parts)
	}
	p.put(i)
	if i != partCompare {
		p.begins = false
		p.endComparing()
	}
	p.d.marker.onNotes = i == partNotes
	p.d.marker.showPen()
	p.d.LayOutPage()
}

// leaveGrowth shows no longer how a picture grew, and reports whether it was shown.
func leaveGrowth(d *Desk) bool {
	p, stills := d.page().(*stillsPage)
	return stills && p.shown == partKept && p.kept.LeaveGrowth()
}

// endComparing shows only what is watched.
func (p *stillsPage) endComparing() {
	if p.d.comparison.On() {
		p.d.comparison.End()
	}
}

func (p *stillsPage) content() fyne.CanvasObject { return p.box }

// scrolled is what of the page scrolls.
func (p *stillsPage) scrolled() *container.Scroll { return p.part }

func (p *stillsPage) trace(line *traceLine) {
	d := p.d
	for _, b := range p.notes.Tools.Tools {
		line.Tools = append(line.Tools, d.boxOf(b))
	}
	line.traceButtons(d, p.keep)
	if p.shown == partKept {
		line.traceButtons(d, append(p.kept.Acts(), p.kept.Grew)...)
		line.Grew = p.kept.Grown()
		line.Places = append(line.Places, tracedPlace{language.Say("Which"), false, d.boxOf(p.kept.Which)})
	}
	line.Grid, line.Parts = d.boxOf(p.kept.Grid), d.boxOf(p.parts)
	if p.shown != partKept {
		line.Grid = [4]float32{}
	}
	if p.shown != partNotes {
		line.Tools = nil
	}
	for _, e := range p.kept.Shown {
		line.Kept = append(line.Kept, e.ID)
	}
	line.Compares, line.Divided = d.comparison.With.ID, d.comparison.Line()
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
		p.kept.Load()
	case host.NotesSaved, host.FolderChanged:
		if p.shown != partNotes { // else it counts them anew once it is shown
			p.kept.Load()
		}
	case host.NoteChanged, host.MeasuredChanged:
		p.notes.Show()
		p.d.showSentence()
	case host.NoteWordsAsked:
		p.askWords()
	case host.ToolChanged:
		p.notes.ShowTool()
		p.d.showSentence()
	case host.ComparisonChanged:
		p.compare.Show()
		p.d.showSentence()
	case host.KeptAsked:
		p.choose(partKept)
	case host.NotesAsked:
		p.showPart(partNotes)
	case host.ComparisonAsked:
		p.choose(partCompare)
	}
}

// askWords has the words of the selected note written. What is not seen can't take them.
func (p *stillsPage) askWords() {
	if p.d.parts.panel != panelNone {
		p.d.openPanel(panelNone)
	}
	p.d.Window.Canvas().Focus(p.notes.Text)
}

// choose shows a part that the painter asked for. Comparing begins with the newest still.
func (p *stillsPage) choose(i int) {
	p.showPart(i)
	p.begins = i == partCompare && !p.d.comparison.On()
	p.kept.Load()
	p.d.showSentence()
}

// loaded is for the moment when the stills were read anew.
func (p *stillsPage) loaded() {
	p.compare.Show()
	if last := p.last(); p.begins && len(last) > 0 {
		p.begins = false
		p.d.comparison.Begin(last[0].ID)
	}
	p.d.showSentence()
}

// last are the newest stills to compare with: not the one that is watched.
func (p *stillsPage) last() (list []comparing.Offer) {
	const most = 4
	for _, e := range p.kept.All() {
		if p.d.setup.Source == asSource(e.ID) || len(list) == most {
			continue
		}
		name, at := wording.SayKept(e.Meta, time.Now())
		var img *image.RGBA
		if p.shown == partCompare {
			img = p.kept.Thumb(e.ID)
		}
		list = append(list, comparing.Offer{ID: e.ID, BeforeStill: widgets.BeforeStill{Name: name + ", " + at, Img: img}})
	}
	return list
}

func (p *stillsPage) opened(open bool) {
	if open {
		p.kept.Load()
		p.d.marker.showPen()
		p.notes.Show()
		p.begins = p.shown == partCompare
		return
	}
	p.endComparing()
	p.d.marker.leavePage()
}

func (p *stillsPage) show(*analysis.Reading) {
	p.compare.Show()
	p.kept.ShowGrowth() // the settings or the target may be others
}

// sentence answers what the part that is shown asks.
func (p *stillsPage) sentence() wording.Sentence {
	switch {
	case p.shown == partNotes:
		return p.notes.Sentence()
	case p.shown == partCompare && p.d.comparison.On():
		return p.d.comparison.Sentence()
	case p.shown == partCompare && len(p.last()) == 0:
		return wording.SayNothingBefore()
	case p.shown == partCompare:
		return wording.SayChooseBefore()
	}
	return wording.Sentence{} // the pair's
}
