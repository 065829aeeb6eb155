package ink

import (
	"strings"
	"testing"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"pgregory.net/rapid"

	"app.tonedesk/gui/language"
)

// lendSquares lends squares, of nine tenths of their size on the line, for kana and Han.
func lendSquares(t *testing.T) {
	Borrow(func(r rune, _ bool) (float64, []sfnt.Segment) {
		if r < 0x3000 || r > 0x9fff {
			return 0, nil
		}
		at := func(x, y float64) [3]fixed.Point26_6 {
			return [3]fixed.Point26_6{{X: fixed.Int26_6(x * gridSize * 64), Y: fixed.Int26_6(y * gridSize * 64)}}
		}
		return 1, []sfnt.Segment{{Op: sfnt.SegmentOpMoveTo, Args: at(0, 0)}, {Op: sfnt.SegmentOpLineTo, Args: at(0.9, 0)},
			{Op: sfnt.SegmentOpLineTo, Args: at(0.9, -0.9)}, {Op: sfnt.SegmentOpLineTo, Args: at(0, -0.9)}}
	})
	t.Cleanup(func() { Borrow(nil) })
}

// What is borrowed is shown, has its width and is drawn where it stands, stamped and as an outline;
// before and afterwards, and where the lender lacks it, a letter is a box.
func TestBorrowed(t *testing.T) {
	const text = "値a가א"
	if got := Shown(text); got != "□a□□" {
		t.Errorf("nothing borrowed: %q", got)
	}
	lendSquares(t)
	if got := Shown(text); got != "値a□□" {
		t.Errorf("borrowed: %q", got)
	}
	if got, want := Width(Bold, "値段", 20), 40.0; got != want {
		t.Errorf("two squares of 20 are %g wide, want %g", got, want)
	}
	for _, size := range []float64{20, mostStamped + 20} {
		side := int(size) * 3
		img := ground(side, side, 0)
		at := Pt(size, 2*size)
		new(Drawer).Draw(img, img.Rect, []Mark{{Grey: 255, Text: Text{Regular, "値", at, size}}})
		for _, tt := range []struct {
			x, y float64 // in sizes, from the foot
			want uint8
		}{{0.1, -0.1, 255}, {0.8, -0.8, 255}, {0.45, -0.45, 255}, {-0.1, -0.5, 0}, {0.98, -0.5, 0}, {0.5, 0.1, 0}, {0.5, -0.98, 0}} {
			if got := img.RGBAAt(int(at.X+tt.x*size), int(at.Y+tt.y*size)).R; got != tt.want {
				t.Errorf("at size %g the place %g, %g is %d, want %d", size, tt.x, tt.y, got, tt.want)
			}
		}
	}
	if shapes := Borrowed(Regular, '値'); len(shapes) != 1 || len(shapes[0]) != 4 || shapes[0][2].Minus(Pt(0.9, -0.9)).Length() > 1e-4 {
		t.Errorf("its outlines are %v", shapes)
	}
	if Borrowed(Regular, 'a') != nil || Borrowed(Regular, '가') != nil {
		t.Error("what is built in or lacking is borrowed")
	}
	Borrow(nil)
	if got := Shown(text); got != "□a□□" {
		t.Errorf("given back: %q", got)
	}
}

// Lines of letters of East Asia are filled, say all that was said, and none begins with what closes
// or ends with what opens where there is another way.
func TestWrapEastern(t *testing.T) {
	lendSquares(t)
	l := Letters{Regular, 3}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`([値段明暗影]{1,4}([、。」]|「[光色]|12\.5)?){1,20}`).Draw(t, "text")
		width := rapid.Float64Range(18, 60).Draw(t, "width")
		lines := l.Wrap(text, width, 1000)
		if strings.Join(lines, "") != text {
			t.Fatalf("%q becomes %q", text, lines)
		}
		for i, line := range lines {
			if w := Width(l.Face, line, l.Size); w > width+1e-9 || i < len(lines)-1 && w < width-4*l.Size-1e-9 {
				t.Fatalf("%q is %g of %g wide", line, w, width)
			}
			letters := []rune(line)
			if i > 0 {
				before := []rune(lines[i-1])
				if !language.MayBreak(before[len(before)-1], letters[0]) {
					t.Fatalf("a line ends between %q", lines[i-1:i+1])
				}
			}
		}
	})
}
