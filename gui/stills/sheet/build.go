package sheet

import (
	"image"
	"strconv"
	"strings"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/language"
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
	FamiliesLeft int    // how many more there are
	Painted      string // what painted areas measure; "" for none
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
	Number  int         // as it stands on the picture
	Colour  *colour.RGB // of a spot
	Grey    uint8       // beside it
	Text    string
	Reading string // at the right; "" for none
}

// New lays content out on a page.
func New(size Size, c Content) *Page {
	p := &Page{Width: size.W, Height: size.H}
	plan := planPage(size, float64(c.Picture.Rect.Dx())/float64(c.Picture.Rect.Dy()))
	p.heading(size, c)
	p.show(c.Picture, plan.picture, language.Say("Picture with notes"))
	p.show(c.Greys, plan.greys, language.Say("Greys of the same lightness"))
	p.show(c.Bands, plan.bands, language.Say("Bands of value"))
	p.fit(plan.spread.X, plan.spread.Y-1.2, plan.spread.W, c.Figures, bodyText, textGrey)
	if c.Histogram != nil {
		p.spread(plan.spread, c.Histogram, c.Shares)
	}
	p.lists(plan.columns, c)
	return p
}

// heading writes the title, what is said about it, and the foot.
func (p *Page) heading(size Size, c Content) {
	p.title(c.Title, size.W-2*margin)
	p.fit(margin, margin+titleText+5.5, size.W-2*margin, c.About, bodyText, quietGrey)
	p.fit(margin, size.H-margin+2, size.W-2*margin, c.Foot, smallText, quietGrey)
}

// title writes the painter's name of the picture: in smaller letters where it finds no room, and in two
// lines of them where it finds none so. What is longer still ends in an ellipsis.
func (p *Page) title(name string, width float64) {
	letters := ink.Letters{Face: ink.Bold, Size: titleText}
	if wide := ink.Width(ink.Bold, ink.Shown(name), letters.Size); wide > width {
		letters.Size *= max(width/wide, leastFit)
	}
	lines := letters.Wrap(name, width+0.01, 2)
	for i, line := range lines {
		p.head(margin, margin+titleText-float64(len(lines)-1-i)*1.2*letters.Size, line, letters.Size)
	}
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
	familyText = 6    // lines at most: more than our sentences have
	lineHigh   = 4.2
)

// noteLines are how many lines of one note are listed at most: all, or fewer, so that more notes
// are.
var noteLines = []int{1000, 24, 12, 6, 3}

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

// lists writes what the notes say and the families, with no more of long notes than leaves room
// for most.
func (p *Page) lists(columns []Box, c Content) {
	before, fewest, most := len(p.items), -1, 0
	for _, lines := range noteLines {
		notes, families := p.listed(columns, c, lines)
		p.items = p.items[:before]
		if left := notes + families; fewest < 0 || left < fewest { // less of a note is no gain by itself
			fewest, most = left, lines
		}
		if fewest == 0 {
			break
		}
	}
	notes, families := p.listed(columns, c, most)
	p.more(columns[len(columns)-1], notes, families+c.FamiliesLeft)
}

// listed writes the lists, each in a column of its own where there are two, with so many lines of
// one note at most. It returns how many notes and families are left.
func (p *Page) listed(columns []Box, c Content, lines int) (notes, families int) {
	f, width := &flow{columns: columns}, columns[0].W
	heads := 0
	if c.Painted != "" {
		heads = 1
	}
	notes = p.list(f, rows{language.Say("Notes"), heads + len(c.Notes), func(i int) row {
		if i < heads {
			return p.note(width, NoteRow{Text: c.Painted}, lines)
		}
		return p.note(width, c.Notes[i-heads], lines)
	}})
	if len(f.columns) == 2 && heads+len(c.Notes) > 0 {
		f.columns, f.y = f.columns[1:], 0
	}
	families = p.list(f, rows{language.Say("Local colours: light and shadow, over their greys"), len(c.Families),
		func(i int) row { return p.family(width, c.Families[i]) }})
	return min(notes, len(c.Notes)), families
}

// more says at the end of a column how much is left.
func (p *Page) more(end Box, notes, families int) {
	var left []string
	if notes > 0 {
		left = append(left, language.Count(notes, "%d more note", "%d more notes"))
	}
	if families > 0 {
		left = append(left, language.Count(families, "%d more local colour", "%d more local colours"))
	}
	if left != nil {
		p.say(end.X, end.bottom()-1, language.Say("and %s, not shown here", strings.Join(left, language.Say(" and "))), smallText, quietGrey)
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
	lines := letters(smallText).Wrap(f.Text, width-f.textRoom(), familyText)
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
	p.fit(x, b.Y+3.4, b.right()-x, f.Title, bodyText, textGrey)
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

// note lays out a note: its number on a disc as on the picture, a spot's colour and grey, its
// words, and at the right its reading: after them, or below where there is no room.
func (p *Page) note(width float64, n NoteRow, most int) row {
	room := width - n.textRoom()
	lines := letters(bodyText).Wrap(n.Text, room, most)
	last := lines[len(lines)-1]
	if n.Reading != "" && last != "" && ink.Width(ink.Regular, last+"  "+n.Reading, bodyText) > room {
		lines = append(lines, "")
	}
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
	foot := func(line int) float64 { return b.Y + 3.2 + lineHigh*float64(line) }
	for i, line := range lines {
		p.say(b.X+n.textRoom(), foot(i), line, bodyText, textGrey)
	}
	if n.Reading != "" {
		wide := ink.Width(ink.Regular, n.Reading, bodyText)
		p.say(b.right()-wide, foot(len(lines)-1), n.Reading, bodyText, textGrey)
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
