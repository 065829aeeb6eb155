package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/icons"
)

// NoteText is a note as a row shows it.
type NoteText struct {
	Number   string // as on the picture, "" for a note without one
	Icon     icons.Name
	Words    string
	Quiet    bool   // the words are none of the painter's
	Reading  string // at the right, "" for none
	Selected bool
}

// NoteList lists notes below each other, and tells which was tapped. Only the rows in sight are
// drawn.
type NoteList struct {
	widget.List
	keys Keys
}

// NewNoteList returns a list of so many notes, and what to put into the window: the list with
// rows that touch.
func NewNoteList(keys Keys, count func() int, text func(i int) NoteText, tapped func(i int)) (*NoteList, fyne.CanvasObject) {
	l := &NoteList{keys: keys}
	l.HideSeparators = true
	l.Length, l.CreateItem = count, func() fyne.CanvasObject { return newNoteRow() }
	l.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) { o.(*noteRow).set(text(i)) }
	l.OnSelected = func(i widget.ListItemID) {
		l.UnselectAll() // the row itself shows what is selected
		tapped(i)
	}
	l.ExtendBaseWidget(l)
	return l, container.NewThemeOverride(l, dense{})
}

// dense is the window's theme of now without gaps between rows.
type dense struct{}

func (dense) now() fyne.Theme { return fyne.CurrentApp().Settings().Theme() }

func (t dense) Color(n fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	return t.now().Color(n, v)
}
func (t dense) Font(s fyne.TextStyle) fyne.Resource     { return t.now().Font(s) }
func (t dense) Icon(n fyne.ThemeIconName) fyne.Resource { return t.now().Icon(n) }
func (t dense) Size(n fyne.ThemeSizeName) float32 {
	if n == theme.SizeNamePadding {
		return 0
	}
	return t.now().Size(n)
}

// FocusGained reveals the list.
func (l *NoteList) FocusGained() {
	l.keys.Reveal(l)
	l.List.FocusGained()
}

// TypedRune goes to the window's keys.
func (l *NoteList) TypedRune(r rune) {
	if r != ' ' {
		l.keys.TypedRune(r)
	}
}

// TypedShortcut goes to the window's keys.
func (l *NoteList) TypedShortcut(s fyne.Shortcut) { l.keys.TypedShortcut(s) }

// TypedKey goes through the notes with the arrows; what else there is goes to the window's keys.
func (l *NoteList) TypedKey(e *fyne.KeyEvent) {
	switch {
	case presses(e):
		l.List.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	case arrows[e.Name].Y != 0:
		l.List.TypedKey(e)
	default:
		l.keys.TypedKey(e.Name)
	}
}

// noteRow shows a note. The selected one has a bar at its left and a ground of its own.
type noteRow struct {
	drawn
	text NoteText

	ground, bar            *canvas.Rectangle
	picture                *canvas.Image
	number, words, reading *canvas.Text
}

func newNoteRow() *noteRow {
	r := &noteRow{}
	r.ground, r.bar, r.picture = add(&r.drawn, newPanelBox()), r.addBox(), r.addIcon()
	r.number, r.words = r.addText(TextSize, fyne.TextStyle{Bold: true}), r.addText(TextSize, fyne.TextStyle{})
	r.reading = r.addText(TextSize, fyne.TextStyle{})
	r.draw(r)
	return r
}

// SetDeviceIsMobile says that a row has its own theme (fyne.io/fyne/v2 2.7.1, overrideTheme), which is
// the window's: for the list's the toolkit would read the typeface anew, and keep it for good, for
// every list that was ever opened.
func (r *noteRow) SetDeviceIsMobile(bool) {}

func (r *noteRow) set(t NoteText) {
	if t != r.text {
		r.text = t
		r.redraw()
	}
}

// notePlan is where everything lies in a row of a width: no widget decides, so that a table can
// test it.
type notePlan struct {
	number, icon, words, reading float32 // left edges
	room                         float32 // for the words
}

// planNote lays a row out. digits and reading are the widths of the widest number and of the
// reading, scale that of the text.
func planNote(width, digits, reading, icon float32) notePlan {
	p := notePlan{number: Step}
	p.icon = p.number + digits + noteGap
	p.words = p.icon + icon + noteGap
	p.reading = width - Step/2 - reading
	p.room = p.reading - p.words
	if reading > 0 {
		p.room -= Step
	}
	p.room = max(p.room, 0)
	return p
}

// plan is planNote for what is shown. All rows keep room for two figures, so that they are in line.
func (r *noteRow) plan(width float32) notePlan {
	digits := fyne.MeasureText("00", TextSize(), fyne.TextStyle{Bold: true}).Width
	digits = max(digits, fyne.MeasureText(r.text.Number, TextSize(), fyne.TextStyle{Bold: true}).Width)
	reading := float32(0)
	if r.text.Reading != "" {
		reading = fyne.MeasureText(r.text.Reading, TextSize(), fyne.TextStyle{}).Width
	}
	return planNote(width, digits, reading, SmallIcon())
}

func (r *noteRow) write(size fyne.Size, of colours) {
	ink := theme.ColorNameForeground
	quiet := ink
	if r.text.Quiet && !r.text.Selected {
		quiet = ColorNameQuiet
	}
	fill(r.ground, of(ColorNameRaised))
	fill(r.bar, of(ColorNameFocusLine))
	show(r.ground, r.text.Selected)
	show(r.bar, r.text.Selected)
	picture(r.picture, r.text.Icon, ink)
	say(r.number, r.text.Number, of(ink))
	say(r.reading, r.text.Reading, of(ink))
	room := r.plan(size.Width).room
	r.words.TextSize = TextSize()
	if r.text.Quiet { // our own words are never cut
		r.words.TextSize = fittingSize(r.text.Words, TextSize(), max(room, 1))
	}
	say(r.words, cutAt(r.text.Words, room, r.words.TextSize), of(quiet))
}

func (r *noteRow) place(size fyne.Size) {
	p := r.plan(size.Width)
	middle := func(t *canvas.Text, x float32) { placeText(t, round(x), round((size.Height-t.MinSize().Height)/2)) }
	r.ground.Resize(size)
	put(r.bar, fyne.NewPos(0, 0.2*size.Height), fyne.NewSize(noteBar, 0.6*size.Height))
	middle(r.number, p.icon-noteGap-r.number.MinSize().Width)
	put(r.picture, fyne.NewPos(p.icon, round((size.Height-SmallIcon())/2)), fyne.NewSquareSize(SmallIcon()))
	middle(r.words, p.words)
	middle(r.reading, p.reading)
}

// noteGap is between a note's number, its pictogram and its words.
const noteGap = 0.75 * Step

// noteBar is the width of the bar at the left of the selected row.
const noteBar = 3

func (r *noteRow) minSize() fyne.Size { return fyne.NewSize(20*Step, Row()) }
