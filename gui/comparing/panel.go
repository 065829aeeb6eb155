package comparing

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// Panel compares what is watched with a still from before, and says what changed.
type Panel struct {
	*host.Host
	compare *Comparer
	acts    PanelActs

	Box    fyne.CanvasObject
	ways   *widgets.Chooser
	before *widgets.BeforeStrip
	card   fyne.CanvasObject // with the table and the lines
	Table  *widgets.ChangeTable
	Lines  *widget.Label
	ids    []string // of the stills that are offered
}

// PanelActs are what a panel asks of the page.
type PanelActs struct {
	Last      func() []Offer // the stills to compare with, newest first
	All       func()         // shows all stills
	FromWhite func() bool    // values count from white
}

// Offer is a still that can be compared with.
type Offer struct {
	ID string
	widgets.BeforeStill
}

// compareWays are the ways to show two pictures, by the chooser's place.
var compareWays = []Way{Divided, Sides, Turns, Map}

// NewPanel returns the panel of a comparer.
func NewPanel(h *host.Host, c *Comparer, acts PanelActs) *Panel {
	p := &Panel{Host: h, compare: c, acts: acts, Lines: widgets.SmallLabel(), Table: widgets.NewChangeTable()}
	p.ways = widgets.NewChooser([]string{language.Say("Divided"), language.Say("Side by side"), language.Say("In turns"), language.Say("Map")}, h.Keys, func(i int) { c.Set(compareWays[i]) }).Lists(h.OpenList)
	p.before = widgets.NewBeforeStrip(h.Keys, h.Tips, func(i int) {
		if i < len(p.ids) {
			c.Begin(p.ids[i])
		}
	}, acts.All)
	tight := layout.NewCustomPaddedVBoxLayout(0)
	strip := container.NewStack(widgets.NewPanel(), container.New(layout.NewCustomPaddedLayout(widgets.Step/2, widgets.Step/2, widgets.Step, widgets.Step), container.New(tight, widgets.QuietWords(language.Say("Before")), p.before)))
	p.card = container.NewStack(widgets.NewPanel(), container.New(tight, container.New(layout.NewCustomPaddedLayout(widgets.Step/4, 0, widgets.Step, widgets.Step), p.Table), container.New(layout.NewCustomPaddedLayout(-1.25*widgets.Step, -0.75*widgets.Step, 0, 0), p.Lines)))
	if !c.On() { // before the page is there to be laid out
		p.card.Hide()
	}
	p.Box = container.NewVBox(container.New(widgets.AnyWidth{}, p.ways), strip, p.card)
	p.Show()
	return p
}

// Show renews the panel.
func (p *Panel) Show() {
	p.ways.Set(-1)
	for i, how := range compareWays {
		if how == p.compare.How {
			p.ways.Set(i)
		}
	}
	p.showBefore()
	var rows []wording.GroupRow
	if c := p.compare.Change(); c != nil && c.Counted > 0 {
		rows = wording.SayGroupRows(c, p.acts.FromWhite())
	}
	resized := len(rows) != len(p.Table.Rows()) || p.card.Visible() != p.compare.On()
	if p.compare.On() {
		p.card.Show()
	} else { // a table of nothing but its heads asks what is missing
		p.card.Hide()
	}
	p.Table.Set(rows)
	if widgets.SetWords(p.Lines, strings.Join(p.compare.lines(), "\n")) || resized {
		p.Box.Refresh()
		p.LayOutPage()
	}
}

// showBefore offers the last stills.
func (p *Panel) showBefore() {
	var list []widgets.BeforeStill
	p.ids = p.ids[:0]
	for _, o := range p.acts.Last() {
		o.Chosen = o.ID == p.compare.With.ID
		list, p.ids = append(list, o.BeforeStill), append(p.ids, o.ID)
	}
	p.before.Set(list)
}
