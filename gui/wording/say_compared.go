package wording

import (
	"app.tonedesk/analysis"
	"app.tonedesk/gui/stills"
)

// Names of the two pictures that are compared, in a corner of each.
const (
	PictureBefore = "before"
	PictureNow    = "now"
)

// Compared is what was found out about a picture and one from before.
type Compared struct {
	With    string           // name of the picture from before
	Change  *analysis.Change // nil as long as nothing was found
	Aligned stills.Aligned
	AsMap   bool // the change is shown as a map
}

// SayCompared says what changed from the picture before to the one of now.
func SayCompared(c Compared) string {
	if c.Change == nil {
		return "Comparing with " + c.With + "."
	}
	words := "Compared with " + c.With + ": " + SayChange(c.Change) + ". On average " + SayTones(c.Change.Distance) + " moved."
	if how := SayAlignment(c.Aligned); how != "" {
		words += " " + how + "."
	}
	if c.AsMap {
		words += " In the map middle grey is no change, black " + Whole(c.Change.Span()) + Nbsp + "tones darker and more, white as much lighter."
	}
	if c.Aligned.How == stills.ByPosition && !c.AsMap {
		words += " Where there is no picture from before, that of now shows."
	}
	return words
}

// MapFigures returns what stands at the ends and in the middle of a map's scale.
func MapFigures(span float64) [3]string {
	return [3]string{minus + Whole(span), "0", "+" + Whole(span) + Nbsp + "tones"}
}
