package widgets

import "app.tonedesk/gui/language"

// Lengths of the table of spots at the text's plain size.
const (
	tableHead   = 3 * Step // above the rows
	tableFoot   = 7
	tableRows   = 5  // as many are seen at most
	tableLeast  = 2  // and as few where the page is low
	tableSwatch = 28 // width of a colour, and of its grey
	tableLetter = 14 // middle of the letter, from the left
	tableFirst  = 36 // left of the colours
	tableFigure = 38 // from the end of a column to that of the next
	tableFrom   = 44
	tableEnd    = 6 // from the end of the last column to the cross
)

// tablePlan is where everything lies in a row of the table. Where the width is too little the
// code goes, then the layer grey; only then the type gets smaller.
type tablePlan struct {
	scale    float32 // of the type
	hex      float32 // left; 0 for none
	ends     [4]float32
	layer    bool
	cross    float32 // left of its target
	letter   float32 // middle
	swatches float32 // left
}

// tableHeads are the columns' heads, and the widest figure each may hold.
var tableHeads = [4]struct {
	name   language.Words
	widest string
}{{"lightness", "100.0"}, {"value¦head of a column", "10.0"}, {"layer", "255"}, {"from A", "−10.0"}}

// planTable lays a row out.
func planTable(width, scale float32, measure measured) tablePlan {
	for s := scale; ; s -= 0.05 {
		for _, with := range [][2]bool{{true, true}, {false, true}, {false, false}} {
			p := tryTable(width, s, with[1], measure)
			if with[0] {
				p.hex = p.swatches + 2*tableSwatch + Step
			}
			if s < 0.5 || p.fits(with[0], measure) {
				return p
			}
		}
	}
}

// tryTable places the columns from the right, whether they have room or not. Each is as wide as its head.
func tryTable(width, scale float32, layer bool, measure measured) tablePlan {
	wide := func(column int, least float32) float32 {
		return max(least*scale, measure(tableHeads[column].name.String(), 12*scale)+wordsApart)
	}

	p := tablePlan{scale: scale, layer: layer, letter: tableLetter + Step, swatches: tableFirst}
	p.cross = width - Step/4 - Row()
	p.ends[3] = p.cross - tableEnd*scale
	p.ends[2] = p.ends[3] - wide(3, tableFrom)
	p.ends[1] = p.ends[2]
	if layer {
		p.ends[1] -= wide(2, tableFigure)
	}
	p.ends[0] = p.ends[1] - wide(1, tableFigure)
	return p
}

// fits reports whether nothing lies on anything else.
func (p tablePlan) fits(hex bool, measure measured) bool {
	left := p.swatches + 2*tableSwatch + Step
	if left > p.ends[0] {
		return false // whatever the words measure
	}
	if hex {
		left += measure("#dddddd", 12*p.scale) + Step
	}
	return left <= p.ends[0]-measure(tableHeads[0].widest, 13*p.scale) && p.swatches <= p.ends[0]-measure(tableHeads[0].name.String(), 12*p.scale)
}
