package widgets

import (
	"image/color"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/wording"
)

func TestPlanCard(t *testing.T) {
	for _, width := range []float32{148, 178, 287, 288, 304, 500} {
		p := planCard(width)
		if p.half != float32(int(p.half)) || p.half <= 0 {
			t.Errorf("%g wide: colour and grey meet at %g", width, p.half)
		}
		var lines []span
		lines = append(append(append(lines, p.head), p.figures[:]...), p.note)
		if p.seen != p.note {
			lines = append(lines, p.seen)
		}
		for i, a := range lines {
			if a.left < Step || a.right > width-Step || a.width() <= 0 || a.baseline > p.height-Step {
				t.Errorf("%g wide: line %d %+v leaves the card", width, i, a)
			}
			for j, b := range lines[:i] {
				beside := a.left >= b.right || b.left >= a.right
				if apart := a.baseline - b.baseline; !beside && apart < cardRow && apart > -cardRow {
					t.Errorf("%g wide: lines %d and %d lie on each other: %+v, %+v", width, j, i, b, a)
				}
			}
		}
	}
	if narrow, wide := cardHeight(178), cardHeight(304); wide >= narrow {
		t.Errorf("two columns of figures are %g high, one is %g", wide, narrow)
	}
}

func TestCardBox(t *testing.T) {
	for _, tt := range []struct {
		i     int
		width float32
		pos   fyne.Position
		wide  float32
	}{
		{0, 364, fyne.NewPos(0, 0), 178}, {1, 364, fyne.NewPos(186, 0), 178}, // the window's 380
		{2, 364, fyne.NewPos(0, cardHeight(178)+8), 178},
		{1, 304, fyne.NewPos(0, cardHeight(304)+8), 304}, // the window's 320: below each other
		{1, 320, fyne.NewPos(164, 0), 156},
	} {
		pos, box := cardBox(tt.i, tt.width)
		if pos != tt.pos || box.Width != tt.wide || box.Height != cardHeight(tt.wide) {
			t.Errorf("card %d in %g: %v, %v", tt.i, tt.width, pos, box)
		}
	}
}

// extremes are the cards with the longest figures and words.
func extremes() []wording.CardText {
	hue := 306.28 // blue (CIE 15:2004, Lab of sRGB's blue)
	long := wording.SayCard("W", analysis.Spot{
		Colour: colour.RGB{R: 170, G: 170, B: 170}, Lightness: 100, Value: 10, LayerGrey: 255,
		Chroma: 133.8, Hue: &hue, SeenLightness: 150, OnEdge: true,
	}, wording.SpotState{Selected: true})
	area := long
	area.Note = "area, spread 100.0"
	return []wording.CardText{long, area, wording.SayLostCard("B", false), wording.SayEmptyCard("C")}
}

// Nothing on a card lies on anything else, at the widths of a window 320 to 380 wide.
func TestCardFits(t *testing.T) {
	for _, width := range []float32{156, 178, 304} {
		for _, text := range extremes() {
			c := newSpotCard(0, CardActs{})
			shownIn(t, c, width, cardHeight(width))
			c.set(text)
			texts := []*canvas.Text{c.name, c.hex, c.note, c.seen}
			texts = append(append(texts, c.labels[:]...), c.figures[:]...)
			for i, a := range texts {
				if a.Text == "" {
					continue
				}
				if x := a.Position().X; x < Step || x+a.MinSize().Width > width-Step+1 {
					t.Errorf("%g wide: %q from %g to %g", width, a.Text, x, x+a.MinSize().Width)
				}
				for _, b := range texts[:i] {
					if b.Text != "" && overlap(a, b) {
						t.Errorf("%g wide: %q and %q lie on each other", width, b.Text, a.Text)
					}
				}
			}
			if h := c.MinSize().Height; h != cardHeight(width) {
				t.Errorf("%g wide, %q: %g high", width, text.Note, h)
			}
		}
	}
}

// overlap reports whether letters of two texts may touch; the gaps above and below them may.
func overlap(a, b *canvas.Text) bool {
	pa, pb, sa, sb := a.Position(), b.Position(), a.MinSize(), b.MinSize()
	return pa.X < pb.X+sb.Width && pb.X < pa.X+sa.Width && pa.Y+5 < pb.Y+sb.Height && pb.Y+5 < pa.Y+sa.Height
}

// Colour and grey are flat, at least 40 high and meet without a line, at any scale.
func TestSwatchesMeet(t *testing.T) {
	for _, scale := range []float32{1, 1.25, 1.5, 2} {
		c := newSpotCard(0, CardActs{})
		w := shownIn(t, c, 177, cardHeight(177))
		w.Canvas().(test.WindowlessCanvas).SetScale(scale)
		text := wording.SayCard("A", analysis.SpotOf(colour.RGB{R: 226, G: 171, B: 133}), wording.SpotState{})
		c.set(text)
		img := w.Canvas().Capture()
		colour := color.NRGBA{226, 171, 133, 255}
		grey := color.NRGBA{text.Grey, text.Grey, text.Grey, 255}
		at := func(x, y float32) color.NRGBA {
			return color.NRGBAModel.Convert(img.At(int(x*scale), int(y*scale))).(color.NRGBA)
		}
		for _, y := range []float32{Step + 1, Step + 38} {
			if got := at(Step+1, y); got != colour {
				t.Errorf("scale %g: the colour is %v", scale, got)
			}
			if got := at(177-Step-2, y); got != grey {
				t.Errorf("scale %g: the grey is %v", scale, got)
			}
			others := 0
			for x := int((Step + 1) * scale); x < int((177-Step-1)*scale); x++ {
				if got := color.NRGBAModel.Convert(img.At(x, int(y*scale))).(color.NRGBA); got != colour && got != grey {
					others++
					if got.R > max(colour.R, grey.R) || got.R < min(colour.R, grey.R) { // the panel shines through
						t.Errorf("scale %g: %v between colour and grey", scale, got)
					}
				}
			}
			if others > 1 {
				t.Errorf("scale %g: %d pixels between colour and grey", scale, others)
			}
		}
	}
}

// pressings count what a card is asked for.
type pressings struct{ copied, selected, deleted []int }

func (p *pressings) acts() CardActs {
	note := func(list *[]int) func(int) { return func(i int) { *list = append(*list, i) } }
	return CardActs{Copy: note(&p.copied), Select: note(&p.selected), Delete: note(&p.deleted), Keys: noKeys{}}
}

func TestCardPressed(t *testing.T) {
	var p pressings
	c := newSpotCard(3, p.acts())
	w := shownIn(t, c, 178, cardHeight(178))
	c.set(extremes()[0])
	middle := func(o fyne.CanvasObject) fyne.Position {
		return o.Position().AddXY(o.Size().Width/2, o.Size().Height/2)
	}
	test.TapCanvas(w.Canvas(), middle(c.cross))
	test.TapCanvas(w.Canvas(), middle(c.hex))
	test.TapCanvas(w.Canvas(), middle(c.greyBox))
	if !slices.Equal(p.deleted, []int{3}) || !slices.Equal(p.copied, []int{3}) || !slices.Equal(p.selected, []int{3}) {
		t.Errorf("by pointer: %+v", p)
	}
	w.Canvas().Focus(c)
	line := NewTheme(settings.GroundDark).Color(ColorNameFocusLine, 0)
	if width := c.panel.inside.Position().X; width != FocusWidth || c.panel.edge.FillColor != line {
		t.Errorf("outline of the focus: %v wide, %v", width, c.panel.edge.FillColor)
	}
	for _, key := range []fyne.KeyName{fyne.KeyReturn, fyne.KeySpace, fyne.KeyDelete, fyne.KeyUp} {
		c.TypedKey(&fyne.KeyEvent{Name: key})
	}
	if len(p.copied) != 3 || len(p.deleted) != 2 {
		t.Errorf("by keys: %+v", p)
	}
	w.Canvas().Unfocus()
	if c.panel.edge.FillColor == line {
		t.Error("the outline stays after the focus")
	}
}

// A card without a reading copies nothing; one without a spot does nothing at all by pointer.
func TestCardWithoutReading(t *testing.T) {
	var p pressings
	c := newSpotCard(0, p.acts())
	w := shownIn(t, c, 178, cardHeight(178))
	c.set(wording.SayLostCard("A", false))
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	test.TapCanvas(w.Canvas(), c.hex.Position().AddXY(2, 8))
	if len(p.copied) > 0 {
		t.Error("a colour was copied that nobody read")
	}
	c.set(wording.SayEmptyCard("A"))
	p = pressings{}
	test.TapCanvas(w.Canvas(), c.cross.Position().AddXY(4, 4))
	if len(p.deleted)+len(p.selected)+len(p.copied) > 0 || c.cross.Visible() {
		t.Errorf("an empty card was pressed: %+v", p)
	}
}

func TestCardGridResizes(t *testing.T) {
	g := NewCardGrid(CardActs{})
	w := shownIn(t, g, 364, 1000)
	texts := extremes()
	if !g.Set(texts[:2]) || g.Set(texts[1:3]) {
		t.Error("the grid is to ask for another height for another number of cards only")
	}
	if got := g.MinSize().Height; got != cardHeight(178) {
		t.Errorf("two cards side by side are %g high", got)
	}
	w.Resize(fyne.NewSize(304, 1000))
	if got := g.MinSize().Height; got != 2*cardHeight(304)+Step {
		t.Errorf("two cards below each other are %g high", got)
	}
	if g.Set(nil); g.MinSize().Height != 0 {
		t.Errorf("no cards are %g high", g.MinSize().Height)
	}
}
