package widgets

import (
	"math"

	"fyne.io/fyne/v2"
)

// familyPlan is where everything lies in a row of a certain width.
type familyPlan struct {
	swatch fyne.Position // its top left
	side   float32       // width of each of the four
	tones  span          // beside the swatches; the share stands at its right
	says   span          // below that
	rest   span          // the first remark; the others follow below it
	cross  fyne.Position
}

// planFamily lays out a row: swatches and, beside them, the tones and the verdict; remarks
// go below, as wide as the row.
func planFamily(width float32) familyPlan {
	p := familyPlan{swatch: fyne.NewPos(Step, Step)}
	p.side = float32(int(min(width*0.36, 22*Step) / 4))
	left, right := Step+4*p.side+1.5*Step, width-Step
	p.tones = span{left, right - crossSize, Step + 2*Step}
	p.says = span{left, right, Step + 4.25*Step}
	p.cross = fyne.NewPos(right-crossSize+2, Step)
	p.rest = span{Step, right, Step + SwatchHeight + 1.75*Step}
	return p
}

// remarkLines are the remarks as they fit below the swatches of a row of this width, in as many
// lines as they need.
func (f *FamilyRow) remarkLines(width float32) []string {
	room := planFamily(width).rest.width()
	var lines []string
	for _, remark := range f.text.Remarks {
		lines = append(lines, brokenLines(remark, room, math.MaxInt, smallWidth)...)
	}
	if len(f.text.Lines) > 0 {
		lines = append(lines, lineOffer)
	}
	return lines
}

// lineOffer stands before the colours of lines that would fit.
const lineOffer = "a line that fits it:"

// lineSide is the side of such a colour, and the way from one to the next.
const (
	lineSide = 1.75 * Step
	lineStep = 2.25 * Step
)
