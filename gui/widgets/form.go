package widgets

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// FormRow is a name with what is set by it, and a quiet explanation below, "" for none.
type FormRow struct {
	Name    string
	Control fyne.CanvasObject // nil: none
	Note    string
	Says    func() string // an explanation that changes, in place of Note; nil for none
	Tight   bool          // nothing in it is pressed
}

// note is the row's explanation now.
func (r FormRow) note() string {
	if r.Says != nil {
		return strings.TrimSpace(r.Says())
	}
	return strings.TrimSpace(r.Note)
}

// Form stands rows below each other: the names at the left, the controls at the right or, where
// both have no room beside each other, below them.
type Form struct {
	drawn
	rows  []FormRow
	width float32
	names [][nameLines]*canvas.Text
	notes [][noteLines]*canvas.Text
}

// nameLines is how many lines a name may have, where text is large.
const nameLines = 3

// noteLines is how many lines an explanation may have.
const noteLines = 6

// NewForm returns a form of rows.
func NewForm(rows ...FormRow) *Form {
	f := &Form{rows: rows, names: make([][nameLines]*canvas.Text, len(rows)), notes: make([][noteLines]*canvas.Text, len(rows))}
	for i, r := range rows {
		for line := range f.names[i] {
			f.names[i][line] = f.addText(TextSize, fyne.TextStyle{})
		}
		for line := range f.notes[i] {
			f.notes[i][line] = f.addText(SmallSize, fyne.TextStyle{})
		}
		if r.Control != nil {
			add(&f.drawn, r.Control)
		}
	}
	f.draw(f)
	return f
}

// Rows are the form's.
func (f *Form) Rows() []FormRow { return f.rows }

// For has the form ask for the height that it needs in a width.
func (f *Form) For(width float32) { f.width = width }

func (f *Form) write(size fyne.Size, of colours) {
	for i := range f.rows {
		name := f.nameOf(i, size.Width)
		for at, text := range f.names[i] {
			say(text, nth(name, at), of(theme.ColorNameForeground))
		}
		lines := f.noteOf(i, size.Width)
		for at, text := range f.notes[i] {
			say(text, nth(lines, at), of(ColorNameQuiet))
		}
	}
}

// nameOf breaks a name into lines, where it is wider than the form.
func (f *Form) nameOf(i int, width float32) []string {
	return brokenLines(f.rows[i].Name, max(width, 1), nameLines, nameWidth)
}

func nameWidth(words string) float32 {
	return fyne.MeasureText(words, TextSize(), fyne.TextStyle{}).Width
}

// noteOf breaks an explanation into lines.
func (f *Form) noteOf(i int, width float32) []string {
	note := f.rows[i].note()
	if note == "" {
		return nil
	}
	return brokenLines(note, max(width, 1), noteLines, smallWidth)
}

// controlWide is the width of a control that asks for no more, in text of plain size.
const controlWide = 20 * Step

// spread returns the width of a row's control, and whether it stands below its name. Sliders below
// each other begin alike, and so do keys.
func (f *Form) spread(i int, width float32) (control float32, below bool) {
	control, below = f.alone(i, width)
	kind := columnOf(f.rows[i].Control)
	if below || kind == noColumn {
		return control, below
	}
	for other, r := range f.rows {
		if columnOf(r.Control) != kind {
			continue
		}
		if wide, under := f.alone(other, width); !under {
			control = min(control, wide)
		}
	}
	return max(control, f.rows[i].Control.MinSize().Width), false
}

// column is what a control begins alike with.
type column int

const (
	noColumn column = iota
	sliderColumn
	keyColumn
)

func columnOf(control fyne.CanvasObject) column {
	switch control.(type) {
	case *Amount:
		return sliderColumn
	case *KeyChoice:
		return keyColumn
	}
	return noColumn
}

// alone is spread for a row by itself.
func (f *Form) alone(i int, width float32) (control float32, below bool) {
	name := nameWidth(f.rows[i].Name)
	least := float32(0)
	if f.rows[i].Control != nil {
		least = f.rows[i].Control.MinSize().Width
	}
	if name+Step+least > width {
		return width, true
	}
	wide := controlWide * textScale()
	if least > wide-2*Step { // its words are not to stand close
		wide = least + 6*Step
	}
	return float32(int(max(least, min(wide, width-name-Step)))), false // whole units: no line between pixels
}

// each hands over where a row begins, where its control does, and where its explanation does.
func (f *Form) each(width float32, do func(i int, y, control, note float32)) (height float32) {
	line := noteLine()
	for i := range f.rows {
		y, at := height, height
		if _, below := f.spread(i, width); below {
			at += float32(len(f.nameOf(i, width))) * nameLine()
		}
		height = at + f.high(i)
		note := height
		if n := len(f.noteOf(i, width)); n > 0 {
			height += float32(n)*line + Step/4
		}
		if do != nil {
			do(i, y, at, note)
		}
	}
	return height
}

// high is the height of a row, without its explanation.
func (f *Form) high(i int) float32 {
	switch r := f.rows[i]; {
	case r.Control == nil:
		return 0
	case r.Tight:
		return r.Control.MinSize().Height
	default:
		return max(r.Control.MinSize().Height, Row())
	}
}

func nameLine() float32 { return fyne.MeasureText("M", TextSize(), fyne.TextStyle{}).Height }

func noteLine() float32 { return fyne.MeasureText("M", SmallSize(), fyne.TextStyle{}).Height }

func (f *Form) place(size fyne.Size) {
	f.each(size.Width, func(i int, y, control, note float32) {
		width, below := f.spread(i, size.Width)
		high := f.high(i)
		at := y
		if !below {
			at += (high - nameLine()) / 2
		}
		for n, text := range f.names[i] {
			placeText(text, 0, at+float32(n)*nameLine())
		}
		if f.rows[i].Control != nil {
			put(f.rows[i].Control, fyne.NewPos(size.Width-width, control), fyne.NewSize(width, high))
		}
		for n, text := range f.notes[i] {
			placeText(text, 0, note+float32(n)*noteLine())
		}
	})
}

// minSize is as high as the width of now asks for.
func (f *Form) minSize() fyne.Size {
	width := f.width
	if width == 0 {
		width = f.Size().Width
	}
	return fyne.NewSize(0, f.each(width, nil))
}
