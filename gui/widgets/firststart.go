package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/icons"
)

// Way is a way to begin: a large button of two lines.
type Way struct {
	Icon        icons.Name
	Words, Note string
	Brief       string // the note where there is too little room for it; "" for none
	Do          func()
}

// FirstStart stands in place of the picture while nothing was chosen to watch: a question, the ways
// to answer it, and a link to something to try it all on. In large text they scroll.
type FirstStart struct {
	drawn
	rows   *startRows
	back   *canvas.Rectangle
	scroll *container.Scroll
}

// NewFirstStart returns one.
func NewFirstStart(title string, ways []Way, link [2]string, look func(), keys Keys) *FirstStart {
	f := &FirstStart{rows: newStartRows(title, ways, link, look, keys)}
	f.back, f.scroll = f.addBox(), add(&f.drawn, container.NewVScroll(f.rows))
	f.draw(f)
	return f
}

// Cells are the ways and the link, for those who look for them.
func (f *FirstStart) Cells() (cells []Cell) {
	add := func(words string, part fyne.CanvasObject) {
		cells = append(cells, Cell{Words: words, Part: part, At: fyne.CurrentApp().Driver().AbsolutePositionForObject(part)})
	}
	for _, w := range f.rows.ways {
		add(w.way.Words, w)
	}
	add(f.rows.link.words[0], f.rows.link)
	return cells
}

func (f *FirstStart) write(_ fyne.Size, of colours) { fill(f.back, of(theme.ColorNameInputBackground)) }

func (f *FirstStart) place(size fyne.Size) {
	f.back.Resize(size)
	f.scroll.Resize(size)
}

// minSize asks for nothing: it has the picture's room.
func (f *FirstStart) minSize() (none fyne.Size) { return none }

// startRows are the question, the ways and the link below each other.
type startRows struct {
	drawn
	title string
	ways  []*wayButton
	link  *Link
	text  *canvas.Text
}

func newStartRows(title string, ways []Way, link [2]string, look func(), keys Keys) *startRows {
	f := &startRows{title: title, link: NewLink(link, keys, look)}
	f.text = f.addText(SentenceSize, fyne.TextStyle{})
	for _, w := range ways {
		f.ways = append(f.ways, add(&f.drawn, newWayButton(w, keys)))
	}
	add(&f.drawn, f.link)
	f.draw(f)
	return f
}

func (f *startRows) write(size fyne.Size, of colours) {
	f.text.TextSize = fittingSize(f.title, SentenceSize(), size.Width-2*Step)
	say(f.text, f.title, of(ColorNameFocusLine))
	_, _, asks := f.heights(size)
	show(f.text, asks)
}

// heights returns how high a way is in a size, how high all is, and whether the question has room: it has
// while a pen can hit the ways below it.
func (f *startRows) heights(size fyne.Size) (way, all float32, asks bool) {
	n, link := float32(len(f.ways)), f.link.MinSize().Height
	question := fyne.MeasureText(f.title, SentenceSize(), fyne.TextStyle{}).Height + Step
	if asks = n*(Row()+leastGap)+leastGap+link+question <= size.Height; !asks {
		question = 0
	}
	gap := f.gap(size.Height - question)
	way = max(min(wayHigh(), (size.Height-question-link-gap)/n-gap), Row())
	return way, question + n*(way+gap) + link, asks
}

// gap is between two ways in a height, and above the first: less where they would else be too low for two
// lines.
func (f *startRows) gap(height float32) float32 {
	n := float32(len(f.ways))
	if n*wayHigh()+(n+1)*Step+f.link.MinSize().Height <= height {
		return Step
	}
	return leastGap
}

// place centres everything; where there is too little room the question goes.
func (f *startRows) place(size fyne.Size) {
	text, link := f.text.MinSize(), f.link.MinSize()
	wide := float32(0)
	for _, w := range f.ways {
		wide = max(wide, w.MinSize().Width)
	}
	wide = min(max(wide, size.Width*0.82), size.Width-2*Step, 45*Step)
	high, all, asks := f.heights(size)
	question := float32(0)
	if asks {
		question = text.Height + Step
	}
	gap := f.gap(size.Height - question)
	y := max((size.Height-all)/2, gap)
	placeText(f.text, (size.Width-text.Width)/2, y)
	y += question
	for _, w := range f.ways {
		put(w, fyne.NewPos((size.Width-wide)/2, y), fyne.NewSize(wide, high))
		y += high + gap
	}
	link.Width = min(link.Width, size.Width-2*Step)
	put(f.link, fyne.NewPos((size.Width-link.Width)/2, y), link)
}

// minSize has room for the ways, as low as a pen can hit them.
func (f *startRows) minSize() fyne.Size {
	n := float32(len(f.ways))
	return fyne.NewSize(0, n*(Row()+Step)+f.link.MinSize().Height)
}

// wayButton is a large button of two lines.
type wayButton struct {
	drawn
	explained
	way        Way
	back, line *canvas.Rectangle
	icon       *canvas.Image
	words      *canvas.Text
	note       *canvas.Text
}

func newWayButton(way Way, keys Keys) *wayButton {
	b := &wayButton{way: way}
	b.focus = focus{keys: keys, owner: b, changed: b.redraw}
	b.back, b.icon = add(&b.drawn, newPanelBox()), b.addIcon()
	b.words, b.note = b.addText(TextSize, fyne.TextStyle{}), b.addText(SmallSize, fyne.TextStyle{})
	b.line = add(&b.drawn, newFocusLine(Radius+FocusGap))
	b.draw(b)
	return b
}

// wayHigh is the height of the button.
func wayHigh() float32 { return round(1.5 * Row()) }

// Tapped presses it.
func (b *wayButton) Tapped(*fyne.PointEvent) { b.way.Do() }

// TypedKey presses it with Space and Enter.
func (b *wayButton) TypedKey(e *fyne.KeyEvent) {
	if presses(e) {
		b.way.Do()
	} else {
		b.keys.TypedKey(e.Name)
	}
}

func (b *wayButton) write(size fyne.Size, of colours) {
	ground, quiet := ColorNameRaised, ColorNameQuietRaised
	if b.pointed {
		ground, quiet = ColorNamePointed, theme.ColorNameForeground
	}
	fillEdged(b.back, ground, of)
	picture(b.icon, b.way.Icon, theme.ColorNameForeground)
	b.words.TextSize = TextSize()
	if room := size.Width - wayWords() - Step; room > 0 {
		b.words.TextSize = fittingSize(b.way.Words, TextSize(), room)
	}
	say(b.words, b.way.Words, of(theme.ColorNameForeground))
	note := ""
	if lines := b.words.MinSize().Height + noteLine(); lines <= size.Height {
		note = longestFitting(size.Width-wayWords()-Step, SmallSize(), b.way.Note, b.way.Brief)
	}
	say(b.note, note, of(quiet))
	showFocus(b.line, b.focused, of)
}

// wayIcon is a pictogram's side at the first start.
func wayIcon() float32 { return round(IconSize() * 1.2) }

// wayWords is where the words of a way begin.
func wayWords() float32 { return 3*Step + wayIcon() }

func (b *wayButton) place(size fyne.Size) {
	b.back.Resize(size)
	putAround(b.line, fyne.Position{}, size)
	icon := wayIcon()
	put(b.icon, fyne.NewPos(1.5*Step, (size.Height-icon)/2), fyne.NewSquareSize(icon))
	x, words, note := wayWords(), b.words.MinSize().Height, noteLine()
	if b.note.Text == "" {
		note = 0
	}
	placeText(b.words, x, (size.Height-words-note)/2)
	placeText(b.note, x, (size.Height-words-note)/2+words)
}

func (b *wayButton) minSize() fyne.Size {
	return fyne.NewSize(4.5*Step+wayIcon()+max(b.words.MinSize().Width, smallWidth(b.way.Note)), wayHigh())
}
