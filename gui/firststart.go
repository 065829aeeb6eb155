package gui

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// firstStart is what the window shows while nothing was chosen to watch.
type firstStart struct {
	ways  *widgets.FirstStart // in place of the picture
	steps *fyne.Container     // in place of the page
	onTop *widgets.Switch
}

func newFirstStart(d *Desk) firstStart {
	ways := []widgets.Way{
		{Icon: icons.Window, Words: language.Say("A window"), Note: language.Say("choose the painting program's from a list"), Brief: language.Say("from a list"), Do: d.ways.AskWindow},
		{Icon: icons.Region, Words: language.Say("A region of the screen"), Note: language.Say("drag over the picture you paint"), Do: d.PickRegion},
		{Icon: icons.File, Words: language.Say("A picture file"), Note: language.Say("or drop one here"), Do: func() { askPicture(d) }},
	}
	if native.WaylandSession() {
		ways[0].Note, ways[1].Words, ways[1].Note = wording.OfX11Alone.String(), language.Say("The screen, or any window"), language.Say("your desktop may ask which")
	}
	f := firstStart{}
	f.ways = widgets.NewFirstStart(language.Say("What shall it watch?"), ways, [2]string{language.Say("or look at the demo painting first"), language.Say("the demo painting")}, func() { d.watch(setup.Source{Kind: setup.SourceDemo}) }, alwaysSeen{d})
	f.onTop = widgets.NewSwitch(d.settings.KeepAbove, d, func(bool) { d.toggleAbove() })
	onTop := []widgets.Hint{{Icon: icons.OnTop, Words: language.Say("Stay on top of the painting program"), Short: language.Say("Stay on top"), Note: language.Say("K, or in the menu"), Switch: f.onTop}}
	if !native.StaysAbove() {
		onTop = nil
	}
	f.steps = container.NewVBox(
		widgets.NewHints([]widgets.Hint{
			{Icon: icons.View, Words: language.Say("See its greys"), Note: language.Say("V goes through the views")},
			{Icon: icons.Spot, Words: language.Say("Click two spots"), Note: language.Say("are they the same lightness, or how far apart?")},
			{Icon: icons.Keep, Words: language.Say("Keep a still"), Note: language.Say("to mark up and to compare with later")},
		}),
		widgets.NewHints(onTop, language.Say("F1 lists every key. Esc closes what is open."), language.Say("Nothing is sent anywhere; frames stay in memory.")))
	return f
}

// chosen reports whether anything was chosen to watch.
func chosen(d *Desk) bool { return d.setup.Source.Kind != setup.SourceNothing }

// showFirstStart shows what stands for the picture and for the page until something was chosen.
func showFirstStart(d *Desk) {
	p := &d.parts
	if p.start.ways.Visible() != chosen(d) {
		return
	}
	if chosen(d) {
		p.start.ways.Hide()
	} else {
		p.start.ways.Show()
		p.strip.SetZoom(false, false) // there is no picture
		d.last.bounds = image.Rectangle{}
	}
	d.showLower()
}
