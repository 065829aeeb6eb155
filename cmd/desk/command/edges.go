package command

import (
	"image"
	"io"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/edges"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/wording"
)

// edgeReport is an edge between two colours, in a picture's pixels.
type edgeReport struct {
	Length    float64       `json:"length"` // share of the picture's width
	X         int           `json:"x"`      // a place on it, about in its middle
	Y         int           `json:"y"`
	Box       files.Rect    `json:"box"` // around it
	Darker    analysis.Spot `json:"darker"`
	Lighter   analysis.Spot `json:"lighter"`
	Tones     float64       `json:"tones"` // value of the lighter side minus value of the darker
	CIEDE2000 float64       `json:"ciede2000"`
}

// edgesReport is what is said of edges beside the lost ones.
type edgesReport struct {
	Options        edges.Options `json:"options"`
	HeldByLine     []edgeReport  `json:"held_by_line"`    // of one lightness, with a line between
	LightnessAlone []edgeReport  `json:"lightness_alone"` // of hardly more than one colour

	found *edges.Found
}

// setEdges takes over the edges that were found. Lists are never nil, so that JSON has arrays.
func (r *fileReport) setEdges(pixels analysis.Pixels, found *edges.Found) {
	of := func(k edges.Kind) []edgeReport {
		list := []edgeReport{}
		for _, e := range found.Of(k) {
			middle, box := found.At(&e, image.Pt(pixels.Width, pixels.Height))
			list = append(list, edgeReport{e.Length, middle.X, middle.Y, files.RectOf(box), analysis.SpotOf(e.Dark), analysis.SpotOf(e.Light), e.Tones, e.CIEDE2000})
		}
		return list
	}
	r.LostEdges = of(edges.Lost)
	r.Edges = edgesReport{edges.DefaultOptions(), of(edges.Lined), of(edges.Lightness), found}
}

// writeEdges prints what carries a picture's edges.
func (r fileReport) writeEdges(w io.Writer) {
	said := wording.SayEdges(r.Edges.found, wording.NamesIn{Groups: r.Groups, Found: r.found})
	labelled(w, "edges", wording.Stopped(said.Title))
	for _, line := range said.Lines {
		labelled(w, "", wording.Stopped(line))
	}
}
