package command

import (
	"image"
	"io"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/focus"
	"app.tonedesk/gui/wording"
)

// focusReport is what is said of where a picture's contrast is strongest.
type focusReport struct {
	Options   focus.Options  `json:"options"`
	Radius    float64        `json:"radius"`    // of a place, pixels
	Strongest []focusPlace   `json:"strongest"` // the strongest first
	Marked    []markedReport `json:"marked"`    // the places of --focus, as they were given
	There     *bool          `json:"there"`     // whether the strongest contrast lies at one of them; null without any
	Lightest  *extremeReport `json:"lightest"`  // null where all of the picture is within half a tone
	Darkest   *extremeReport `json:"darkest"`

	found  *focus.Found
	answer focus.Answer
}

// focusPlace is a place with the contrast in it, in a picture's pixels.
type focusPlace struct {
	X         int                   `json:"x"`
	Y         int                   `json:"y"`
	Contrast  float64               `json:"contrast"`
	Share     float64               `json:"share"`              // of the strongest one's
	Lightness [focus.Scales]float64 `json:"lightness_contrast"` // at each scale, from fine to coarse
	Chroma    [focus.Scales]float64 `json:"chroma_contrast"`
	EdgeWidth *float64              `json:"edge_width"` // share of the picture's longer side; null without an edge
	Darker    analysis.Spot         `json:"darker"`
	Lighter   analysis.Spot         `json:"lighter"`
}

// markedReport is a marked place, with the strongest one in its disc.
type markedReport struct {
	X         int        `json:"x"`
	Y         int        `json:"y"`
	Strongest focusPlace `json:"strongest"`
}

// extremeReport is the lightest light or the darkest dark.
type extremeReport struct {
	X      int           `json:"x"`
	Y      int           `json:"y"`
	Colour analysis.Spot `json:"colour"`
	Alone  float64       `json:"alone_share"` // of it that lies together there
	Tones  float64       `json:"tones"`       // from what lies around it there
}

// focusIn holds the places of --focus against a picture. Its errors are sentences.
func (plan readPlan) focusIn(path string, pixels analysis.Pixels) error {
	for _, at := range plan.focus {
		if !at.In(pixels.Bounds()) {
			what := wording.Part("mark the place %d,%d in %s", at.X, at.Y, wording.Quote(path))
			return sentence(wording.Cannot(what, wording.Part("it lies outside of the picture, %d by %d pixels", pixels.Width, pixels.Height), "choose a place inside"))
		}
	}
	return nil
}

// setFocus takes over what was found of a picture's contrast. Lists are never nil, so that JSON has
// arrays.
func (r *fileReport) setFocus(pixels analysis.Pixels, found *focus.Found, marks []image.Point) {
	o, size := focus.DefaultOptions(), image.Pt(pixels.Width, pixels.Height)
	var at []focus.Mark
	for _, m := range marks {
		at = append(at, focus.MarkOf(m, size))
	}
	r.Focus = focusReport{Options: o, Radius: found.Radius() * float64(max(size.X, size.Y)), Strongest: []focusPlace{}, Marked: []markedReport{}, found: found, answer: found.Of(at)}
	most := 0.0
	for _, p := range found.Places {
		most = found.Places[0].Contrast
		r.Focus.Strongest = append(r.Focus.Strongest, focusPlaceOf(p, p.Contrast/most, size))
	}
	for i, m := range r.Focus.answer.Marks {
		r.Focus.Marked = append(r.Focus.Marked, markedReport{marks[i].X, marks[i].Y, focusPlaceOf(m.Place, m.Share, size)})
	}
	if len(marks) > 0 {
		r.Focus.There = &r.Focus.answer.There
	}
	r.Focus.Lightest, r.Focus.Darkest = extremeReportOf(found.Lightest, size), extremeReportOf(found.Darkest, size)
}

func focusPlaceOf(p focus.Place, share float64, size image.Point) focusPlace {
	at := p.At(size)
	return focusPlace{at.X, at.Y, p.Contrast, share, p.Lightness, p.Chroma, p.EdgeWidth, analysis.SpotOf(p.Darker), analysis.SpotOf(p.Lighter)}
}

func extremeReportOf(e *focus.Extreme, size image.Point) *extremeReport {
	if e == nil {
		return nil
	}
	at := e.At(size)
	return &extremeReport{at.X, at.Y, analysis.SpotOf(e.Colour), e.Alone, e.Tones}
}

// writeFocus prints where a picture's contrast is strongest.
func (r fileReport) writeFocus(w io.Writer) {
	said := wording.SayFocus(r.Focus.found, r.Focus.answer, wording.NamesIn{Groups: r.Groups, Found: r.found})
	labelled(w, "contrast", wording.Stopped(said.Title))
	for _, line := range said.Lines {
		labelled(w, "", wording.Stopped(line))
	}
}
