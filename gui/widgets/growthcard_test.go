package widgets

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/wording"
)

// randomGrowth is a card by chance.
func randomGrowth(t *rapid.T) wording.GrowthText {
	text := wording.GrowthText{Title: "since 21:40 dark and light middle have drawn together by 0.8 tones", About: "13 pictures, 21:10 to 23:10, taken out of 96"}
	for range rapid.IntRange(0, 4).Draw(t, "more") {
		text.More = append(text.More, "since 21:50 the hue shift of the orange #fbc752 has gone from 0 to −41°")
	}
	for range rapid.IntRange(0, 22).Draw(t, "lines") {
		l := wording.GrowthLine{Name: rapid.SampledFrom([]string{"dark", "dark middle to light middle", "hue shift"}).Draw(t, "name"), Turn: rapid.IntRange(-1, 2).Draw(t, "turn"),
			First: rapid.SampledFrom([]string{"2.0", "−41°", "100"}).Draw(t, "first"), Last: rapid.SampledFrom([]string{"10.0 tones", "+34°", "<1 %"}).Draw(t, "last"),
			Points: []wording.GrowthPoint{{X: 0, Y: 1}, {X: 0.4, Gap: true}, {X: 1, Y: 0.5}}}
		if rapid.Bool().Draw(t, "colours") {
			l.Colours = []colour.RGB{{R: 0xe2, G: 0xab, B: 0x85}, {R: 0xb2}}
		}
		text.Lines = append(text.Lines, l)
	}
	return text
}

// Whatever there is to say, the width and the size of text: no words lie over others or beyond the
// card, and every line has room of its own, beside its figures and not under its name.
func TestGrowthCardNeverOverlaps(t *testing.T) {
	for _, percent := range []int{100, 150, 200} {
		inText(t, percent)
		rapid.Check(t, func(t *rapid.T) {
			text := randomGrowth(t)
			width := float32(rapid.IntRange(304, 484).Draw(t, "width")) - 2*Step
			card := NewGrowthCard()
			card.Set(text)
			test.WidgetRenderer(card)
			card.Resize(fyne.NewSize(width, 10))
			card.Resize(fyne.NewSize(width, card.MinSize().Height))
			wantApart(t, card)
			p := planGrowth(text, width)
			end := float32(0)
			for i, r := range p.rows {
				if r.line.w < 48 || r.line.x < r.first.right || r.line.x+r.line.w > r.last.left || r.line.y < end || r.line.y+r.line.h > p.height {
					t.Fatalf("row %d: line %+v beside %+v and %+v", i, r.line, r.first, r.last)
				}
				end = r.line.y + r.line.h
			}
		})
	}
}

// A line is drawn where its figures are, in greys alone, and nowhere else; a disc stands where it turned.
func TestGrowthLinesDrawn(t *testing.T) {
	inText(t, 100)
	card := NewGrowthCard()
	card.Set(wording.GrowthText{Title: "a", About: "b", Lines: []wording.GrowthLine{{Name: "dark", First: "1", Last: "2", Turn: 1,
		Points: []wording.GrowthPoint{{X: 0, Y: 0}, {X: 0.5, Y: 1}, {X: 1, Y: 0}}}}})
	test.WidgetRenderer(card)
	card.Resize(fyne.NewSize(300, 10))
	card.Resize(fyne.NewSize(300, card.MinSize().Height))
	img := card.paintCharts(300, int(card.Size().Height)).(*image.NRGBA)
	at := func(x, y float64) (alpha uint8) {
		box := card.plan.rows[0].line
		return img.NRGBAAt(int(float64(box.x)+growthDisc+x*(float64(box.w)-2*growthDisc)), int(float64(box.y)+growthDisc+(1-y)*(float64(box.h)-2*growthDisc))).A
	}
	for _, on := range [][2]float64{{0, 0}, {0.5, 1}, {0.75, 0.5}, {1, 0}} {
		if at(on[0], on[1]) == 0 {
			t.Errorf("nothing is drawn at %v", on)
		}
	}
	for _, off := range [][2]float64{{0, 1}, {1, 1}, {0.5, 0.3}} {
		if at(off[0], off[1]) != 0 {
			t.Errorf("something is drawn at %v", off)
		}
	}
	box := card.plan.rows[0].line
	for i := 0; i < len(img.Pix); i += 4 {
		if img.Pix[i+3] != 0 && (img.Pix[i] != img.Pix[i+1] || img.Pix[i] != img.Pix[i+2]) {
			t.Fatal("a line has a hue")
		}
		x, y := float32(i/4%300), float32(i/4/300)
		if img.Pix[i+3] != 0 && (x < box.x-2 || x > box.x+box.w+2 || y < box.y-2 || y > box.y+box.h+2) {
			t.Fatalf("something is drawn at %v, %v, outside of %+v", x, y, box)
		}
	}
}
