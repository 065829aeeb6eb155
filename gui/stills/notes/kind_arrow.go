package notes

// Arrow is a straight arrow.
type Arrow struct {
	From  Point   `json:"from"`
	To    Point   `json:"to"`    // its tip
	Width float64 `json:"width"` // of its light core, in still pixels
}

// The head's barbs: how long they are in line widths, besides a least length in pixels of
// what is drawn on, and how far they are turned from the shaft.
const (
	barbWidths = 4
	barbLeast  = 7
	barbTurn   = 0.5 // radians
)

func (a Arrow) Moved(way Point) Shape {
	a.From, a.To = a.From.Plus(way), a.To.Plus(way)
	return a
}

func (a Arrow) fine() bool { return a.From.Fine() && a.To.Fine() && fineWidth(a.Width) }

func (a Arrow) draw(p *pen, _ string) {
	from, to, width := p.at(a.From), p.at(a.To), p.width(a.Width)
	p.line([]Point{from, to}, false, width)
	if shaft := from.Minus(to); shaft.Length() > 0 {
		long := min(barbLeast*p.view.pixel()+barbWidths*width, 0.7*shaft.Length())
		back := shaft.Times(long / shaft.Length())
		p.line([]Point{to.Plus(back.Turned(barbTurn)), to, to.Plus(back.Turned(-barbTurn))}, false, width)
	}
	p.number(from)
}
