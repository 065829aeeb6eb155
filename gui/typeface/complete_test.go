package typeface

import (
	"bytes"
	"encoding/binary"
	"errors"
	"testing"

	"fyne.io/fyne/v2/theme"
	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// carried are the typefaces that the window is set in.
var carried = map[string][]byte{
	"regular": theme.DefaultTextFont().Content(),
	"bold":    theme.DefaultTextBoldFont().Content(),
}

// read is a typeface as a reader of typefaces that isn't ours has it.
type read struct {
	*sfnt.Font
	buf sfnt.Buffer
}

func readTypeface(t *testing.T, ttf []byte) *read {
	t.Helper()
	f, err := sfnt.Parse(ttf)
	if err != nil {
		t.Fatal(err)
	}
	return &read{Font: f}
}

func (r *read) sign(t *testing.T, c rune) (number sfnt.GlyphIndex, in fixed.Rectangle26_6, advance fixed.Int26_6) {
	t.Helper()
	number, err := r.GlyphIndex(&r.buf, c)
	if err != nil {
		t.Fatal(err)
	}
	in, advance, err = r.GlyphBounds(&r.buf, number, fixed.I(int(r.UnitsPerEm())), font.HintingNone)
	if err != nil {
		t.Fatal(err)
	}
	return number, in, advance
}

// The minus has the plus's width, ends and height, and the en dash's thickness (by its definition
// here); the arrow lies on the same line, as thick at least as the head's slant leaves it.
func TestComplete(t *testing.T) {
	for name, ttf := range carried {
		t.Run(name, func(t *testing.T) {
			whole, err := Complete(ttf)
			if err != nil {
				t.Fatal(err)
			}
			r := readTypeface(t, whole)
			_, plus, plusWide := r.sign(t, '+')
			_, dash, _ := r.sign(t, '–')
			number, minus, wide := r.sign(t, Minus)
			if number == 0 || wide != plusWide || minus.Min.X != plus.Min.X || minus.Max.X != plus.Max.X {
				t.Errorf("the minus is sign %d from %v to %v, %v wide; the plus from %v to %v, %v wide", number, minus.Min.X, minus.Max.X, wide, plus.Min.X, plus.Max.X, plusWide)
			}
			middle := func(r fixed.Rectangle26_6) fixed.Int26_6 { return (r.Min.Y + r.Max.Y) / 2 }
			if thick := minus.Max.Y - minus.Min.Y; thick != dash.Max.Y-dash.Min.Y || (middle(minus)-middle(plus)).Ceil() > 1 || (middle(plus)-middle(minus)).Ceil() > 1 {
				t.Errorf("the minus is %v thick at %v; the en dash is %v thick, the plus's middle %v", thick, middle(minus), dash.Max.Y-dash.Min.Y, middle(plus))
			}
			number, arrow, wide := r.sign(t, Arrow)
			if number == 0 || wide <= plusWide || arrow.Max.X >= wide || (middle(arrow)-middle(plus)).Ceil() > 1 || (middle(plus)-middle(arrow)).Ceil() > 1 {
				t.Errorf("the arrow is sign %d, %v wide, in %v", number, wide, arrow)
			}
		})
	}
}

// Nothing else changes: every code has the outline and the width that it had.
func TestCompleteKeepsTheRest(t *testing.T) {
	for name, ttf := range carried {
		t.Run(name, func(t *testing.T) {
			whole, err := Complete(ttf)
			if err != nil {
				t.Fatal(err)
			}
			before, after := readTypeface(t, ttf), readTypeface(t, whole)
			seen := 0
			for c := rune(0); c < 0x1ffff; c++ {
				was, _ := before.GlyphIndex(&before.buf, c)
				is, _ := after.GlyphIndex(&after.buf, c)
				if was != is && c != Minus && c != Arrow {
					t.Fatalf("%U was sign %d, and is %d", c, was, is)
				}
				if was == 0 {
					continue
				}
				seen++
				_, in, wide := before.sign(t, c)
				if _, now, nowWide := after.sign(t, c); now != in || nowWide != wide {
					t.Fatalf("%U was %v wide in %v, and is %v in %v", c, wide, in, nowWide, now)
				}
			}
			if seen < 1000 {
				t.Errorf("only %d codes were there", seen)
			}
		})
	}
}

// A typeface that has both signs stays as it is: the Go fonts do (WGL4).
func TestCompleteOfAWholeOne(t *testing.T) {
	whole, err := Complete(goregular.TTF)
	if err != nil || !bytes.Equal(whole, goregular.TTF) {
		t.Errorf("a whole typeface was changed, error %v", err)
	}
}

// Damaged ones are refused or read, and never break the program; what is whole stays as it is.
func FuzzComplete(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte("not a typeface"))
	f.Add(goregular.TTF[:4096])
	f.Add(binary.BigEndian.AppendUint32(nil, trueType))
	f.Fuzz(func(t *testing.T, ttf []byte) {
		whole, err := Complete(ttf)
		if err != nil {
			if !errors.Is(err, ErrUnknown) {
				t.Errorf("%d bytes give the error %v", len(ttf), err)
			}
			return
		}
		if again, err := Complete(whole); err != nil || !bytes.Equal(again, whole) {
			t.Errorf("a whole typeface of %d bytes becomes another of %d, error %v", len(whole), len(again), err)
		}
	})
}
