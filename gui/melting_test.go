package gui

import (
	"image"
	"image/color"
	"strings"
	"testing"

	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// Over a lost edge, in their view, the strip says what melts into what; beside it, in another view,
// and when the pointer has left, it doesn't. The words keep within the strip in every window, and off
// its buttons; at the largest letters they have room for the figure alone.
func TestPointingAtALostEdge(t *testing.T) {
	rose, moss := color.NRGBA{0xc8, 0x7c, 0x80, 255}, color.NRGBA{0x81, 0x97, 0x5d, 255} // L* 60.1 and 59.5
	img := guitest.Halves(rose, moss)
	const middle, high = 200, 150
	for _, of := range []struct {
		width, height float32
		percent       int
	}{{380, 760, 100}, {380, 760, 150}, {320, 480, 100}, {320, 480, 200}, {380, 760, 200}, {1100, 760, 100}} {
		s := settings.Defaults()
		s.View, s.Width, s.Height, s.TextPercent = views.LostEdges, of.width, of.height, of.percent
		d := newTestDesk(t, s)
		melts := func(at image.Point, over bool) [3]string {
			d.looked(at, over)
			d.see(t, img)
			d.see(t, img)
			return d.parts.strip.Reading().Melts
		}
		got := melts(image.Pt(middle, high), true)
		if want := "Yellow melts into red: 0.1" + wording.Nbsp + "tones"; got[0] != want || got[2] != "Melts: 0.1" {
			t.Errorf("%v: it says %q, want %q", of, got, want)
		}
		words := shownWords(d.parts.strip)
		if len(words) == 0 || !strings.HasSuffix(strings.TrimSuffix(words[len(words)-1].Text, wording.Nbsp+"tones"), "0.1") {
			t.Fatalf("%v: %d words are shown", of, len(words))
		}
		if named := strings.Contains(words[0].Text, "Yellow"); named != (of.percent < 200) {
			t.Errorf("%v: it says %q: the names are there, %v", of, words[0].Text, named)
		}
		for _, w := range words {
			keepsOff(t, d.parts.strip, w)
		}
		if got := melts(image.Pt(middle/2, high), true); got[0] != "" {
			t.Errorf("%v: beside the edge it says %q", of, got)
		}
		if got := melts(image.Pt(middle, high), false); got[0] != "" {
			t.Errorf("%v: when the pointer has left it says %q", of, got)
		}
		d.settings.View = settings.ViewGrey
		d.settled()
		if got := melts(image.Pt(middle, high), true); got[0] != "" {
			t.Errorf("%v: in greys it says %q", of, got)
		}
	}
}

// keepsOff reports a text of a strip that lies on its buttons, or ends outside of it.
func keepsOff(t *testing.T, strip *widgets.Strip, w *canvas.Text) {
	t.Helper()
	end := w.Position().AddXY(w.MinSize().Width, w.MinSize().Height)
	for _, b := range []*widgets.Button{strip.Under, strip.Out, strip.Fit, strip.In} {
		if p, q := b.Position(), b.Position().Add(b.Size()); b.Visible() && w.Position().X < q.X && p.X < end.X && w.Position().Y < q.Y && p.Y < end.Y {
			t.Errorf("%q lies on a button", w.Text)
		}
	}
	if end.X > strip.Size().Width || end.Y > strip.Size().Height {
		t.Errorf("%q ends at %v of %v", w.Text, end, strip.Size())
	}
}

// shownWords are the texts of a strip that are seen.
func shownWords(s *widgets.Strip) (words []*canvas.Text) {
	for _, o := range test.WidgetRenderer(s).Objects() {
		if text, ok := o.(*canvas.Text); ok && text.Visible() && text.Text != "" {
			words = append(words, text)
		}
	}
	return words
}
