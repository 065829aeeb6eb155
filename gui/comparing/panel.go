package comparing

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/widgets"
)

// Panel compares what is watched with a still from before, and says what changed.
type Panel struct {
	*host.Host
	compare *Comparer

	Box   *fyne.Container
	begin *widgets.Button
	how   *widgets.Chooser
	Words *widget.Label
}

// compareWays are the ways to show two pictures, by the chooser's place.
var compareWays = []Way{Wipe, Sides, Turns, Map}

// NewPanel returns the panel of a comparer.
func NewPanel(h *host.Host, c *Comparer) *Panel {
	p := &Panel{Host: h, compare: c, Words: widgets.SmallLabel()}
	p.begin = h.Button("Compare", "Compare with a still from before (D)", c.Ask)
	p.how = widgets.NewChooser([]string{"Wipe", "Side by side", "In turns", "Map"}, 4*widgets.Step, h.Keys, func(i int) { c.Set(compareWays[i]) })
	p.how.Hide()
	p.Words.Hide()
	title := widget.NewLabel("Before and after")
	title.TextStyle.Bold = true
	p.Box = widgets.OnPanel(container.NewBorder(nil, nil, title, widgets.AtRight(p.begin)), p.how, p.Words)
	return p
}

// Show renews the panel.
func (p *Panel) Show() {
	on := p.compare.On()
	word := "Compare"
	if !p.compare.Idle() {
		word = "End"
	}
	if p.begin.Text != word {
		p.begin.SetText(word)
	}
	for i, how := range compareWays {
		if how == p.compare.How {
			p.how.Set(i)
		}
	}
	resized := p.how.Hidden == on
	p.how.Hidden, p.Words.Hidden = !on, !on
	if on {
		resized = widgets.SetWords(p.Words, p.compare.say()) || resized
	}
	if resized {
		p.LayOutPage()
	}
}
