package typeface

import (
	"bytes"
	"math"
	"testing"

	"github.com/go-text/typesetting/font"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Lines and widths are those that another reader of typefaces finds (golang.org/x/image/font/sfnt),
// which rounds to whole units of the typeface, of which there are 2048; a letter that is lacking has
// none.
func TestLinesOf(t *testing.T) {
	face, err := font.ParseTTF(bytes.NewReader(goregular.TTF))
	if err != nil {
		t.Fatal(err)
	}
	other, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		t.Fatal(err)
	}
	var buf sfnt.Buffer
	for _, r := range "AgÄ%ж→" {
		number, _ := other.GlyphIndex(&buf, r)
		wide, _ := other.GlyphAdvance(&buf, number, fixed.I(1024), 0)
		want, err := other.LoadGlyph(&buf, number, fixed.I(1024), nil)
		if err != nil {
			t.Fatal(err)
		}
		advance, lines := linesOf(face, r)
		if math.Abs(advance-float64(wide)/64/1024) > 1e-4 || len(lines) != len(want) {
			t.Fatalf("%c: %g wide of %d lines, want %g of %d", r, advance, len(lines), float64(wide)/64/1024, len(want))
		}
		for i, line := range lines {
			if line.Op != want[i].Op {
				t.Errorf("%c: line %d is of kind %d, want %d", r, i, line.Op, want[i].Op)
			}
			for k, p := range line.Args {
				if d := p.Sub(want[i].Args[k]); max(d.X, -d.X, d.Y, -d.Y) > 64*1024/2048/2 {
					t.Errorf("%c: line %d goes by %v, want %v", r, i, p, want[i].Args[k])
				}
			}
		}
	}
	if advance, lines := linesOf(face, 'あ'); advance != 0 || lines != nil {
		t.Errorf("a letter that the typeface lacks has %d lines", len(lines))
	}
}

// Whatever the system has, a search answers: with lines and a width, or with neither.
func TestOutlineAnswers(t *testing.T) {
	for _, r := range "Aあ高가\u0001\U0010ffff" {
		if advance, lines := Outline(r, true); (advance > 0) != (len(lines) > 0) || Draws(r) != (len(lines) > 0) {
			t.Errorf("%q: %g wide, %d lines", r, advance, len(lines))
		}
	}
}
