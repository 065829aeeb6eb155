package gui

import (
	"image"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/export"
	"app.tonedesk/gui/stills/sheet"
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

// handOn hands the still on that is open, as it is marked.
type handOn struct {
	*host.Host
	marker    *marker
	settings  *settings.Settings // read only
	askFile   func(what, name string, endings []string, write func(path string))
	copyImage func(image.Image)
}

// Ask shows the ways to hand the open still on, below a point of the window.
func (h *handOn) ask(at fyne.Position) {
	var items []*fyne.MenuItem
	for _, way := range handOnWays() {
		items = append(items, fyne.NewMenuItem(way.name, func() { h.askFor(way) }))
	}
	items = append(items, fyne.NewMenuItemSeparator(), fyne.NewMenuItem("Copy the picture with its notes", h.copy))
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), h.Window.Canvas(), at)
}

// copy copies the open still with its notes as a picture.
func (h *handOn) copy() {
	still, list := h.marker.Still(), h.marker.Notes()
	if still == nil {
		return
	}
	h.Background(func() {
		img := stills.Annotate(analysis.Opaque(still.Picture), list, 0)
		h.OnWindow(func() { h.copyImage(img) })
	})
}

// askFor lets the painter choose the file.
func (h *handOn) askFor(way handOnWay) {
	still := h.marker.Still()
	if still == nil {
		return
	}
	name := fileName(still.Meta) + way.suffix + way.ending
	h.askFile("hand the still on", name, way.endings, func(path string) { h.write(way, path) })
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

// write writes the open still, as it is marked now, without holding up the window. The
// painter has agreed to writing over a file that is there.
func (h *handOn) write(way handOnWay, path string) {
	still := h.marker.Still()
	if still == nil {
		return
	}
	subject := export.SheetOfStill(still)
	subject.Notes = h.marker.Notes()
	subject.Options.Groups, subject.Bands = h.settings.Groups, h.settings.Knobs["bands"]
	rules := h.settings.Rules
	name := filepath.Base(path)
	h.Messages.Note("Writing " + name + ".")
	h.Background(func() {
		if way.ending != ".ora" { // whose layers stay transparent
			subject.Picture = analysis.Opaque(subject.Picture)
		}
		if way.ending != ".ora" && !way.Picture { // these show no families
			subject.Families = families.Find(subject.Picture, subject.Options.Out, rules)
		}
		err := way.Save(path, true, subject)
		h.OnWindow(func() {
			if err != nil {
				fyne.LogError("handing a still on", err)
				h.Messages.Note(wording.ExplainWriting("write "+wording.Quote(name), err))
				return
			}
			h.Messages.Note("Written as " + name + ".")
		})
	})
}
