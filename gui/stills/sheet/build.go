package sheet

import (
	"fmt"
	"image"
	"strconv"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/stills/ink"
)

// Content is what is laid out on a page. Lists that are empty are left away.
type Content struct {
	Title string
	About string // under the title: when, from where, how large
	Foot  string // what the figures assume

	Picture *image.RGBA // with its notes; opaque, like the others
	Greys   *image.RGBA
	Bands   *image.RGBA

	Histogram *[256]int // nil where nothing is measured
	Shares    []Share
	Figures   string // what the groups say, over the spread, or why there is none

	Families     []FamilyRow
	FamiliesLeft int // how many more there are
	Notes        []NoteRow
}

// FamilyRow is a family: its colours over their greys, and words.
type FamilyRow struct {
	Colours []colour.RGB // light, shadow, then what else there is
	Greys   []uint8
	Title   string
	Text    string
}

// NoteRow is what a note says.
type NoteRow struct {
	Number int         // as it stands on the picture; 0 for none
	Colour *colour.RGB // of a spot
	Grey   uint8       // beside it
	Text   string
}

// New lays content out on a page.
func New(size Size, c Content) *Page {
	p := &Page{Width: size.W, Height: size.H}
	plan := planPage(size, float64(c.Picture.Rect.Dx())/float64(c.Picture.Rect.Dy()))
	p.heading(size, c)
	p.show(c.Picture, plan.picture, "Picture with notes")
	p.show(c.Greys, plan.greys, "Greys of the same lightness")
	p.show(c.Bands, plan.bands, "Bands of value")
	p.say(plan.spread.X, plan.spread.Y-1.2, cut(c.Figures, bodyText, plan.spread.W), bodyText, textGrey)
	if c.Histogram != nil {
		p.spread(plan.spread, c.Histogram, c.Shares)
	}
	p.lists(plan.columns, c)
	return p
}

// heading writes the title, what is said about it, and the foot.
func (p *Page) heading(size Size, c Content) {
	p.head(margin, margin+titleText, cut(c.Title, titleText*1.1, size.W-2*margin), titleText)
	p.say(margin, margin+titleText+5.5, cut(c.About, bodyText, size.W-2*margin), bodyText, quietGrey)
	p.say(margin, size.H-margin+2, cut(c.Foot, smallText, size.W-2*margin), smallText, quietGrey)
}

// show puts a picture into a box, with its name above.
func (p *Page) show(img *image.RGBA, b Box, name string) {
	in := b.fit(img.Rect.Dx(), img.Rect.Dy())
	in.X, in.Y = b.X, b.Y
	p.say(in.X, in.Y-1.2, name, smallText, quietGrey)
	p.add(picture{in, img})
}

// flow fills columns from the top.
type flow struct {
	columns []Box
	y       float64
}

// room returns a box of a height in the columns; false if there is none left. Whatever
// stands after it in the same column needs rest more, in mm.
func (f *flow) room(high, rest float64) (Box, bool) {
	for len(f.columns) > 0 {
		c := f.columns[0]
		if at := c.Y + f.y; at+high+rest <= c.bottom() {
			f.y += high
			return Box{c.X, at, c.W, high}, true
		}
		f.columns, f.y = f.columns[1:], 0
	}
	return Box{}, false
}

// Heights of rows, in mm.
const (
	headHigh   = 6
	familyHigh = 12.5 // of one with up to two lines below its title
	smallHigh  = 3.3  // of each of these
	familyText = 3    // lines at most
	lineHigh   = 4.2
	noteLines  = 6 // at most, of one note
)

// rows are what a list consists of. Each is laid out when its turn comes: of very many there
// is no room for the last.
type rows struct {
	head string
	n    int
	row  func(i int) row
}

// row is one of them, laid out.
type row struct {
	high float64
	draw func(b Box)
}

// lists writes what the notes say and the families: each list in a column of its own where
// there are two.
func (p *Page) lists(columns []Box, c Content) {
	f, width := &flow{columns: columns}, columns[0].W
	left := p.list(f, rows{"Notes", len(c.Notes), func(i int) row { return p.note(width, c.Notes[i]) }})
	if len(f.columns) == 2 && len(c.Notes) > 0 {
		f.columns, f.y = f.columns[1:], 0
	}
	left += c.FamiliesLeft + p.list(f, rows{"Local colours: light and shadow, over their greys", len(c.Families),
		func(i int) row { return p.family(width, c.Families[i]) }})
	if end := columns[len(columns)-1]; left > 0 {
		p.say(end.X, end.bottom()-1, fmt.Sprintf("and %d more, for which there is no room here", left), smallText, quietGrey)
	}
}

// list writes rows under their head as long as there is room, and returns how many are left.
// Below them stays a line free, to say how many.
func (p *Page) list(f *flow, r rows) (left int) {
	for i := range r.n {
		row := r.row(i)
		if i == 0 {
			b, ok := f.room(headHigh, row.high+lineHigh)
			if !ok {
				return r.n
			}
			p.head(b.X, b.Y+4, r.head, bodyText)
		}
		b, ok := f.room(row.high, lineHigh)
		if !ok {
			return r.n - i
		}
		row.draw(b)
	}
	f.y += gap / 2
	return 0
}

// familySide and familyWide are the height and the width of a family's swatch, in mm.
const (
	familySide = 5.0
	familyWide = 7.0
)

// textRoom returns where a family's words begin in a column.
func (f FamilyRow) textRoom() float64 { return float64(max(len(f.Colours), 2))*familyWide + 3 }

// family lays out a family: colours with their greys right below, edge to edge, and words.
func (p *Page) family(width float64, f FamilyRow) row {
	lines := wrap(f.Text, smallText, width-f.textRoom(), familyText)
	high := familyHigh + smallHigh*float64(max(0, len(lines)-2))
	return row{high, func(b Box) { p.drawFamily(b, f, lines) }}
}

func (p *Page) drawFamily(b Box, f FamilyRow, lines []string) {
	for i, swatch := range f.Colours {
		x := b.X + float64(i)*familyWide
		p.add(fill{Box{x, b.Y, familyWide, familySide}, swatch})
		p.add(fill{Box{x, b.Y + familySide, familyWide, familySide}, neutral(f.Greys[i])})
	}
	p.frame(Box{b.X, b.Y, float64(len(f.Colours)) * familyWide, 2 * familySide})
	x := b.X + f.textRoom()
	p.say(x, b.Y+3.4, cut(f.Title, bodyText, b.right()-x), bodyText, textGrey)
	for i, line := range lines {
		p.say(x, b.Y+6.8+smallHigh*float64(i), line, smallText, quietGrey)
	}
}

// frame draws a thin line around swatches, so that white ones show on the page; none runs
// between them.
func (p *Page) frame(b Box) {
	corners := []ink.Point{ink.Pt(b.X, b.Y), ink.Pt(b.right(), b.Y), ink.Pt(b.right(), b.bottom()), ink.Pt(b.X, b.bottom())}
	for i, from := range corners {
		p.add(rule{from, corners[(i+1)%4], 0.15, lineGrey})
	}
}

// numberRoom is the width of a note's number, swatchSide that of a swatch beside it, in mm.
const (
	numberRoom = 7
	swatchSide = 3.4
)

// textRoom returns where a note's text begins in a column.
func (n NoteRow) textRoom() float64 {
	if n.Colour != nil {
		return numberRoom + 2*swatchSide + 2
	}
	return numberRoom
}

// note lays out a note: its number on a disc as on the picture, a spot's colour and grey, and
// its words.
func (p *Page) note(width float64, n NoteRow) row {
	lines := wrap(n.Text, bodyText, width-n.textRoom(), noteLines)
	return row{float64(len(lines))*lineHigh + 1, func(b Box) { p.drawNote(b, n, lines) }}
}

func (p *Page) drawNote(b Box, n NoteRow, lines []string) {
	if n.Number > 0 {
		p.number(ink.Pt(b.X+2.2, b.Y+2.1), n.Number)
	}
	if n.Colour != nil {
		x := b.X + numberRoom
		p.add(fill{Box{x, b.Y + 0.4, swatchSide, swatchSide}, *n.Colour})
		p.add(fill{Box{x + swatchSide, b.Y + 0.4, swatchSide, swatchSide}, neutral(n.Grey)})
		p.frame(Box{x, b.Y + 0.4, 2 * swatchSide, swatchSide})
	}
	for i, line := range lines {
		p.say(b.X+n.textRoom(), b.Y+3.2+lineHigh*float64(i), line, bodyText, textGrey)
	}
}

// number writes a number on a disc.
func (p *Page) number(at ink.Point, n int) {
	text := strconv.Itoa(n)
	half := max(0, ink.Width(ink.Bold, text, smallText)-smallText) / 2
	from, to := at.Minus(ink.Pt(half, 0)), at.Plus(ink.Pt(half, 0))
	p.add(rule{from, to, 4, textGrey})
	p.add(rule{from, to, 3.6, 255})
	p.add(words{ink.Pt(at.X-ink.Width(ink.Bold, text, smallText)/2, at.Y+0.36*smallText), text, smallText, ink.Bold, textGrey})
}
