package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/stills"
)

// comparePanel compares what is watched with a still from before, and says what changed.
type comparePanel struct {
	d     *Desk
	box   *fyne.Container
	begin *button
	how   *chooser
	words *widget.Label
}

// compareWays are the ways to show two pictures, by the chooser's place.
var compareWays = []comparing{compareWipe, compareSides, compareTurns, compareMap}

func newComparePanel(d *Desk) *comparePanel {
	p := &comparePanel{d: d, words: smallLabel()}
	p.begin = newButton("Compare", d, d.askCompare)
	p.begin.explain(d.parts.tips, "Compare with a still from before (D)")
	p.how = newChooser([]string{"Wipe", "Side by side", "In turns", "Map"}, 4*Step, d, func(i int) { d.setCompare(compareWays[i]) })
	p.how.Hide()
	p.words.Hide()
	title := widget.NewLabel("Before and after")
	title.TextStyle.Bold = true
	p.box = onPanel(container.NewBorder(nil, nil, title, atRight(p.begin)), p.how, p.words)
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
			p.how.set(i)
		}
	}
	resized := p.how.Hidden == on
	p.how.Hidden, p.words.Hidden = !on, !on
	if on {
		resized = say(p.words, d.sayCompared()) || resized
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
	words := "Compared with " + c.name + ": " + SayChange(c.found.change) + ". On average " + Tenth(c.found.change.Distance) + nbsp + "tones moved."
	if how := SayAlignment(c.found.aligned); how != "" {
		words += " " + how + "."
	}
	if d.comparing == compareMap {
		words += " " + SayMapScale(c.found.change.Span())
	}
	if c.found.aligned.How == stills.ByPosition && d.comparing != compareMap {
		words += " Where there is no picture from before, that of now shows."
	}
	return words
}
