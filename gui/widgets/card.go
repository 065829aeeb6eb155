package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/icons"
)

// NewCard stands parts below each other on a panel, a step from its sides; the first, its heading,
// is half a step from its top. Labels have a step of their own.
func NewCard(head fyne.CanvasObject, parts ...fyne.CanvasObject) *fyne.Container {
	column := container.New(layout.NewCustomPaddedVBoxLayout(0))
	for _, o := range append([]fyne.CanvasObject{head}, parts...) {
		column.Add(o)
	}
	return container.NewStack(NewPanel(), container.New(layout.NewCustomPaddedLayout(Step/2, Step/2, 0, 0), column))
}

// Beside keeps a part of a card a step from its sides.
func Beside(o fyne.CanvasObject) *fyne.Container {
	return container.New(layout.NewCustomPaddedLayout(0, 0, Step, Step), o)
}

// Heading is a card's: a pictogram, or none, a bold word, and quiet ones where they find room.
type Heading struct {
	drawn
	icon  icons.Name
	words [2]string

	sign  *canvas.Image
	bold  *canvas.Text
	quiet *canvas.Text
}

// NewHeading returns a heading of a row's height.
func NewHeading(icon icons.Name, bold, quiet string) *Heading {
	h := &Heading{icon: icon, words: [2]string{bold, quiet}}
	h.sign, h.bold = h.addIcon(), h.addText(TextSize, fyne.TextStyle{Bold: true})
	h.quiet = h.addText(TextSize, fyne.TextStyle{})
	h.draw(h)
	return h
}

// begin is where the bold word begins, quietAt where the quiet ones do.
func (h *Heading) begin() float32 {
	if h.icon == "" {
		return 0
	}
	return IconSize() + Step/2
}

func (h *Heading) quietAt() float32 { return h.begin() + h.boldWidth() + Step }

func (h *Heading) boldWidth() float32 {
	return fyne.MeasureText(h.words[0], TextSize(), fyne.TextStyle{Bold: true}).Width
}

func (h *Heading) write(size fyne.Size, of colours) {
	picture(h.sign, h.icon, theme.ColorNameForeground)
	say(h.bold, h.words[0], of(theme.ColorNameForeground))
	quiet := h.words[1]
	if h.quietAt()+textWidth(quiet) > size.Width {
		quiet = ""
	}
	say(h.quiet, quiet, of(ColorNameQuiet))
}

func (h *Heading) place(size fyne.Size) {
	icon := IconSize()
	put(h.sign, fyne.NewPos(0, (size.Height-icon)/2), fyne.NewSquareSize(icon))
	placeText(h.bold, h.begin(), (size.Height-h.bold.MinSize().Height)/2)
	placeText(h.quiet, h.quietAt(), (size.Height-h.quiet.MinSize().Height)/2)
}

func (h *Heading) minSize() fyne.Size { return fyne.NewSize(h.begin()+h.boldWidth(), Row()) }

// SetQuiet gives the heading other quiet words.
func (h *Heading) SetQuiet(words string) {
	if words != h.words[1] {
		h.words[1] = words
		h.redraw()
	}
}
