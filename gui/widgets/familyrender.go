package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/analysis/colour"
)

// CreateRenderer makes the canvas objects.
func (f *FamilyRow) CreateRenderer() fyne.WidgetRenderer {
	r := &familyRowRenderer{f: f, back: canvas.NewRectangle(nil), outline: canvas.NewRectangle(nil),
		cross: canvas.NewImageFromResource(theme.CancelIcon()), frame: canvas.NewRectangle(nil),
		tones: sizedText(TextSize, fyne.TextStyle{Bold: true}), says: sizedText(TextSize, fyne.TextStyle{}),
		share: sizedText(SmallSize, fyne.TextStyle{})}
	r.back.CornerRadius, r.outline.CornerRadius = Radius, Radius
	for i := range r.boxes {
		r.boxes[i] = canvas.NewRectangle(color.Transparent)
	}
	for i := range r.lines {
		r.lines[i] = canvas.NewRectangle(color.Transparent)
	}
	f.r = r
	r.colour()
	r.write()
	return r
}

type familyRowRenderer struct {
	f             *FamilyRow
	outline, back *canvas.Rectangle
	boxes         [4]*canvas.Rectangle // light, shadow, their greys
	frame         *canvas.Rectangle    // a thin edge around the swatches: one may be like the panel
	tones, says   *canvas.Text
	share         *canvas.Text
	remarks       []*canvas.Text
	lines         [3]*canvas.Rectangle // colours of lines that would fit
	cross         *canvas.Image
}

func (r *familyRowRenderer) colour() {
	th, v := r.f.Theme(), fyne.CurrentApp().Settings().ThemeVariant()
	r.back.FillColor = th.Color(ColorNamePanel, v)
	r.outline.FillColor = r.back.FillColor
	width := float32(0)
	if r.f.focused {
		r.outline.FillColor, width = th.Color(ColorNameFocusLine, v), FocusWidth
	}
	r.back.Move(fyne.NewPos(width, width))
	r.back.Resize(r.f.Size().SubtractWidthHeight(2*width, 2*width))
	r.frame.FillColor = th.Color(ColorNameMass, v)
	r.tones.Color, r.says.Color = th.Color(theme.ColorNameForeground, v), th.Color(theme.ColorNameForeground, v)
	r.share.Color = th.Color(ColorNameQuiet, v)
	for _, t := range r.remarks {
		t.Color = th.Color(ColorNameQuiet, v)
	}
}

// write puts in what is shown now.
func (r *familyRowRenderer) write() {
	t := r.f.Text
	for i, c := range [4]colour.RGB{t.Light, t.Shadow, GreyOf(t.LightGrey), GreyOf(t.ShadowGrey)} {
		fill(r.boxes[i], color.NRGBA{c.R, c.G, c.B, 255})
		r.boxes[i].Hidden = t.Lost
	}
	r.frame.Hidden = t.Lost
	put(r.tones, t.Tones)
	put(r.says, longestFitting(planFamily(r.f.Size().Width, 0).says.width(), TextSize, t.Says, t.SaysShort))
	put(r.share, t.Share)
	r.cross.Hidden = !t.ByHand
	lines := r.f.lines()
	for len(r.remarks) < len(lines) {
		r.remarks = append(r.remarks, sizedText(SmallSize, fyne.TextStyle{}))
		r.colour()
	}
	for i, text := range r.remarks {
		text.Hidden = i >= len(lines)
		if !text.Hidden {
			put(text, lines[i])
		}
	}
	r.place(len(lines))
}

func GreyOf(v uint8) colour.RGB { return colour.RGB{R: v, G: v, B: v} }

// Layout writes anew: how the remarks break depends on the width.
func (r *familyRowRenderer) Layout(fyne.Size) { r.write() }

// Place places everything.
func (r *familyRowRenderer) place(lines int) {
	size := r.f.Size()
	r.outline.Resize(size)
	r.colour()
	p := planFamily(size.Width, lines)
	for i, box := range r.boxes {
		box.Move(p.swatch.AddXY(float32(i)*p.side, 0))
		box.Resize(fyne.NewSize(p.side, SwatchHeight))
	}
	r.cross.Move(p.cross)
	r.cross.Resize(fyne.NewSquareSize(crossSize))
	r.frame.Move(p.swatch.SubtractXY(1, 1))
	r.frame.Resize(fyne.NewSize(4*p.side+2, SwatchHeight+2))
	setLeft(r.tones, p.tones)
	setLeft(r.says, p.says)
	setRight(r.share, p.tones)
	for i, t := range r.remarks {
		at := p.rest
		at.baseline += float32(i) * cardRow
		setLeft(t, at)
	}
	for i, box := range r.lines {
		box.Hidden = i >= len(r.f.Text.Lines)
		if !box.Hidden {
			c := r.f.Text.Lines[i]
			last := r.remarks[lines-1]
			fill(box, color.NRGBA{c.R, c.G, c.B, 255})
			box.Move(last.Position().AddXY(last.MinSize().Width+Step+float32(i)*lineStep, 1))
			box.Resize(fyne.NewSquareSize(lineSide))
		}
	}
}

// MinSize is as high as its lines.
func (r *familyRowRenderer) MinSize() fyne.Size {
	return fyne.NewSize(30*Step, planFamily(r.f.Size().Width, len(r.f.lines())).height)
}

// Refresh draws with the theme of now.
func (r *familyRowRenderer) Refresh() {
	r.colour()
	r.write()
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

// Objects are all that is drawn, from below.
func (r *familyRowRenderer) Objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{r.outline, r.back, r.frame}
	for _, b := range r.boxes {
		all = append(all, b)
	}
	all = append(all, r.tones, r.says, r.share, r.cross)
	for _, t := range r.remarks {
		all = append(all, t)
	}
	for _, b := range r.lines {
		all = append(all, b)
	}
	return all
}

// Destroy has nothing to let go of.
func (r *familyRowRenderer) Destroy() {}
