package gui

import (
	"image/color"
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/widgets"
)

// leastContrast is of text and what it stands on: WCAG 2.2 (W3C Recommendation, 2023), success
// criterion 1.4.3; in high contrast 1.4.6.
func leastContrast(d *Desk) float64 {
	if d.settings.Theme == settings.ThemeContrast {
		return 7
	}
	return 4.5
}

// carries is how much of that a ground can carry: on a measured grey in the middle neither black nor
// white has more than the 4.5 of 1.4.3. The theme's own grounds are no such (gui/widgets).
func carries(least float64, under color.Color) float64 {
	if max(contrastRatio(color.Black, under), contrastRatio(color.White, under)) < least {
		return 4.5
	}
	return least
}

// relativeLuminance and contrastRatio are as defined there, written out apart from the program's own
// formulas.
func relativeLuminance(c color.Color) float64 {
	n := color.NRGBAModel.Convert(c).(color.NRGBA)
	linear := func(v uint8) float64 {
		if s := float64(v) / 255; s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((float64(v)/255+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(n.R) + 0.7152*linear(n.G) + 0.0722*linear(n.B)
}

func contrastRatio(a, b color.Color) float64 {
	ya, yb := relativeLuminance(a), relativeLuminance(b)
	return (max(ya, yb) + 0.05) / (min(ya, yb) + 0.05)
}

// covers reports whether what is seen of a box has a point in it.
func (p part) covers(x, y float32) bool {
	b := p.box.meet(p.clip)
	return x >= b.left && x < b.right && y >= b.top && y < b.bottom
}

// windowGround is what the toolkit fills the window with before it paints anything else.
func windowGround(d *Desk) color.Color {
	return d.App.Settings().Theme().Color(theme.ColorNameBackground, d.App.Settings().ThemeVariant())
}

// groundUnder is the colour at a point under part i, on the window's own; none where a picture lies
// there. hidden says that something opaque lies over it.
func groundUnder(parts []part, i int, x, y float32, window color.Color) (ground color.Color, hidden bool) {
	ground = window
	for at, p := range parts {
		if !p.covers(x, y) {
			continue
		}
		switch o := p.object.(type) {
		case *canvas.Rectangle:
			if o.FillColor == nil {
				continue
			}
			_, _, _, alpha := o.FillColor.RGBA()
			switch {
			case at > i && alpha == 0xffff:
				return nil, true
			case at < i && alpha == 0xffff:
				ground = o.FillColor
			case at < i && alpha > 0 && ground != nil:
				ground = veiled(o.FillColor, ground)
			}
		case *canvas.Raster:
			if at < i {
				ground = nil
			}
		}
	}
	return ground, false
}

// rimmed reports whether text over a picture has a rim that it stands out from, or is that rim: the same
// words, a little aside.
func rimmed(parts []part, p part, text *canvas.Text, least float64) bool {
	for _, other := range parts {
		rim, ok := other.object.(*canvas.Text)
		aside := other.box.left - p.box.left
		if ok && rim.Text == text.Text && max(aside, -aside) <= 2 && contrastRatio(rim.Color, text.Color) >= least {
			return true
		}
	}
	return false
}

// veiled is an opaque colour under one that lets it through.
func veiled(veil, under color.Color) color.Color {
	v, u := color.NRGBAModel.Convert(veil).(color.NRGBA), color.NRGBAModel.Convert(under).(color.NRGBA)
	mix := func(v8, u8, a uint8) uint8 {
		return uint8(math.Round((float64(v8)*float64(a) + float64(u8)*float64(255-a)) / 255))
	}
	return color.NRGBA{mix(v.R, u.R, v.A), mix(v.G, u.G, v.A), mix(v.B, u.B, v.A), 255}
}

// resting reports whether a part belongs to something that can't be used now: the criterion leaves
// that out.
func (p part) resting() bool {
	for _, w := range p.in {
		switch w := w.(type) {
		case *widgets.Button:
			if w.Off() {
				return true
			}
		case *widgets.Chooser:
			if w.Rests(p.object) {
				return true
			}
		case interface{ Disabled() bool }:
			if w.Disabled() {
				return true
			}
		}
	}
	return false
}

// checkContrast fails where text that is seen does not stand out from what it stands on.
func checkContrast(t *testing.T, d *Desk) {
	t.Helper()
	parts, least, seen := d.drawnParts(), leastContrast(d), 0
	for i, p := range parts {
		text, ok := p.object.(*canvas.Text)
		if !ok || strings.TrimSpace(text.Text) == "" || p.resting() {
			continue
		}
		width, middle, left := text.MinSize().Width, (p.box.top+p.box.bottom)/2, p.box.left
		if !p.covers(left+width/2, middle) {
			continue
		}
		for _, x := range []float32{left + 1, left + width/2, left + width - 1} {
			under, hidden := groundUnder(parts, i, x, middle, windowGround(d))
			switch {
			case hidden:
				continue
			case under == nil && rimmed(parts, p, text, least):
			case under == nil:
				t.Errorf("%q stands on the picture: %s", text.Text, p.named())
			case contrastRatio(text.Color, under) < carries(least, under):
				t.Errorf("%q in %v on %v: contrast %.2f: %s", text.Text, text.Color, under, contrastRatio(text.Color, under), p.named())
			}
			seen++
		}
	}
	if seen < 6 {
		t.Errorf("only %d places of text are seen", seen)
	}
}
