package gui

import (
	"cmp"
	"image"
	"path/filepath"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/export"
	"app.tonedesk/gui/stills/sheet"
	"app.tonedesk/gui/wording"
)

// exportWay is one way to export a still. A new one is one entry in exportWays.
type exportWay struct {
	name string
	export.Export
	ending  string   // of the name that is offered
	endings []string // that can be chosen
	suffix  string   // of the name that is offered
}

func exportWays() []exportWay {
	a4, wide := export.Export{Page: sheet.A4}, export.Export{Page: sheet.Wide}
	return []exportWay{
		{"Critique sheet, A4", a4, ".pdf", []string{".pdf", ".png"}, "-sheet"},
		{"Critique sheet, 16:9", wide, ".png", []string{".png", ".pdf"}, "-sheet"},
		{"Picture with its notes", export.Export{Page: sheet.A4, Picture: true}, ".png", []string{".png"}, "-notes"},
		{"Layers (OpenRaster)", a4, ".ora", []string{".ora"}, ""},
		{"Notes and figures (JSON)", a4, ".json", []string{".json"}, ""},
	}
}

// exporter exports the still that is open, as it is marked.
type exporter struct {
	*host.Host
	marker    *marker
	settings  *settings.Settings // read only
	askFile   func(what, name string, endings []string, write func(path string))
	over      func(path string) files.To
	copyImage func(image.Image)
}

// ask shows the ways to export the open still, below a point of the window.
func (e *exporter) ask(at fyne.Position) {
	var items []*fyne.MenuItem
	for _, way := range exportWays() {
		items = append(items, fyne.NewMenuItem(way.name, func() { e.askFor(way) }))
	}
	items = append(items, fyne.NewMenuItemSeparator(), fyne.NewMenuItem("Copy the picture with its notes", e.copy))
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), e.Window.Canvas(), at)
}

// copy copies the open still with its notes as a picture.
func (e *exporter) copy() {
	still, list := e.marker.Still(), e.marker.Notes()
	if still == nil {
		return
	}
	var img image.Image
	e.Try("copy the picture", func() error {
		img = stills.Annotated(analysis.Opaque(still.Picture), list)
		return nil
	}, func() { e.copyImage(img) })
}

// askFor lets the painter choose the file.
func (e *exporter) askFor(way exportWay) {
	still := e.marker.Still()
	if still == nil {
		return
	}
	name := fileName(still.Meta) + way.suffix + way.ending
	e.askFile("hand the still on", name, way.endings, func(path string) { e.write(way, path) })
}

// fileName is a still's name as a file's, without an ending.
func fileName(m stills.Meta) string {
	name := cmp.Or(m.Name, "still "+m.Time.Local().Format("2006-01-02 15.04"))
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) || !unicode.IsPrint(r) {
			return '-'
		}
		return r
	}, name)
}

// write writes the open still, as it is marked now, without holding up the window. The
// painter has agreed to writing over a file that is there.
func (e *exporter) write(way exportWay, path string) {
	still := e.marker.Still()
	if still == nil {
		return
	}
	subject := export.SheetOfStill(still)
	subject.Notes = e.marker.Notes()
	mask := subject.Options.Mask
	subject.Options, subject.Bands = e.settings.Grouping(), e.settings.Knobs["bands"]
	subject.Options.Mask = mask
	rules := e.settings.Rules
	name, to := filepath.Base(path), e.over(path)
	e.Messages.Note("Writing " + wording.Quote(name) + ".")
	e.Try(wording.On("write", name), func() error {
		if way.ending != ".ora" { // whose layers stay transparent
			subject.Picture = analysis.Opaque(subject.Picture)
		}
		if way.ending != ".ora" && !way.Picture { // these show no families
			subject.Families = families.Find(subject.Picture, subject.Options.Mask, rules)
		}
		return way.Save(to, subject)
	}, func() { e.Messages.Note("Written as " + wording.Quote(name) + ".") })
}
