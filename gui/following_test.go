package gui

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"math/rand/v2"
	"testing"

	"app.tonedesk/assets"
	"app.tonedesk/gui/settings"
)

// seenAt is what a window of 700 x 600 shows of the demo painting that is panned in it.
func seenAt(t *testing.T, at image.Point) *image.NRGBA {
	t.Helper()
	demo, err := png.Decode(bytes.NewReader(assets.DemoPNG))
	if err != nil {
		t.Fatal(err)
	}
	img := image.NewNRGBA(image.Rect(0, 0, 700, 600))
	draw.Draw(img, img.Rect, demo, at, draw.Src)
	return img
}

// Spots go with a picture that is panned, and so do those that undo goes back to; nobody has to be
// told.
func TestSpotsFollow(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.see(t, seenAt(t, image.Pt(200, 120)))
	skin, shadow := assets.Places[0].At.Sub(image.Pt(200, 120)), assets.Places[1].At.Sub(image.Pt(200, 120))
	press(d.Mirror, skin, 0)
	press(d.Mirror, shadow, 0)
	d.see(t, seenAt(t, image.Pt(200, 120)))
	by := image.Pt(-64, -28)
	d.see(t, seenAt(t, image.Pt(200, 120).Sub(by)))
	for i, was := range []image.Point{skin, shadow} {
		p := d.setup.Places[i]
		if off := p.At.Sub(was.Add(by)); p.Moved || max(off.X, off.Y, -off.X, -off.Y) > 3 { // the mirror's own pixel is up to 2 wide
			t.Errorf("spot %d lies at %v, want about %v; lost: %v", i, p.At, was.Add(by), p.Moved)
		}
		if got, want := d.last.spots[i].Value, assets.Places[i].Value; math.Abs(got-want) > 0.05 { // as the painting declares it
			t.Errorf("spot %d has value %.2f, want %g", i, got, want)
		}
	}
	d.Undo()
	if p := d.setup.Places; len(p) != 1 || p[0].At != d.setup.Places[0].At || p[0].At.X > skin.X-50 {
		t.Errorf("after undo the spots lie at %v, want one that followed", p)
	}
}

// Another picture is nothing to follow: the spots are said to be lost.
func TestSpotsAreLostOnAnotherPicture(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.see(t, seenAt(t, image.Pt(200, 120)))
	press(d.Mirror, image.Pt(390, 150), 0)
	d.see(t, seenAt(t, image.Pt(200, 120)))
	other := image.NewNRGBA(image.Rect(0, 0, 700, 600))
	dice := rand.New(rand.NewPCG(1, 2))
	for range 60 { // sheets of all greys over each other
		at, v := image.Pt(dice.IntN(640)-40, dice.IntN(540)-40), uint8(dice.IntN(256))
		draw.Draw(other, image.Rectangle{at, at.Add(image.Pt(60+dice.IntN(160), 60+dice.IntN(160)))}, image.NewUniform(color.NRGBA{v, v, v, 255}), image.Point{}, draw.Src)
	}
	d.see(t, other)
	if !d.setup.Places[0].Moved || d.parts.sentence.Text().Title != "Place the spots again" {
		t.Errorf("the spot is %+v, the sentence %q", d.setup.Places[0], d.parts.sentence.Text().Title)
	}
}

// Where the painting is hidden, and nothing else is seen, no verdict holds; once it is back, at another
// size or as it was, the spots lie on it where they lay and are no longer said to be lost.
func TestSpotsWaitForTheirPicture(t *testing.T) {
	whole := seenAt(t, image.Pt(200, 120))
	ground := image.NewUniform(color.NRGBA{70, 70, 70, 255})
	for _, zoom := range []float64{1, 0.75} {
		d := newTestDesk(t, settings.Defaults()) // anew: a picture that comes and goes flashes
		d.see(t, whole)
		for _, p := range assets.Places[:2] {
			press(d.Mirror, p.At.Sub(image.Pt(200, 120)), 0)
		}
		d.see(t, whole)
		before := d.setup.Places
		bare, back := image.NewNRGBA(whole.Rect), image.NewNRGBA(whole.Rect)
		draw.Draw(bare, bare.Rect, ground, image.Point{}, draw.Src)
		draw.Draw(back, back.Rect, ground, image.Point{}, draw.Src)
		for y := range int(float64(whole.Rect.Dy()) * zoom) {
			for x := range int(float64(whole.Rect.Dx()) * zoom) {
				back.Set(x, y, whole.At(int(float64(x)/zoom), int(float64(y)/zoom)))
			}
		}
		for range 2 {
			d.see(t, bare)
			if !d.setup.Places[0].Moved || !d.setup.Places[1].Moved || d.parts.sentence.Text().Title != "Place the spots again" {
				t.Errorf("on the bare desktop: %+v, %q", d.setup.Places, d.parts.sentence.Text().Title)
			}
		}
		d.see(t, back)
		for i, was := range before {
			p := d.setup.Places[i]
			want := image.Pt(int(float64(was.At.X)*zoom), int(float64(was.At.Y)*zoom))
			if off := p.At.Sub(want); p.Moved || max(off.X, off.Y, -off.X, -off.Y) > 2 {
				t.Errorf("back at %g: spot %d at %v, want about %v; lost: %v", zoom, i, p.At, want, p.Moved)
			}
			if got, want := d.last.spots[i].Value, assets.Places[i].Value; math.Abs(got-want) > 0.05 { // as the painting declares it
				t.Errorf("back at %g: spot %d has value %.2f, want %g", zoom, i, got, want)
			}
		}
		if title := d.parts.sentence.Text().Title; title != "B is 2.5\u00a0tones darker" { // as the painting declares it
			t.Errorf("back at %g, the sentence says %q", zoom, title)
		}
	}
}
