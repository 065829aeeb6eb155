package widgets

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/wording"
)

// menuRows lays the rows of a menu below each other; what is in one shares its width evenly, where
// that is too little as each needs it, and else stands in lines of fewer.
type menuRows struct {
	counts  []int   // of the parts in each
	columns []int   // most that stand beside each other
	width   float32 // that there is
}

// Layout puts the rows below each other.
func (r *menuRows) Layout(o []fyne.CanvasObject, size fyne.Size) {
	r.flow(o, size.Width, func(p fyne.CanvasObject, at fyne.Position, size fyne.Size) { put(p, at, size) })
}

// MinSize is as high as the width of now asks for.
func (r *menuRows) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(0, r.flow(o, r.width, nil))
}

// wanted is the width in which nothing has to stand below what could stand beside it.
func (r *menuRows) wanted(o []fyne.CanvasObject) (width float32) {
	r.each(o, func(parts []fyne.CanvasObject, columns int) {
		each := float32(0)
		for _, p := range parts {
			if p, ok := p.(*Preview); ok {
				each = max(each, p.wide())
			}
		}
		width = max(width, float32(math.Ceil(float64(each)))*float32(columns), sumOfWidths(parts, columns))
	})
	return width
}

// flow hands over where each part lies in a width, and returns how high all are.
func (r *menuRows) flow(o []fyne.CanvasObject, width float32, do func(p fyne.CanvasObject, at fyne.Position, size fyne.Size)) (y float32) {
	r.each(o, func(parts []fyne.CanvasObject, columns int) {
		least := largest(parts)
		if least.Width*float32(columns) > width && len(parts) == columns && sumOfWidths(parts, columns) <= width {
			spare, x := float32(int((width-sumOfWidths(parts, columns))/float32(columns))), float32(0)
			for _, p := range parts {
				w := float32(math.Ceil(float64(p.MinSize().Width))) + spare
				if do != nil {
					do(p, fyne.NewPos(x, y), fyne.NewSize(w, least.Height))
				}
				x += w
			}
			y += least.Height
			return
		}
		if least.Width > 0 {
			columns = max(1, min(columns, int(width/least.Width)))
		}
		cell := fyne.NewSize(float32(int(width/float32(columns))), least.Height)
		for i, p := range parts {
			if do != nil {
				do(p, fyne.NewPos(cell.Width*float32(i%columns), y+cell.Height*float32(i/columns)), cell)
			}
		}
		y += cell.Height * float32((len(parts)+columns-1)/columns)
	})
	return y
}

// largest is the least size in which each of the parts has room.
func largest(parts []fyne.CanvasObject) (size fyne.Size) {
	for _, p := range parts {
		size = size.Max(p.MinSize())
	}
	return size
}

// sumOfWidths is the least width in which all parts stand beside each other, each as wide as it needs;
// 0 where they are to stand in lines of fewer.
func sumOfWidths(parts []fyne.CanvasObject, columns int) (width float32) {
	if len(parts) > columns {
		return 0
	}
	for _, p := range parts {
		width += float32(math.Ceil(float64(p.MinSize().Width)))
	}
	return width
}

// each hands over the parts of every row.
func (r *menuRows) each(o []fyne.CanvasObject, do func(parts []fyne.CanvasObject, columns int)) {
	for i, n := range r.counts {
		if n > len(o) {
			return
		}
		do(o[:n], r.columns[i])
		o = o[n:]
	}
}

// menuRule is a line between groups of a menu.
type menuRule struct {
	drawn
	line *canvas.Rectangle
}

func newMenuRule() *menuRule {
	r := &menuRule{}
	r.line = r.addBox()
	r.least = fyne.NewSize(0, Step+1)
	r.draw(r)
	return r
}

func (r *menuRule) write(_ fyne.Size, of colours) { fill(r.line, of(ColorNameRule)) }
func (r *menuRule) place(size fyne.Size) {
	put(r.line, fyne.NewPos(-menuInset, Step/2), fyne.NewSize(size.Width+2*menuInset, 1))
}

// menuHeading names a group of a menu.
type menuHeading struct {
	drawn
	words string
	text  *canvas.Text
}

func newMenuHeading(words string) *menuHeading {
	h := &menuHeading{words: words}
	h.text = h.addText(TextSize, fyne.TextStyle{Bold: true})
	h.draw(h)
	return h
}

func (h *menuHeading) write(_ fyne.Size, of colours) { say(h.text, h.words, of(ColorNameQuiet)) }
func (h *menuHeading) minSize() fyne.Size {
	return fyne.NewSize(h.text.MinSize().Width+2*entrySide, round(Row()*5/8))
}
func (h *menuHeading) place(size fyne.Size) {
	placeText(h.text, entrySide, (size.Height-h.text.MinSize().Height)/2)
}

// menuNote is what stands quiet at the right end of a row.
type menuNote struct {
	*EndWords
	words string // while nothing at hand says more
}

// inset keeps it off the menu's side.
func (n menuNote) inset() fyne.CanvasObject {
	return container.New(layout.NewCustomPaddedLayout(0, 0, 0, entrySide), n.EndWords)
}

// menuEntry is an item of a menu as a row, or as a part of one.
type menuEntry struct {
	drawn
	is      MenuItem
	menu    *Menu
	index   int
	beside  bool // another is left of it
	pointed bool

	back, rule  *canvas.Rectangle
	picture     *canvas.Image
	words, keys *canvas.Text
}

func newMenuEntry(is MenuItem, m *Menu, index int, beside bool) *menuEntry {
	e := &menuEntry{is: is, menu: m, index: index, beside: beside}
	e.back, e.rule = add(&e.drawn, newPanelBox()), e.addBox()
	e.picture, e.words, e.keys = e.addIcon(), e.addText(TextSize, fyne.TextStyle{}), e.addText(TextSize, fyne.TextStyle{})
	e.draw(e)
	return e
}

func (e *menuEntry) item() *MenuItem { return &e.is }
func (e *menuEntry) point(on bool) {
	e.pointed = on
	e.redraw()
}

// Tapped chooses it.
func (e *menuEntry) Tapped(*fyne.PointEvent) { e.menu.choose(e.index) }

// MouseIn raises it.
func (e *menuEntry) MouseIn(*desktop.MouseEvent) { e.menu.point(e.index) }

// MouseMoved has nothing to do.
func (e *menuEntry) MouseMoved(*desktop.MouseEvent) {}

// MouseOut lets go of it.
func (e *menuEntry) MouseOut() { e.menu.point(-1) }

// Lengths of an entry.
const (
	entrySide = 1.25 * Step // left of the pictogram, and right of the keys
	entryGap  = 2 * Step    // at least, between words and keys
)

// begin is where the words begin: beside another a row without a pictogram keeps no room for one.
func (e *menuEntry) begin(beside bool) float32 {
	if beside && e.is.Icon == "" && !e.is.On {
		return entrySide
	}
	return entrySide + SmallIcon() + 1.5*Step
}

func (e *menuEntry) write(size fyne.Size, of colours) {
	fill(e.back, of(ColorNamePointed))
	show(e.back, e.pointed)
	fill(e.rule, of(ColorNameRule))
	show(e.rule, e.isBeside() && !e.pointed)
	icon, quiet := e.is.Icon, ColorNameQuiet
	if e.is.On {
		icon = icons.Check
	}
	if e.pointed {
		quiet = theme.ColorNameForeground // quiet words would be too faint on what is raised
	}
	picture(e.picture, icon, theme.ColorNameForeground)
	keys, room := wording.SayKeys(e.is.Keys), size.Width-e.begin(e.isBeside())-entrySide
	e.words.TextSize, e.keys.TextSize = TextSize(), TextSize()
	if size.Width > 0 {
		e.words.TextSize, e.keys.TextSize = entrySizes(e.is.Words, keys, room)
		if e.keys.TextSize == 0 { // the list of keys has them
			keys = ""
		}
	}
	say(e.words, e.is.Words, of(theme.ColorNameForeground))
	say(e.keys, keys, of(quiet))
}

// entrySizes returns in how large letters words and keys stand beside each other in a room: where it is
// too little for both, keys in smaller ones, then words too, none under the plain size; else the words
// alone, and 0 for the keys.
func entrySizes(words, keys string, room float32) (ofWords, ofKeys float32) {
	plain, all := TextSize()/textScale(), TextSize()
	if keys == "" {
		return fittingSize(words, all, room), 0
	}
	for ofWords = all; ofWords >= plain; ofWords-- {
		left := room - Step - plainWidth(words, ofWords)
		if ofKeys = fittingSize(keys, all, max(left, 1)); ofKeys >= plain {
			return ofWords, min(ofKeys, ofWords)
		}
	}
	return fittingSize(words, all, room), 0
}

// isBeside reports whether it lies beside another: where there is too little room it has its own line.
func (e *menuEntry) isBeside() bool { return e.beside && e.Position().X > 0 }

func (e *menuEntry) minSize() fyne.Size {
	w := e.begin(e.beside) + textWidth(e.is.Words) + entrySide
	if e.is.Keys != "" {
		w += entryGap + textWidth(wording.SayKeys(e.is.Keys))
	}
	return fyne.NewSize(w, Row())
}

func (e *menuEntry) place(size fyne.Size) {
	e.back.Resize(size)
	put(e.rule, fyne.NewPos(0, Step), fyne.NewSize(1, size.Height-2*Step))
	icon, text := SmallIcon(), e.words.MinSize()
	put(e.picture, fyne.NewPos(entrySide, (size.Height-icon)/2), fyne.NewSquareSize(icon))
	placeText(e.words, e.begin(e.isBeside()), (size.Height-text.Height)/2)
	keys := e.keys.MinSize()
	placeText(e.keys, size.Width-entrySide-keys.Width, (size.Height-keys.Height)/2)
}
