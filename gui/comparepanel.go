package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// comparePanel compares what is watched with a still from before, and says what changed.
type comparePanel struct {
	d     *Desk
	box   *fyne.Container
	begin *widgets.Button
	how   *widgets.Chooser
	words *widget.Label
}

// compareWays are the ways to show two pictures, by the chooser's place.
var compareWays = []comparing{compareWipe, compareSides, compareTurns, compareMap}

func newComparePanel(d *Desk) *comparePanel {
	p := &comparePanel{d: d, words: widgets.SmallLabel()}
	p.begin = widgets.NewButton("Compare", d, d.askCompare)
	p.begin.Explain(d.tips, "Compare with a still from before (D)")
	p.how = widgets.NewChooser([]string{"Wipe", "Side by side", "In turns", "Map"}, 4*widgets.Step, d, func(i int) { d.setCompare(compareWays[i]) })
	p.how.Hide()
	p.words.Hide()
	title := widget.NewLabel("Before and after")
	title.TextStyle.Bold = true
	p.box = widgets.OnPanel(container.NewBorder(nil, nil, title, widgets.AtRight(p.begin)), p.how, p.words)
	return p
}

// show renews the panel.
func (p *comparePanel) show() {
	d := p.d
	on := d.comparing >= compareWipe
	word := "Compare"
	if d.comparing != compareNothing {
		word = "End"
	}
	if p.begin.Text != word {
		p.begin.SetText(word)
	}
	for i, how := range compareWays {
		if how == d.comparing {
			p.how.Set(i)
		}
	}
	resized := p.how.Hidden == on
	p.how.Hidden, p.words.Hidden = !on, !on
	if on {
		resized = widgets.SetWords(p.words, d.sayCompared()) || resized
	}
	if resized {
		d.relayPage()
	}
}

// sayCompared says what changed from the picture before to the one of now.
func (d *Desk) sayCompared() string {
	c := &d.comparison
	if c.found == nil {
		return "Comparing with " + c.name + "."
	}
	words := "Compared with " + c.name + ": " + wording.SayChange(c.found.change) + ". On average " + wording.Tenth(c.found.change.Distance) + wording.Nbsp + "tones moved."
	if how := wording.SayAlignment(c.found.aligned); how != "" {
		words += " " + how + "."
	}
	if d.comparing == compareMap {
		words += " " + wording.SayMapScale(c.found.change.Span())
	}
	if c.found.aligned.How == stills.ByPosition && d.comparing != compareMap {
		words += " Where there is no picture from before, that of now shows."
	}
	return words
}
