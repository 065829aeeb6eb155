package live

import (
	"bytes"
	"fmt"
	"image"
	"math/rand/v2"
	"testing"
	"time"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/capture"
	"app.tonedesk/gui/settings"
)

// sameShown says what differs between what two workers show; empty for nothing.
func sameShown(a, b *Shown) string {
	said := func(r analysis.Reading) string { r.Grey = nil; return fmt.Sprintf("%+v", r) }
	switch {
	case a.Bounds != b.Bounds || a.Part != b.Part:
		return "where it lies"
	case !bytes.Equal(a.Reading.Grey, b.Reading.Grey):
		return "the plane"
	case said(*a.Reading) != said(*b.Reading):
		return "the figures"
	case a.Img.Rect != b.Img.Rect || !bytes.Equal(a.Img.Pix, b.Img.Pix):
		return "the mirror"
	case (a.Beside == nil) != (b.Beside == nil) || a.Beside != nil && !bytes.Equal(a.Beside.Pix, b.Beside.Pix):
		return "the small picture"
	}
	return ""
}

// someWanted changes one thing of what is wanted.
func someWanted(rng *rand.Rand, next *Wanted) {
	switch rng.IntN(8) {
	case 0:
		next.Settings.View = [...]string{settings.ViewGrey, "colour", "squint", "edges", "small", "two-tone"}[rng.IntN(6)]
	case 1:
		next.Covered = image.Rect(90, 40, 100+rng.IntN(60), 50+rng.IntN(40))
	case 2:
		next.Setup = next.Setup.LeavingOut(image.Rect(120, 60, 120+rng.IntN(20), 70))
	case 3:
		x, y := rng.IntN(20), rng.IntN(20)
		next.Lay = func(bounds image.Rectangle) Lay {
			return Lay{image.Rectangle{Min: bounds.Min.Add(image.Pt(x, y)), Max: bounds.Min.Add(image.Pt(x+28, y+20))}, image.Pt(20, 20)}
		}
	case 4:
		next.Lay = func(bounds image.Rectangle) Lay { return Lay{bounds, image.Pt(40, 30)} }
	case 5:
		next.Settings.NoGround = !next.Settings.NoGround
	case 6:
		at := image.Pt(100+rng.IntN(46), 50+rng.IntN(24))
		next.Setup.Source.Region = image.Rectangle{Min: at, Max: at.Add(image.Pt(50, 40))}
	case 7:
		next.Settings.Flipped = !next.Settings.Flipped
	}
}

// Whatever comes between (frames held back, work that breaks down, something else wanted, another
// part of the picture, a frame once more), a worker that is told what changed shows what one shows
// that is not: the last change is never lost.
func TestChangesAreNeverLost(t *testing.T) {
	shown, broken, held := 0, 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(rt, "seed"), 83))
		told, untold := newRig(t), newRig(t)
		told.reader.Steady, untold.reader.Steady = false, false
		p := analysistest.Painting(96, 64, analysis.BGRX)
		f := &capture.Frame{Pix: p.Pix, Stride: p.Stride, Size: image.Pt(96, 64), Layout: capture.BGRX, Origin: image.Pt(100, 50), At: time.Unix(7, 0)}
		told.next.Lay = func(bounds image.Rectangle) Lay { return Lay{bounds, image.Pt(40, 30)} }
		for i := range rapid.IntRange(1, 25).Draw(rt, "frames") {
			repeated := i > 0 && rng.IntN(4) == 0
			if rng.IntN(3) == 0 {
				someWanted(rng, &told.next)
			}
			f.Changed = image.Rectangle{}
			if !repeated {
				f.Changed = paintSome(rng, p)
			}
			told.now = told.now.Add(time.Duration(rng.IntN(300)) * time.Millisecond)
			untold.now = told.now
			told.next.Families, told.search = rng.IntN(8) == 0, nil // no search to offer the frame to: that breaks down
			untold.next, untold.search = told.next, nil
			before := len(told.log)
			one := told.see(f, repeated)
			whole := *f
			whole.Changed = image.Rectangle{}
			all := untold.see(&whole, repeated)
			switch {
			case one == nil && all == nil && len(told.log) > before:
				broken++
			case one == nil && all == nil:
				held++
			case one == nil || all == nil:
				rt.Fatalf("frame %d: shown %v, untold %v", i, one != nil, all != nil)
			default:
				shown++
				if what := sameShown(one, all); what != "" {
					rt.Fatalf("frame %d, changed in %v, repeated %v: %s differs", i, f.Changed, repeated, what)
				}
			}
		}
		told.Close()
		untold.Close()
	})
	if shown < lawtest.Least(200) || broken < lawtest.Least(20) || held < lawtest.Least(15) {
		t.Errorf("%d frames were shown, %d broke down, %d were held back", shown, broken, held)
	}
}

// paintSome paints somewhere and returns where; often nearly all of it black or white, which flashes.
func paintSome(rng *rand.Rand, p analysis.Pixels) (box image.Rectangle) {
	box = image.Rect(0, 0, 1+rng.IntN(20), 1+rng.IntN(20)).Add(image.Pt(rng.IntN(76), rng.IntN(44)))
	c := rng.Uint32()
	tint := colour.RGB{R: uint8(c), G: uint8(c >> 8), B: uint8(c >> 16)}
	if rng.IntN(3) == 0 {
		box = image.Rect(2, 2, 96, 64)
		v := uint8(255 * rng.IntN(2))
		tint = colour.RGB{R: v, G: v, B: v}
	}
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			analysistest.Set(p, x, y, tint, 255)
		}
	}
	return box
}
