package export

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"app.tonedesk/gui/files"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/sheet"
)

// Export says what of a still is exported, beside what the file's ending tells.
type Export struct {
	Page    sheet.Size // of a sheet
	Picture bool       // as PNG: the picture with its notes, pixel for pixel, not the sheet
}

// sheetPixels is how finely a sheet is painted as a picture, in pixels a millimetre: 203 dots
// an inch.
const sheetPixels = 8

// write writes a still the way an ending of stills.Endings tells.
func (h Export) write(w io.Writer, ending string, s SheetSubject) error {
	switch ending {
	case ".pdf":
		pages, err := h.pages(s)
		if err != nil {
			return err
		}
		return pages.PDF(w, s.Title, s.Time)
	case ".ora":
		return stills.WriteORA(w, s.Picture, s.Options.Mask, s.Notes)
	case ".json":
		return stills.WriteJSON(w, s.meta(), s.Notes)
	}
	if h.Picture {
		return stills.WritePNG(w, stills.Annotated(s.Picture, s.Notes))
	}
	pages, err := h.pages(s)
	if err != nil {
		return err
	}
	return stills.WritePNG(w, pages.Image(sheetPixels))
}

// pages lays out the sheet, and behind it what else was found in the picture.
func (h Export) pages(s SheetSubject) (sheet.Pages, error) {
	c, err := SheetContent(s)
	if err != nil {
		return nil, err
	}
	parts, err := moreParts(s)
	if err != nil {
		return nil, err
	}
	return append(sheet.Pages{sheet.New(h.Page, c)}, sheet.More(h.Page, c, parts)...), nil
}

// Save writes a still to a file of the user's choice. The error wraps stills.ErrEnding, or is
// one of files.To.
func (h Export) Save(to files.To, s SheetSubject) error {
	ending, err := strings.ToLower(filepath.Ext(to.Path)), stills.ErrEnding
	if slices.Contains(stills.Endings(), ending) {
		err = to.Write(func(w io.Writer) error { return h.write(w, ending, s) })
	}
	if err != nil {
		return fmt.Errorf("export as %s: %w", to.Path, err)
	}
	return nil
}
