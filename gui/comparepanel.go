package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/widgets"
)

// comparePanel compares what is watched with a still from before, and says what changed.
type comparePanel struct {
	*host
	compare *comparer

	box   *fyne.Container
	begin *widgets.Button
	how   *widgets.Chooser
	words *widget.Label
}

// compareWays are the ways to show two pictures, by the chooser's place.
var compareWays = []comparing{compareWipe, compareSides, compareTurns, compareMap}

func newComparePanel(h *host, c *comparer) *comparePanel {
	p := &comparePanel{host: h, compare: c, words: widgets.SmallLabel()}
	p.begin = widgets.NewButton("Compare", h.keys, c.ask)
	p.begin.Explain(h.tips, "Compare with a still from before (D)")
	p.how = widgets.NewChooser([]string{"Wipe", "Side by side", "In turns", "Map"}, 4*widgets.Step, h.keys, func(i int) { c.set(compareWays[i]) })
	p.how.Hide()
	p.words.Hide()
	title := widget.NewLabel("Before and after")
	title.TextStyle.Bold = true
	p.box = widgets.OnPanel(container.NewBorder(nil, nil, title, widgets.AtRight(p.begin)), p.how, p.words)
	return p
}

// show renews the panel.
func (p *comparePanel) show() {
	on := p.compare.on()
	word := "Compare"
	if !p.compare.idle() {
		word = "End"
	}
	if p.begin.Text != word {
		p.begin.SetText(word)
	}
	for i, how := range compareWays {
		if how == p.compare.how {
			p.how.Set(i)
		}
	}
	resized := p.how.Hidden == on
	p.how.Hidden, p.words.Hidden = !on, !on
	if on {
		resized = widgets.SetWords(p.words, p.compare.say()) || resized
	}
	if resized {
		p.relayPage()
	}
}
