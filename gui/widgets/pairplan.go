package widgets

import (
	"fyne.io/fyne/v2"

	"app.tonedesk/gui/language"
)

// pairLabels are the figures of the pair card, in order; the third has a shorter name, for where it
// would push the figures below the colours, and for a narrow card, which goes without the last two.
var pairLabels = [...]language.Words{"lightness", "value", "layer grey", "chroma", "hue"}

// Lengths of the pair card at the text's plain size.
const (
	pairWide    = 340 // from this width on all figures are shown
	pairColumn  = 8 * Step
	pairNarrow  = 7 * Step // a column's width on a narrow card
	pairHalf    = 44       // height of a colour, and of its grey
	pairLowHalf = 28       // the same where the page is low
	pairEnds    = 26       // above the colours for the letters, below the greys for the codes
	pairLowEnd  = 20       // the latter on a low card
	pairRow     = 18
	pairHeadRow = 15 // middle of the row of heads
	pairGap     = 2  // least between two columns of figures
	pairRight   = Step
	halfCapital = 4.5 // half the height of a capital letter
)

// pairPlan is where everything lies on a pair card.
type pairPlan struct {
	scale      float32 // of the type
	figures    int     // how many rows of figures there are
	short      bool    // a shorter name for one that has it
	column     float32 // width of a colour
	half       float32 // height of a colour
	end        float32 // height below the greys
	top        float32 // of the colours
	letters    float32 // baseline
	codes      float32 // baseline
	codeMiddle float32
	foot       float32 // where the columns end
	labels     float32 // left of the figures' names
	ends       [3]float32
	heads      float32   // baseline
	rows       []float32 // baselines
	remark     span      // nothing to say where it has no width
	height     float32
}

// label is the name of figure i.
func (p pairPlan) label(i int) string {
	if p.short && i == 2 {
		return language.Say("layer")
	}
	return pairLabels[i].String()
}

// measured gives the width of words in a size of type.
type measured func(words string, size float32) float32

// plainWidth measures plain letters.
func plainWidth(words string, size float32) float32 {
	return fyne.MeasureText(words, size, fyne.TextStyle{}).Width
}

// planPair lays a pair card out in a width, with text so much larger than its plain size; a low
// card spares height. The figures stand beside the colours where they have room, else below
// them, and there in smaller type if it has to be.
func planPair(width, scale float32, low bool, measure measured) pairPlan {
	wide := width >= pairWide
	p := pairPlan{scale: scale, figures: 3, column: pairNarrow, half: round(pairHalf * scale), end: round(pairEnds * scale)}
	if wide {
		p.column = pairColumn
		if !low {
			p.figures = len(pairLabels)
		}
	}
	if low {
		p.half, p.end = round(pairLowHalf*scale), round(pairLowEnd*scale)
	}
	p.column = max(p.column, round(measure("#dddddd", 12*scale)+4))
	left := 2*Step + 2*p.column
	if wide {
		left += Step
	}
	narrow := p.figures < len(pairLabels)
	p.short = narrow
	p.short = narrow || !p.fits(left, width, measure)
	if p.fits(left, width, measure) {
		p.besideSwatches(left, width, measure)
	} else {
		p.short = narrow
		p.belowSwatches(width, measure)
	}
	if wide && !low {
		p.remark.right = width - Step
	} else {
		p.remark = span{}
	}
	return p
}

// besideSwatches puts the figures right of the colours.
func (p *pairPlan) besideSwatches(left, width float32, measure measured) {
	p.swatches()
	p.height = p.foot
	s := p.scale
	p.table(left, width, pairHeadRow*s, (pairHeadRow+19)*s, measure)
	p.remark = span{left: left, baseline: p.codes}
}

// belowSwatches puts the figures below the colours, which take the whole width.
func (p *pairPlan) belowSwatches(width float32, measure measured) {
	p.column = float32(int((width - 2*Step) / 2))
	p.half = min(p.half, pairHalf)
	p.swatches()
	for p.scale > 0.5 && !p.fits(Step, width, measure) {
		p.scale -= 0.05
	}
	row := pairRow * p.scale
	p.table(Step, width, p.foot+row/2, p.foot+1.5*row, measure)
	end := p.foot + row*float32(1+p.figures)
	p.remark = span{left: Step, baseline: end + row/2 + halfCapital*p.scale}
	p.height = round(end + Step)
	if p.figures == len(pairLabels) {
		p.height += row
	}
}

// swatches places letters, colours and codes.
func (p *pairPlan) swatches() {
	p.top = round((pairEnds - 2) * p.scale)
	if p.end >= p.top {
		p.top = p.end
	}
	p.letters = p.top/2 + halfCapital*p.scale - 1
	p.foot = p.top + 2*p.half + p.end
	p.codeMiddle = p.foot - p.end/2
	p.codes = p.codeMiddle + halfCapital*p.scale
}

// table places the heads and the rows from the middles of the first two.
func (p *pairPlan) table(left, width, head, first float32, measure measured) {
	p.labels = left
	p.heads = head + halfCapital*p.scale
	p.rows = nil
	for i := range p.figures {
		p.rows = append(p.rows, first+float32(i)*pairRow*p.scale+halfCapital*p.scale)
	}
	label, figure, difference := p.widths(measure)
	gap := (width - pairRight - left - label - 2*figure - difference) / 3
	gap = min(gap, 4*Step*p.scale)
	p.ends[2] = width - pairRight
	p.ends[1] = p.ends[2] - difference - gap
	p.ends[0] = p.ends[1] - figure - gap
}

// widths are those of the columns: the names, a spot's figures, the differences. They hold the
// widest figure there may be, so that nothing moves when figures change.
func (p *pairPlan) widths(measure measured) (label, figure, difference float32) {
	size := 13 * p.scale
	for i := range p.figures {
		label = max(label, measure(p.label(i), 12*p.scale))
	}
	figure, difference = measure("100.0", size), measure("−100.0", size)
	if p.figures == len(pairLabels) {
		figure, difference = measure("359.9°", size), measure("−179.9°", size)
	}
	return label, figure, max(difference, measure("B − A", 12*p.scale))
}

// fits reports whether the figures have room from left on.
func (p *pairPlan) fits(left, width float32, measure measured) bool {
	label, figure, difference := p.widths(measure)
	return label+2*figure+difference+3*pairGap*p.scale <= width-pairRight-left
}
