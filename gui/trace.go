package gui

import (
	"encoding/json"
	"fmt"
	"image"
	"io"
	"strings"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/live"
)

// trace writes a line of JSON for all that the window shows, for tests that look at the
// built program from outside. It holds figures, no pixels.
type trace struct{ w io.Writer }

type traceLine struct {
	Event    string           `json:"event"` // "state" or "shown"
	State    string           `json:"state"`
	Frozen   bool             `json:"frozen"`
	Line     string           `json:"line"`
	Strip    string           `json:"strip"`
	Bounds   image.Rectangle  `json:"bounds"`
	Mirror   [4]float32       `json:"mirror"` // where the picture lies in the window, display pixels: x, y, width, height
	Part     image.Rectangle  `json:"part"`   // of the picture that the mirror shows
	View     string           `json:"view"`
	Sentence string           `json:"sentence"`
	Spots    []analysis.Spot  `json:"spots"`
	Moved    []bool           `json:"moved"`
	Groups   []analysis.Group `json:"groups"`
	Counted  int              `json:"counted"`
	Page     string           `json:"page"`
	Families []tracedFamily   `json:"families"` // by hand first, then found
	Target   string           `json:"target"`
	Spread   [4]float32       `json:"spread"` // the same
	Still    *tracedStill     `json:"still"`
	Tools    [2][4]float32    `json:"tools"` // both rows of tools
	Shelf    []string         `json:"shelf"` // IDs in sight
	Parts    [4]float32       `json:"parts"` // where the chooser of its parts lies
	Grid     [4]float32       `json:"grid"`  // where they lie
	Tabs     [4]float32       `json:"tabs"`  // where they lie in the window, display pixels: x, y, width, height
}

// tracedStill is the still that is open.
type tracedStill struct {
	ID    string   `json:"id"`
	Kinds []string `json:"kinds"` // of its notes, lowest first
	Tool  string   `json:"tool"`
}

// tracedFamily is a row of the list of families.
type tracedFamily struct {
	Light  string     `json:"light"`
	Shadow string     `json:"shadow"`
	Title  string     `json:"title"`
	Notes  []string   `json:"notes"`
	Box    [4]float32 `json:"box"` // as tabs
}

func (t trace) state(d *Desk) { t.write(d, traceLine{Event: "state"}) }

func (t trace) shown(d *Desk, s *live.Shown) {
	if t.w == nil {
		return
	}
	t.write(d, traceLine{Event: "shown", Groups: s.Reading.Chosen().Groups(), Counted: s.Reading.Counted})
}

func (t trace) write(d *Desk, line traceLine) {
	if t.w == nil {
		return
	}
	line.State, line.Frozen = d.state().String(), d.frozen
	line.Line, line.Strip = d.parts.bar.Line(), d.parts.strip.Shown()
	line.Bounds, line.Part, line.View = d.bounds, d.parts.mirror.Fit().Bounds, d.settings.View
	line.Sentence = d.parts.verdict.Text().Title
	line.Mirror, line.Page, line.Tabs = d.mirrorBox(), d.settings.Page, d.boxOf(d.parts.tabs)
	line.Spread = d.boxOf(d.parts.spread)
	d.traceStills(&line)
	if p, ok := d.page().(*structurePage); ok {
		line.Target = p.target.words.Text
		for _, row := range p.families.rows {
			if !row.Hidden {
				line.Families = append(line.Families, tracedFamily{row.Text().Light.Hex(), row.Text().Shadow.Hex(), row.Text().Tones + ": " + row.Text().Says, row.Text().Remarks, d.boxOf(row)})
			}
		}
	}
	for i, s := range d.spots {
		line.Spots = append(line.Spots, s.Spot)
		line.Moved = append(line.Moved, i < len(d.setup.Places) && d.setup.Places[i].Moved)
	}
	if data, err := json.Marshal(line); err == nil {
		_, _ = t.w.Write(append(data, '\n')) // a test that doesn't listen is no trouble of the painter's
	}
}

// traceStills adds what the page of stills shows.
func (d *Desk) traceStills(line *traceLine) {
	p, ok := d.page().(*stillsPage)
	if !ok {
		return
	}
	line.Tools = [2][4]float32{d.boxOf(p.tools.rows[0]), d.boxOf(p.tools.rows[1])}
	line.Grid, line.Parts = d.boxOf(p.shelf.grid), d.boxOf(p.parts)
	for _, e := range p.shelf.shown {
		line.Shelf = append(line.Shelf, e.ID)
	}
	if d.still == nil {
		return
	}
	line.Still = &tracedStill{ID: d.still.ID, Tool: noteTools()[d.pen.tool].name, Kinds: []string{}}
	for _, n := range d.still.list.All() {
		line.Still.Kinds = append(line.Still.Kinds, strings.ToLower(strings.TrimPrefix(fmt.Sprintf("%T", n.Shape), "notes.")))
	}
}

// boxOf is where a part lies in the window, in display pixels.
func (d *Desk) boxOf(o fyne.CanvasObject) [4]float32 {
	at, scale := d.app.Driver().AbsolutePositionForObject(o), d.parts.mirror.Scale()
	return [4]float32{at.X * scale, at.Y * scale, o.Size().Width * scale, o.Size().Height * scale}
}

// mirrorBox is where the picture lies in the window, in display pixels.
func (d *Desk) mirrorBox() [4]float32 {
	m := d.parts.mirror
	at := d.app.Driver().AbsolutePositionForObject(m).Add(m.Fit().Pos)
	scale := m.Scale()
	return [4]float32{at.X * scale, at.Y * scale, m.Fit().Size.Width * scale, m.Fit().Size.Height * scale}
}
