package stills

import (
	"encoding/json"
	"fmt"
	"image"
	"io"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/gui/stills/ora"
)

// WriteORA writes a picture with its notes as an OpenRaster file: the notes above the
// picture, and between them its two-tone reading and its greys, hidden. mask is what is left
// out of the two-tone reading; nil for nothing. One layer is painted after the other, as it
// is written. The error wraps *memory.Full where there is no room for what lies on paper.
func WriteORA(w io.Writer, p analysis.Pixels, mask *analysis.Mask, list []notes.Note) error {
	small, err := smallOf(p, list)
	if err != nil {
		return err
	}
	look := views.Look{Reading: analysis.Read(p, analysis.Options{Mask: mask})}
	hidden := func(view string) image.Image {
		return bandsOf(p.Bounds(), isOpaque(p), func(rows image.Rectangle) image.Image {
			part := p.Crop(rows)
			img := cutOut(Paint(part, view, part.Width, part.Height, look), part)
			img.Rect = rows
			return img
		})
	}
	above, err := newApart(p, list)
	if err != nil {
		return err
	}
	defer above.file.wait()
	return ora.Write(w, ora.Picture{
		Layers: []ora.Layer{
			{Name: language.Say("Notes"), Image: above},
			{Name: language.Say("Two-tone"), Image: hidden("two-tone"), Hidden: true},
			{Name: language.Say("Greys"), Image: hidden("grey"), Hidden: true},
			{Name: language.Say("Picture"), Image: inSRGB(p)},
		},
		Merged: above.merged(), // written before the layers
		Small:  small,
	}, func(w io.Writer, img image.Image) error {
		if img == image.Image(above) {
			return above.write(w)
		}
		return WritePNG(w, img)
	})
}

// smallOf returns a small picture on paper, with its notes.
func smallOf(p analysis.Pixels, list []notes.Note) (image.Image, error) {
	paper, err := OnPaper(p)
	if err != nil {
		return nil, err
	}
	return Annotate(paper, list, min(ora.ThumbnailSide, max(p.Width, p.Height))), nil
}

// WriteJSON writes what is known of a still, and its notes, as one JSON object: the fields of
// still.json, "notes" as in notes.json, and their "version".
func WriteJSON(w io.Writer, meta Meta, list []notes.Note) error {
	fields, err := fieldsOf(meta)
	if err != nil {
		return err
	}
	text, err := json.Marshal(append([]notes.Note{}, list...))
	if err != nil {
		return err
	}
	fields["notes"], fields["version"] = text, json.RawMessage(fmt.Sprint(Version))
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(fields)
}
