package gui

import (
	"cmp"
	"image"
	"path/filepath"
	"strings"
	"unicode"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/growth"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/export"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/gui/stills/series"
	"app.tonedesk/gui/stills/sheet"
	"app.tonedesk/gui/wording"
)

// exportWay is one way to export a still. A new one is one entry in exportWays.
type exportWay struct {
	name string
	export.Export
	ending string
	suffix string // of the name that is offered
	bare   bool   // without its notes
}

func exportWays() []exportWay {
	a4, wide, picture := export.Export{Page: sheet.A4}, export.Export{Page: sheet.Wide}, export.Export{Page: sheet.A4, Picture: true}
	return []exportWay{
		{name: language.Say("Critique sheet, A4 (PDF)"), Export: a4, ending: ".pdf", suffix: "-sheet"},
		{name: language.Say("Critique sheet, A4 (PNG)"), Export: a4, ending: ".png", suffix: "-sheet"},
		{name: language.Say("Critique sheet, 16:9 (PDF)"), Export: wide, ending: ".pdf", suffix: "-sheet"},
		{name: language.Say("Critique sheet, 16:9 (PNG)"), Export: wide, ending: ".png", suffix: "-sheet"},
		{name: language.Say("Picture with notes (PNG)"), Export: picture, ending: ".png", suffix: "-notes"},
		{name: language.Say("Picture (PNG)"), Export: picture, ending: ".png", bare: true},
		{name: language.Say("Layers (OpenRaster)"), Export: a4, ending: ".ora"},
		{name: language.Say("Notes and figures (JSON)"), Export: a4, ending: ".json"},
	}
}

// exporter exports a still: the one that is open as it is marked now.
type exporter struct {
	*host.Host
	marker    *marker
	settings  *settings.Settings // read only
	askFile   func(what, base string, formats []fileFormat, instead ...host.Choice) *saveForm
	over      func(path string) files.To
	copyImage func(image.Image)
}

// ask lets the painter choose how to export a still, by its ID, and to which file.
func (e *exporter) ask(id string) {
	e.with(id, func(still *stills.Still) {
		var formats []fileFormat
		for _, way := range exportWays() {
			formats = append(formats, fileFormat{way.name, way.ending, way.suffix, func(path string) { e.write(way, still, path) }})
		}
		e.askFile(language.Say("Export"), fileName(still.Meta), formats, host.Choice{Name: language.Say("Copy the picture with notes"), Do: func() { e.copy(still) }})
	})
}

// with hands over a still: the open one, or one that is read for it.
func (e *exporter) with(id string, do func(*stills.Still)) {
	if open := e.marker.Still(); open != nil && open.ID == id {
		do(open)
		return
	}
	var still *stills.Still
	e.Background(func() (err error) {
		still, err = e.Store.Open(id)
		return err
	}, func(err error) {
		if err != nil {
			e.Messages.Note(wording.Explain("open the still", err))
			return
		}
		do(still)
	})
}

// notesOf are a still's notes as they are now.
func (e *exporter) notesOf(still *stills.Still) []notes.Note {
	if open := e.marker.Still(); open != nil && open.ID == still.ID {
		return e.marker.Notes()
	}
	return still.Notes.Notes
}

// grownAs says how the painter has it measured, and told, how a picture grew.
func grownAs(s *settings.Settings) (series.Asked, series.Told) {
	return series.Asked{NoGround: s.NoGround, Rules: s.Rules, Edges: s.Melting()}, series.Told{Groups: s.Groups, Rules: growth.DefaultRules().WithTones(s.TurnFrom), FromWhite: s.FromWhite}
}

// copy copies a still with its notes as a picture.
func (e *exporter) copy(still *stills.Still) {
	list := e.notesOf(still)
	var img image.Image
	e.Try("copy the picture", func() error {
		img = stills.Annotated(analysis.Opaque(still.Picture), list)
		return nil
	}, func() { e.copyImage(img) })
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

// write writes a still, as it is marked now, without holding up the window. The painter has
// agreed to writing over a file that is there.
func (e *exporter) write(way exportWay, still *stills.Still, path string) {
	subject := export.SheetOfStill(still)
	subject.Notes = e.notesOf(still)
	if way.bare {
		subject.Notes = nil
	}
	mask := subject.Options.Mask
	subject.Options, subject.Bands = e.settings.Grouping(), e.settings.Knobs["bands"]
	subject.Edges, subject.Light, subject.Contrast = e.settings.Melting(), e.settings.Light, e.settings.Focus
	subject.Options.Mask = mask
	rules := e.settings.Rules
	asked, told := grownAs(e.settings)
	name, to := filepath.Base(path), e.over(path)
	e.Messages.Note(language.Say("Writing %s", wording.Quote(name)))
	write := func() error {
		if way.ending != ".ora" { // whose layers stay transparent
			subject.Picture = analysis.Opaque(subject.Picture)
		}
		if way.ending != ".ora" && !way.Picture { // these show no families
			subject.Families = families.Find(subject.Picture, subject.Options.Mask, rules)
			if way.ending != ".json" {
				subject.Grew = series.Grew(e.Store, still.ID, asked, told)
			}
		}
		return way.Save(to, subject)
	}
	e.Try(wording.On("write %s", name), write, func() { e.Messages.Note(language.Say("Written as %s", wording.Quote(name))) })
}
