package widgets

import (
	"fyne.io/fyne/v2"

	"app.tonedesk/gui/language"
)

// familyPlan is where everything lies in a local colour's row of a certain width.
type familyPlan struct {
	swatch  rect    // with its hairline
	side    float32 // width of each of the four
	high    float32 // and height
	first   span    // the tones and the verdict, up to accent and line
	bare    span    // the same where neither is told
	below   span    // the second line
	accent  rect
	line    rect
	share   span // at its right, or at its left in a stacked row
	keep    rect // its button, shown where the pointer or the focus is
	cross   rect
	stacked bool // too narrow for one line: accent, line and share stand on a third
	brief   bool // too narrow for the second line in full, of most rows
	height  float32
}

// Widths in a row.
const (
	familySide  = 28 // of a swatch
	familyWords = 68 // where words begin
	markWide    = 18 // of accent and of line, which are 14 high
	markHigh    = 14
	signApart   = Step / 2
	buttonsLow  = 3 // by how much the buttons stand out of the row's foot: the share is read above them
)

// planFamily lays out a row: swatches, the words beside them in two lines, accent and line, and the
// share at the right, below which the buttons stand while the row is pointed at.
func planFamily(width float32) familyPlan {
	s := textScale()
	wide, tall := round(markWide*s), round(markHigh*s)
	p := familyPlan{side: familySide, high: round(20 * s), height: round(44 * s)}
	p.swatch = rect{0, 1, 2*p.side + 2, 2*p.high + 2}
	marks := width - 2*Row() - 2*wide - Step
	p.first = span{familyWords, marks - Step/2, round(16.5 * s)}
	p.below = span{familyWords, width, round(34.5 * s)}
	p.brief = p.below.width() < smallWidth(language.Say("hue shift 44° toward magenta, 44 % richer"))
	low := p.height - Row() + buttonsLow
	p.keep, p.cross = rect{width - 2*Row(), low, Row(), Row()}, rect{width - Row(), low, Row(), Row()}
	p.share = span{width - 2*Row(), width, p.first.baseline}
	p.bare = span{p.first.left, p.share.left, p.first.baseline}
	y := round(12*s - tall/2)
	verdict := max(textWidth(language.Say("strong")), textWidth(language.Say("reads")))
	if p.first.width() < textWidth(language.Say("2.5 tones"))+Step+verdict {
		p.stacked, p.height = true, round(64*s)
		marks, y = familyWords, round(50*s-tall/2)
		p.first.right, p.bare.right = width, width
		p.share = span{marks + 2*wide + Step/2 + Step, width, round(54.5 * s)}
		p.keep.y, p.cross.y = p.height-Row()+Step/2, p.height-Row()+Step/2
	}
	p.accent, p.line = rect{marks, y, wide, tall}, rect{marks + wide + Step/2, y, wide, tall}
	return p
}

// holds reports whether a point lies in a rect.
func (r rect) holds(p fyne.Position) bool {
	return p.X >= r.x && p.X < r.x+r.w && p.Y >= r.y && p.Y < r.y+r.h
}
