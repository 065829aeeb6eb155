package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"

	"app.tonedesk/gui/icons"
)

// pictureShape is what a PictureButton looks like.
type pictureShape uint8

const (
	shapeChip   pictureShape = iota // a lasting state: pictogram and words on a ground of their own
	shapeAnswer                     // an answer to an offer: raised
	shapeWord                       // the one thing that a toast lets do: a bold word
)

// PictureButton is a button on the picture: the same greys on every ground, as the picture is.
type PictureButton struct {
	drawn
	explained
	shape  pictureShape
	icon   icons.Name
	words  string
	brief  bool // the pictogram stands for the words, which the tip says
	tapped func()

	back, line, under *canvas.Rectangle
	picture           *canvas.Image
	text, second      *canvas.Text // the second line of a chip that would else have small letters
}

func newPictureButton(shape pictureShape, keys Keys, tips *Tips) *PictureButton {
	b := &PictureButton{shape: shape}
	b.tips = tips
	b.focus = focus{keys: keys, owner: b, changed: b.redraw}
	b.back = add(&b.drawn, newPanelBox())
	b.picture, b.text, b.under = b.addIcon(), b.addText(TextSize, fyne.TextStyle{Bold: shape == shapeWord}), b.addBox()
	b.second = b.addText(TextSize, fyne.TextStyle{})
	b.line = add(&b.drawn, newFocusLine(Radius))
	b.Hidden = true
	b.draw(b)
	return b
}

// set shows what the button says and does; no words and no pictogram hide it.
func (b *PictureButton) set(icon icons.Name, words, tip string, tapped func()) {
	if words == "" && icon == "" && b.pointed { // it goes from under the pointer
		b.point(false)
	}
	b.icon, b.words, b.tip, b.tapped = icon, words, tip, tapped
	show(b, words != "" || icon != "")
	b.redraw()
}

// shorten has the pictogram stand for the words, or no longer.
func (b *PictureButton) shorten(brief bool) {
	if brief = brief && b.icon != ""; brief != b.brief {
		b.brief = brief
		b.redraw()
	}
}

// shown is what stands on it.
func (b *PictureButton) shown() string {
	if b.brief {
		return ""
	}
	return b.words
}

// MouseIn lets the tip come, which says what isn't shown.
func (b *PictureButton) MouseIn(e *desktop.MouseEvent) {
	b.explained.MouseIn(e)
	if b.brief {
		b.tips.enter(b.words, b)
	}
}

// Words returns what the button says.
func (b *PictureButton) Words() string { return b.words }

// held reports whether the pointer or the focus is on it.
func (b *PictureButton) held() bool { return b.Visible() && (b.pointed || b.focused) }

// Tapped presses the button.
func (b *PictureButton) Tapped(*fyne.PointEvent) {
	b.tips.Leave()
	if b.tapped != nil {
		b.tapped()
	}
}

// TypedKey presses the button with Space and Enter.
func (b *PictureButton) TypedKey(e *fyne.KeyEvent) {
	if presses(e) {
		b.Tapped(nil)
	} else {
		b.keys.TypedKey(e.Name)
	}
}

func (b *PictureButton) write(size fyne.Size, of colours) {
	ground, edge := ColorNameChip, float32(0)
	switch {
	case b.pointed && b.shape == shapeAnswer:
		ground = ColorNameChipPointed
	case b.shape == shapeAnswer, b.pointed:
		ground = ColorNameChipRaised
	}
	if b.shape == shapeChip {
		edge = 1
		b.back.CornerRadius = (Row() - 2*b.inset()) / 2
	}
	b.back.StrokeWidth, b.back.StrokeColor = edge, of(ColorNameChipEdge)
	fill(b.back, of(ground))
	show(b.back, b.shape != shapeWord)
	fill(b.under, of(ColorNameChipText))
	show(b.under, b.shape == shapeWord && b.words != "")
	line := of(ColorNameChipLine)
	if b.line.StrokeColor != line || b.line.Hidden == b.focused {
		b.line.StrokeColor, b.line.Hidden = line, !b.focused
		b.line.CornerRadius = b.back.CornerRadius
		b.line.Refresh()
	}
	picture(b.picture, b.icon, ColorNameChipText)
	b.text.TextSize = TextSize()
	lines := []string{b.shown()}
	if size.Width > 0 {
		icon, gap, side := b.parts()
		lines, b.text.TextSize = b.lines(max(size.Width-icon-gap-2*side, 1), size.Height-2*b.inset())
	}
	b.second.TextSize = b.text.TextSize
	say(b.text, nth(lines, 0), of(ColorNameChipText))
	say(b.second, nth(lines, 1), of(ColorNameChipText))
}

// lines are the words in a room, and the size of their letters: those of a chip stand in two lines where
// these can have larger letters.
func (b *PictureButton) lines(width, height float32) (lines []string, size float32) {
	lines, size = []string{b.shown()}, fittingSize(b.shown(), TextSize(), width)
	if b.shape != shapeChip {
		return lines, size
	}
	for two := TextSize(); two > size; two-- {
		measure := func(words string) float32 { return fyne.MeasureText(words, two, fyne.TextStyle{}).Width }
		broken := brokenLines(b.shown(), width, 2, measure)
		if len(broken) == 2 && max(measure(broken[0]), measure(broken[1])) <= width && 2*fyne.MeasureText("M", two, fyne.TextStyle{}).Height <= height {
			return broken, two
		}
	}
	return lines, size
}

// inset is by how much a chip is lower than what can be hit of it, above and below.
func (b *PictureButton) inset() float32 {
	if b.shape == shapeChip {
		return round(Row() / 16)
	}
	return 0
}

// parts are the widths of the pictogram, of the gap beside it, and of what is left at either side.
func (b *PictureButton) parts() (icon, gap, side float32) {
	if b.icon != "" {
		icon = SmallIcon()
		if b.shown() != "" {
			gap = Step
		}
	}
	return icon, gap, 1.25 * Step
}

func (b *PictureButton) place(size fyne.Size) {
	in := b.inset()
	put(b.back, fyne.NewPos(0, in), size.SubtractWidthHeight(0, 2*in))
	put(b.line, fyne.NewPos(0, in), size.SubtractWidthHeight(0, 2*in))
	icon, gap, _ := b.parts()
	text := b.text.MinSize()
	if b.shown() == "" {
		text.Width = 0
	}
	y := (size.Height - text.Height) / 2
	if b.second.Text != "" {
		y -= text.Height / 2
		text.Width = max(text.Width, b.second.MinSize().Width)
	}
	x := (size.Width - icon - gap - text.Width) / 2
	put(b.picture, fyne.NewPos(x, (size.Height-icon)/2), fyne.NewSquareSize(icon))
	placeText(b.text, x+icon+gap, y)
	placeText(b.second, x+icon+gap, y+text.Height)
	put(b.under, fyne.NewPos(x+icon+gap, (size.Height+text.Height)/2), fyne.NewSize(text.Width, 1))
}

func (b *PictureButton) minSize() fyne.Size {
	icon, gap, side := b.parts()
	width := float32(0)
	if b.shown() != "" {
		width = fyne.MeasureText(b.shown(), TextSize(), b.text.TextStyle).Width
	}
	return fyne.NewSize(max(icon+gap+width+2*side, Row()), Row())
}
