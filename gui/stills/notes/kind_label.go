package notes

import "app.tonedesk/gui/stills/ink"

// Label is text on the picture: the note's text.
type Label struct {
	At   ink.Point `json:"at"`   // left end of the first line's foot
	Size float64   `json:"size"` // of its letters, in still pixels
}

func (l Label) Moved(way ink.Point) Shape {
	l.At = l.At.Plus(way)
	return l
}

func (l Label) fine() bool { return l.At.Fine() && fineWidth(l.Size) }

func (l Label) draw(p *pen, text string) {
	if !p.worded {
		text = ""
	}
	b := p.lay(text, p.at(l.At), l.Size*p.view.Scale)
	if text != "" {
		p.text(b.words, b.at, b.size)
	}
	if p.counted > 0 { // beside the first line, at the height of its middle
		_, high := p.badge()
		p.disc(b.at.Plus(ink.Pt(-p.beforeWords(b.size), high/2-0.36*b.size)))
	}
}
