package gui

import (
	"encoding/json"
	"image"
	"io"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/pointer"
)

// trace writes a line of JSON for all that the window shows, for tests that look at the
// built program from outside. It holds figures, no pixels.
type trace struct {
	w       io.Writer
	counted int // of what was shown last
	groups  []analysis.Group
}

// traceAgain is when places are traced once more: the toolkit knows those of new parts only once it
// has drawn them.
const traceAgain = 100 * time.Millisecond

type traceLine struct {
	Event    string           `json:"event"` // "state" or "shown"
	State    string           `json:"state"`
	Frozen   bool             `json:"frozen"`
	Line     string           `json:"line"`
	Message  string           `json:"message"`
	Asks     string           `json:"asks"` // what the topmost dialog is about
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
	Light    []string         `json:"light"`    // words of its card
	Focus    []string         `json:"focus"`    // words of its card
	Target   string           `json:"target"`
	Words    []string         `json:"words"`  // of the card of groups
	Spread   [4]float32       `json:"spread"` // the same
	Still    *tracedStill     `json:"still"`
	Tools    [][4]float32     `json:"tools"`          // each tool, while they are shown
	Kept     []string         `json:"kept"`           // IDs in sight
	Compares string           `json:"compares"`       // ID of the still from before, "" for none
	Divided  float32          `json:"divided"`        // where the line between both lies, a share of the picture's width; 0 without one
	Grew     string           `json:"grew,omitempty"` // what is said first of how the picture grew
	Parts    [4]float32       `json:"parts"`          // where the chooser of its parts lies
	Grid     [4]float32       `json:"grid"`           // where they lie
	Menu     []tracedPlace    `json:"menu"`           // what can be chosen in the open menu, or at the first start
	Bar      []tracedPlace    `json:"bar"`            // buttons of the bar, of the strip, and of the open panel
	Places   []tracedPlace    `json:"places"`         // what can be pressed on the open page, as far as tests do
	Base     string           `json:"base"`           // code of the colour that others are proposed from
	Pointer  pointer.Told     `json:"pointer"`        // what is read under it
	Tabs     [4]float32       `json:"tabs"`           // where they lie in the window, display pixels: x, y, width, height
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

func (t *trace) state(d *Desk) { t.write(d, traceLine{Event: "state"}) }

func (t *trace) shown(d *Desk, s *live.Shown) {
	if t.w == nil {
		return
	}
	t.counted, t.groups = s.Reading.Counted, append(t.groups[:0], s.Reading.Chosen().Groups()...)
	t.write(d, traceLine{Event: "shown"})
}

func (t *trace) write(d *Desk, line traceLine) {
	if t.w == nil {
		return
	}
	line.Counted, line.Groups = t.counted, t.groups
	line.State, line.Frozen = d.state().String(), d.frozen
	line.Line, line.Message = d.parts.bar.Source.Text().State[1], d.parts.message.Text()
	line.Asks = d.Asks()
	line.Bounds, line.Part, line.View = d.last.bounds, d.Mirror.Fit().Bounds, d.settings.View
	line.Sentence = d.parts.sentence.Text().Title
	line.Mirror, line.Page, line.Tabs = d.boxIn(d.Mirror, d.Mirror.Fit().Pos, d.Mirror.Fit().Size), d.settings.Page, d.boxOf(d.parts.tabs)
	line.Spread = d.boxOf(d.parts.spread)
	line.Pointer = d.pointer.Told()
	line.Menu, line.Bar = tracedMenu(d), tracedBar(d)
	d.page().trace(&line)
	for i, s := range d.last.spots {
		line.Spots = append(line.Spots, s.Spot)
		line.Moved = append(line.Moved, i < len(d.setup.Places) && d.setup.Places[i].Moved)
	}
	if data, err := json.Marshal(line); err == nil {
		_, _ = t.w.Write(append(data, '\n')) // a test that doesn't listen is no trouble of the painter's
	}
}

// boxOf is where a part lies in the window, in display pixels.
func (d *Desk) boxOf(o fyne.CanvasObject) [4]float32 {
	return d.boxIn(o, fyne.Position{}, o.Size())
}

// boxIn is the same of what lies at a place of the part.
func (d *Desk) boxIn(o fyne.CanvasObject, pos fyne.Position, size fyne.Size) [4]float32 {
	at, scale := d.App.Driver().AbsolutePositionForObject(o).Add(pos), d.Mirror.Scale()
	return [4]float32{at.X * scale, at.Y * scale, size.Width * scale, size.Height * scale}
}
