package gui

import (
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/export"
	"app.tonedesk/gui/stills/sheet"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// handOnWay is one way to hand a still on. A new one is one entry in handOnWays.
type handOnWay struct {
	name string
	export.Export
	ending  string   // of the name that is offered
	endings []string // that can be chosen
	suffix  string   // of the name that is offered
}

func handOnWays() []handOnWay {
	a4, wide := export.Export{Page: sheet.A4}, export.Export{Page: sheet.Wide}
	return []handOnWay{
		{"Critique sheet, A4", a4, ".pdf", []string{".pdf", ".png"}, "-sheet"},
		{"Critique sheet, 16:9", wide, ".png", []string{".png", ".pdf"}, "-sheet"},
		{"Picture with its notes", export.Export{Page: sheet.A4, Picture: true}, ".png", []string{".png"}, "-notes"},
		{"Layers (OpenRaster)", a4, ".ora", []string{".ora"}, ""},
		{"Notes and figures (JSON)", a4, ".json", []string{".json"}, ""},
	}
}

// askHandOn shows the ways to hand the open still on, below a point of the window.
func (d *Desk) askHandOn(at fyne.Position) {
	var items []*fyne.MenuItem
	for _, way := range handOnWays() {
		items = append(items, fyne.NewMenuItem(way.name, func() { d.askHandOnFile(way) }))
	}
	items = append(items, fyne.NewMenuItemSeparator(), fyne.NewMenuItem("Copy the picture with its notes", d.copyStill))
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), d.window.Canvas(), at)
}

// copyStill copies the open still with its notes as a picture.
func (d *Desk) copyStill() {
	if d.still == nil {
		return
	}
	picture, list := d.still.Picture, d.still.list.All()
	d.aside(func() {
		img := stills.Annotate(picture, list, 0)
		d.onWindow(func() { d.copyImage(img) })
	})
}

// askHandOnFile lets the painter choose the file.
func (d *Desk) askHandOnFile(way handOnWay) {
	if d.still == nil {
		return
	}
	name := fileName(d.still.Meta) + way.suffix + way.ending
	d.askFile("hand the still on", name, way.endings, func(path string) { d.handOn(way, path) })
}

// fileName is a still's name as a file's, without an ending.
func fileName(m stills.Meta) string {
	name := m.Name
	if name == "" {
		name = "still " + m.Time.Local().Format("2006-01-02 15.04")
	}
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) || r < ' ' {
			return '-'
		}
		return r
	}, name)
}

// handOn writes the open still, as it is marked now, without holding up the window. The
// painter has agreed to writing over a file that is there.
func (d *Desk) handOn(way handOnWay, path string) {
	if d.still == nil {
		return
	}
	subject := export.SheetOfStill(d.still.Still)
	subject.Notes = d.still.list.All()
	subject.Options.Groups, subject.Bands = d.settings.Groups, d.settings.Knobs["bands"]
	rules := d.settings.Rules
	name := filepath.Base(path)
	d.parts.strip.Say(widgets.MessageNote, "Writing "+name+".")
	d.aside(func() {
		if way.ending != ".ora" && !way.Picture { // these show no families
			subject.Families = families.Find(subject.Picture, subject.Out, rules)
		}
		err := way.Save(path, true, subject)
		d.onWindow(func() {
			if err != nil {
				fyne.LogError("handing a still on", err)
				d.parts.strip.Say(widgets.MessageNote, wording.ExplainWriting("write "+wording.Quote(name), err))
				return
			}
			d.parts.strip.Say(widgets.MessageNote, "Written as "+name+".")
		})
	})
}
