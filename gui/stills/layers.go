package stills

import (
	"encoding/json"
	"image"
	"io"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/gui/stills/ora"
)

// WriteORA writes a picture with its notes as an OpenRaster file: the notes above the
// picture, and between them its two-tone reading and its greys, hidden. mask is what is left
// out of the two-tone reading; nil for nothing.
func WriteORA(w io.Writer, p analysis.Pixels, mask *analysis.Mask, list []notes.Note) error {
	look := views.Look{Reading: analysis.Read(p, analysis.Options{Mask: mask})}
	merged := Annotate(p, list, 0)
	shownW, shownH := Fit(p.Width, p.Height, ora.ThumbnailSide, ora.ThumbnailSide)
	paper := pixelsOf(onPaper(merged))
	hidden := func(view string) image.Image { return cutOut(Paint(p, view, p.Width, p.Height, look), p) }
	above := image.NewRGBA(merged.Rect)
	annotate(above, 1, list)
	return ora.Write(w, ora.Picture{
		Layers: []ora.Layer{
			{Name: "Notes", Image: above},
			{Name: "Two-tone", Image: hidden("two-tone"), Hidden: true},
			{Name: "Greys", Image: hidden("grey"), Hidden: true},
			{Name: "Picture", Image: imageOf(p)},
		},
		Merged: merged,
		Small:  Paint(paper, "colour", shownW, shownH, look),
	}, WritePNG)
}

// WriteJSON writes what is known of a still, and its notes, as one JSON object: the fields of
// still.json, and "notes" as in notes.json.
func WriteJSON(w io.Writer, meta Meta, list []notes.Note) error {
	fields, err := fieldsOf(meta)
	if err != nil {
		return err
	}
	text, err := json.Marshal(append([]notes.Note{}, list...))
	if err != nil {
		return err
	}
	fields["notes"] = text
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(fields)
}
