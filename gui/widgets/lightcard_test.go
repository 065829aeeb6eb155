package widgets

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/wording"
)

// randomLight is a card of up to so many shadows.
func randomLight(t *rapid.T, most int) wording.LightCardText {
	text := wording.LightCardText{Rule: [2]float64{2, 3}, Lines: []string{"All four lie 2.4 to 2.5 tones below their lights.", "The yellow #6f8c32 disagrees: its hue is 43° off, toward orange."}}
	if rapid.Bool().Draw(t, "lit") {
		text.Quiet = []string{"Lit from the lower left, as 5 forms show.", "The cyan form at the upper right seems lit from above."}
	}
	for range rapid.IntRange(0, most).Draw(t, "shadows") {
		s := wording.LightShadow{Colour: colour.RGB{R: 40, G: 80, B: 120}, Tones: rapid.Float64Range(0, 9.9).Draw(t, "tones")}
		if rapid.Bool().Draw(t, "coloured") {
			s.HueShift = new(rapid.Float64Range(-179.9, 180).Draw(t, "shift"))
		}
		s.Deep, s.Hue = rapid.IntRange(0, 5).Draw(t, "deep") == 0, rapid.IntRange(0, 5).Draw(t, "hue") == 0
		text.Shadows = append(text.Shadows, s)
	}
	return text
}

// Whatever there is to say, the width and the size of text: no words lie over others or beyond the card,
// every shadow has a swatch on the scale of depths, every one with a hue one on the other, each between
// the ends of its axis, in order, and every one that disagrees is framed once at least.
func TestLightCardNeverOverlaps(t *testing.T) {
	for _, percent := range []int{100, 150, 200} {
		inText(t, percent)
		rapid.Check(t, func(t *rapid.T) {
			text := randomLight(t, 12)
			width := float32(rapid.IntRange(304, 484).Draw(t, "width")) - 2*Step
			card := NewLightCard()
			card.Set(text)
			test.WidgetRenderer(card)
			card.Resize(fyne.NewSize(width, 10))
			card.Resize(fyne.NewSize(width, card.MinSize().Height))
			wantApart(t, card)
			framed := make([]bool, len(text.Shadows))
			for i, r := range planLight(text, width).rows {
				wantOnAxis(t, r)
				if i == 0 && len(r.swatches) != len(text.Shadows) {
					t.Fatalf("%d swatches for %d shadows", len(r.swatches), len(text.Shadows))
				}
				for k, of := range r.of {
					framed[of] = framed[of] || r.framed[k]
					if i == 1 && text.Shadows[of].HueShift == nil {
						t.Fatal("what has no hue has a shift of it")
					}
				}
			}
			for i, s := range text.Shadows {
				if framed[i] != (s.Deep || s.Hue) {
					t.Fatalf("%+v is framed: %v", s, framed[i])
				}
			}
		})
	}
}

func wantOnAxis(t *rapid.T, r lightRow) {
	for k, s := range r.swatches {
		if middle := s.x + s.w/2; middle < r.from-0.01 || middle > r.to+0.01 {
			t.Fatalf("swatch %d stands at %g, off the axis from %g to %g", k, middle, r.from, r.to)
		}
	}
}

// What is moved apart lies apart where there is room for all, keeps its order, stays between the ends,
// and isn't moved where nothing meets.
func TestApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const from, to = 50, 350
		at := rapid.SliceOfN(rapid.Float32Range(from, to), 0, 40).Draw(t, "at")
		halves := make([]float32, len(at))
		room := float32(0)
		for i := range halves {
			halves[i] = rapid.SampledFrom([]float32{5.5, 9.5}).Draw(t, "half")
			room += 2 * halves[i]
		}
		got, meets := apart(at, halves, from, to), false
		for i := range at {
			if got[i] < from-0.01 || got[i] > to+0.01 || math.IsNaN(float64(got[i])) {
				t.Fatalf("%d lies at %g", i, got[i])
			}
			for k := range at {
				if at[i] < at[k] && got[i] > got[k]+0.01 {
					t.Fatalf("%d and %d change places", i, k)
				}
				if i == k {
					continue
				}
				meets = meets || absolute(at[i]-at[k]) < halves[i]+halves[k]
				if room <= to-from && absolute(got[i]-got[k]) < halves[i]+halves[k]-0.01 {
					t.Fatalf("%d and %d lie over each other at %g and %g", i, k, got[i], got[k])
				}
			}
		}
		for i := range at {
			if !meets && absolute(got[i]-at[i]) > 0.01 {
				t.Fatalf("%d is moved from %g to %g", i, at[i], got[i])
			}
		}
	})
}

func absolute(v float32) float32 { return max(v, -v) }

// The scales go as far as there are shadows (our choice); larger text stands a scale's name above it,
// and leaves out figures.
func TestLightScales(t *testing.T) {
	text := wording.LightCardText{Rule: [2]float64{2, 3}, Shadows: []wording.LightShadow{{Tones: 2.4, HueShift: new(44.0)}}}
	if d, h := depthScale(text), hueScale(text); d.from != 1 || d.to != 4 || h.from != -60 || h.to != 60 {
		t.Errorf("%+v, %+v", d, h)
	}
	text.Shadows = append(text.Shadows, wording.LightShadow{Tones: 0.5, HueShift: new(-110.0)}, wording.LightShadow{Tones: 5.2})
	if d, h := depthScale(text), hueScale(text); d.from != 0 || d.to != 6 || h.from != -120 || h.to != 120 {
		t.Errorf("%+v, %+v", d, h)
	}
	text.Rule = [2]float64{2, 7.5}
	if d := depthScale(text); d.to != 8 {
		t.Errorf("the rule ends at 7.5, the scale at %g", d.to)
	}
	inText(t, 100)
	beside, names := planLight(text, 348).rows[1], textWidth("hue shift")
	inText(t, 200)
	above := planLight(text, 288).rows[1]
	if beside.name.X+names > beside.from || above.from > above.name.X+textWidth("hue shift") || above.name.Y+lightLine() > above.y {
		t.Errorf("names at %v before %g; %v above %g", beside.name, beside.from, above.name, above.y)
	}
	if len(beside.ticks) != 5 || len(above.ticks) >= len(beside.ticks) || len(above.ticks) < 2 {
		t.Errorf("%v; %v", beside.ticks, above.ticks)
	}
}

// A choice that is off can't be chosen, by a press or a key, and can again; a word gives way to its
// short one where the row is narrow.
func TestChoiceThatIsOff(t *testing.T) {
	test.NewTempApp(t)
	chosen := -1
	c := NewChoices([]Choice{{Word: "Cool"}, {Word: "Warm"}, {Word: "As in this picture", Short: "As here"}}, nil, nil, func(i int) { chosen = i })
	c.Set(1)
	last := func() *fyne.PointEvent {
		pos, size := c.Target(2)
		return &fyne.PointEvent{Position: pos.AddXY(size.Width/2, size.Height/2)}
	}
	c.Resize(fyne.NewSize(300, 32))
	c.SetOff(2, "Not known")
	c.Tapped(last())
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if chosen != -1 || c.Off(2) != "Not known" || c.shown(2, 300).Word != "As in this picture" {
		t.Errorf("%d is chosen", chosen)
	}
	c.SetOff(2, "")
	if c.Tapped(last()); chosen != 2 {
		t.Errorf("%d is chosen, want 2", chosen)
	}
	if least := c.MinSize().Width; least > 190 || c.shown(2, least).Word != "As here" {
		t.Errorf("in its least width of %g it says %q", least, c.shown(2, least).Word)
	}
}
