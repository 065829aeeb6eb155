package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// familyLook draws a family's row.
type familyLook struct {
	f           *FamilyRow
	panel       edgedPanel
	boxes       [4]*canvas.Rectangle // light, shadow, their greys
	frame       *canvas.Rectangle    // a thin edge around the swatches: one may be like the panel
	tones, says *canvas.Text
	share       *canvas.Text
	remarks     []*canvas.Text       // as many as there ever were
	lines       [3]*canvas.Rectangle // colours of lines that would fit
	cross       *canvas.Image
}

func newFamilyLook(f *FamilyRow) *familyLook {
	l := &familyLook{f: f, panel: newEdgedPanel(), frame: canvas.NewRectangle(nil), cross: canvas.NewImageFromResource(theme.CancelIcon()),
		tones: sizedText(TextSize, fyne.TextStyle{Bold: true}), says: sizedText(TextSize, fyne.TextStyle{}),
		share: sizedText(SmallSize, fyne.TextStyle{})}
	for i := range l.boxes {
		l.boxes[i] = canvas.NewRectangle(color.Transparent)
	}
	for i := range l.lines {
		l.lines[i] = canvas.NewRectangle(color.Transparent)
	}
	return l
}

// objects are all that is drawn, from below.
func (l *familyLook) objects() []fyne.CanvasObject {
	all := append([]fyne.CanvasObject{l.panel.edge, l.panel.inside, l.frame}, objectsOf(l.boxes[:]...)...)
	all = append(all, l.tones, l.says, l.share, l.cross)
	return append(append(all, objectsOf(l.remarks...)...), objectsOf(l.lines[:]...)...)
}

// write puts in what is shown now; how the remarks break depends on the width.
func (l *familyLook) write(size fyne.Size, of colours) {
	t, fore, quiet := l.f.text, of(theme.ColorNameForeground), of(ColorNameQuiet)
	if l.f.focused {
		l.panel.write(of, of(ColorNameFocusLine), FocusWidth)
	} else {
		l.panel.write(of, of(ColorNamePanel), 0)
	}
	for i, c := range [4]color.Color{rgbFill(t.Light), rgbFill(t.Shadow), greyFill(t.LightGrey), greyFill(t.ShadowGrey)} {
		fill(l.boxes[i], c)
		show(l.boxes[i], !t.Lost)
	}
	fill(l.frame, of(ColorNameMass))
	show(l.frame, !t.Lost)
	show(l.cross, t.ByHand)
	say(l.tones, t.Tones, fore)
	say(l.says, longestFitting(planFamily(size.Width, 0).says.width(), TextSize, t.Says, t.SaysShort), fore)
	say(l.share, t.Share, quiet)
	l.writeRemarks(l.f.remarks(size.Width), quiet)
	for i, box := range l.lines {
		show(box, i < len(t.Lines))
		if i < len(t.Lines) {
			fill(box, rgbFill(t.Lines[i]))
		}
	}
}

func (l *familyLook) writeRemarks(lines []string, ink color.Color) {
	for len(l.remarks) < len(lines) {
		l.remarks = append(l.remarks, sizedText(SmallSize, fyne.TextStyle{}))
		l.f.objects = l.objects()
	}
	for i, text := range l.remarks {
		show(text, i < len(lines))
		if i < len(lines) {
			say(text, lines[i], ink)
		}
	}
}

// place places everything.
func (l *familyLook) place(size fyne.Size) {
	l.panel.place(size)
	p := planFamily(size.Width, 0)
	for i, box := range l.boxes {
		put(box, p.swatch.AddXY(float32(i)*p.side, 0), fyne.NewSize(p.side, SwatchHeight))
	}
	put(l.cross, p.cross, fyne.NewSquareSize(crossSize))
	put(l.frame, p.swatch.SubtractXY(1, 1), fyne.NewSize(4*p.side+2, SwatchHeight+2))
	setLeft(l.tones, p.tones)
	setLeft(l.says, p.says)
	setRight(l.share, p.tones)
	var end fyne.Position // of the last remark, after which the colours of lines stand
	for i, t := range l.remarks {
		at := p.rest
		at.baseline += float32(i) * cardRow
		setLeft(t, at)
		if !t.Hidden {
			end = t.Position().AddXY(t.MinSize().Width+Step, 1)
		}
	}
	for i, box := range l.lines {
		put(box, end.AddXY(float32(i)*lineStep, 0), fyne.NewSquareSize(lineSide))
	}
}

// minSize is as high as its lines.
func (l *familyLook) minSize() fyne.Size {
	width := l.f.Size().Width
	return fyne.NewSize(30*Step, planFamily(width, len(l.f.remarks(width))).height)
}
