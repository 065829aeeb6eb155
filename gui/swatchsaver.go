package gui

import (
	"encoding/json"
	"io"
	"path/filepath"
	"strings"

	"app.tonedesk/analysis/swatches"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/wording"
)

// swatchFormats are the ways to write colours down, by the ending of the file.
var swatchFormats = map[string]func(io.Writer, []swatches.Row, any) error{
	".png":  func(w io.Writer, rows []swatches.Row, _ any) error { return swatches.WritePNG(w, rows) },
	".css":  func(w io.Writer, rows []swatches.Row, _ any) error { return swatches.WriteCSS(w, rows) },
	".txt":  func(w io.Writer, rows []swatches.Row, _ any) error { return swatches.WriteText(w, rows) },
	".hex":  func(w io.Writer, rows []swatches.Row, _ any) error { return swatches.WriteHex(w, rows) },
	".json": func(w io.Writer, _ []swatches.Row, all any) error { return json.NewEncoder(w).Encode(all) },
}

// askSwatches lets the painter choose a file for colours; its ending says how they are
// written. all is what JSON holds.
func (s *fileSaver) askSwatches(rows []swatches.Row, all any, name string) {
	s.ask("save the colours", name+".png", []string{".png", ".css", ".json", ".txt", ".hex"}, func(path string) {
		s.saveSwatches(path, rows, all)
	})
}

// saveSwatches writes colours to a file with one of the endings. The painter has agreed to
// writing over one that is there.
func (s *fileSaver) saveSwatches(path string, rows []swatches.Row, all any) {
	write := swatchFormats[strings.ToLower(filepath.Ext(path))]
	err := files.Create(path, true, func(w io.Writer) error { return write(w, rows, all) })
	if err != nil {
		s.Messages.Note(wording.ExplainWriting("save "+wording.Quote(path), err))
		return
	}
	s.Messages.Note("Saved as " + filepath.Base(path) + ".")
}
