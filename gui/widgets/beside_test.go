package widgets

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	_ "app.tonedesk/analysis/lawtest" // the same cases every time
)

// Wherever there is room, picture and small picture lie side by side, whole, inside the
// pane, apart from each other, and the picture is the larger; else the small one lies over
// its corner.
func TestArrangeBeside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		part := image.Rect(0, 0, rapid.IntRange(1, 4000).Draw(t, "width"), rapid.IntRange(1, 4000).Draw(t, "height"))
		w, h := analysis.SmallSize(part.Dx(), part.Dy(), rapid.IntRange(64, 256).Draw(t, "longer"))
		pane := fyne.NewSize(float32(rapid.IntRange(80, 1200).Draw(t, "pane width")), float32(rapid.IntRange(60, 900).Draw(t, "pane height")))
		scale := rapid.SampledFrom([]float32{1, 1.5, 2, 3}).Draw(t, "scale")
		l := ArrangeBeside(part, image.Pt(w, h), pane, scale, false)
		if l.OnCorner {
			if l.Picture != fitPicture(part, pane, scale, false) || l.OtherPos != l.Picture.Pos {
				t.Fatalf("over the corner: %+v", l)
			}
			return
		}
		for _, box := range [][2]float32{{l.Picture.Pos.X, l.Picture.Size.Width}, {l.OtherPos.X, l.OtherSize.Width}} {
			if box[0] < -1 || box[0]+box[1] > pane.Width+1 {
				t.Fatalf("out of the pane of %v: %+v", pane, l)
			}
		}
		for _, box := range [][2]float32{{l.Picture.Pos.Y, l.Picture.Size.Height}, {l.OtherPos.Y, l.OtherSize.Height}} {
			if box[0] < -1 || box[0]+box[1] > pane.Height+1 {
				t.Fatalf("out of the pane of %v: %+v", pane, l)
			}
		}
		right := l.OtherPos.X >= l.Picture.Pos.X+l.Picture.Size.Width+besideGap-0.01
		below := l.OtherPos.Y >= l.Picture.Pos.Y+l.Picture.Size.Height+besideGap-0.01
		if right == below {
			t.Fatalf("not beside, or twice: %+v", l)
		}
		if max(l.Picture.Size.Width, l.Picture.Size.Height) < max(l.OtherSize.Width, l.OtherSize.Height) {
			t.Fatalf("the small picture is the larger: %+v", l)
		}
	})
}
