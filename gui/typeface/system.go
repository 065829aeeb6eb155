package typeface

import (
	"math"
	"sync"

	"github.com/go-text/typesetting/font"
	"github.com/go-text/typesetting/font/opentype"
	"github.com/go-text/typesetting/fontscan"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// system are the system's typefaces, searched as the toolkit searches what its own lacks, by the
// same index. The first search on a system takes a second or so. It is safe for concurrent use.
var system struct {
	sync.Mutex
	fonts *fontscan.FontMap // nil before the first search; empty where none can be read
}

// Draws reports whether a typeface of the system has a letter.
func Draws(r rune) bool {
	_, lines := Outline(r, false)
	return lines != nil
}

// Outline is how a typeface of the system draws a letter, bold where there is such a one: how far
// it moves the next letter, in sizes of the letters, and its lines at a size of 1024 pixels, downward
// from the left end of its foot. No lines are returned where no typeface has the letter, or only
// as a picture.
func Outline(r rune, bold bool) (advance float64, lines []sfnt.Segment) {
	system.Lock()
	defer system.Unlock()
	defer func() { // a damaged typeface is another's
		if recover() != nil {
			advance, lines = 0, nil
		}
	}()
	if face := faceWith(r, bold); face != nil {
		return linesOf(face, r)
	}
	return 0, nil
}

func linesOf(face *font.Face, r rune) (advance float64, lines []sfnt.Segment) {
	number, has := face.NominalGlyph(r)
	drawn, shaped := face.GlyphData(number).(font.GlyphOutline)
	if !has || !shaped || len(drawn.Segments) == 0 {
		return 0, nil
	}
	unit := 1 / float64(face.Upem())
	for _, s := range drawn.Segments {
		line := sfnt.Segment{Op: sfnt.SegmentOp(s.Op)} // both count move, line, curve of two, of three points
		for i, p := range s.Args {
			line.Args[i] = onGrid(p, unit)
		}
		lines = append(lines, line)
	}
	return float64(face.HorizontalAdvance(number)) * unit, lines
}

// onGrid returns a place, whose typeface has such a unit, at a size of 1024 pixels.
func onGrid(p opentype.SegmentPoint, unit float64) fixed.Point26_6 {
	at := func(v float64) fixed.Int26_6 { return fixed.Int26_6(math.Round(v * unit * 1024 * 64)) }
	return fixed.Point26_6{X: at(float64(p.X)), Y: at(-float64(p.Y))}
}

func faceWith(r rune, bold bool) *font.Face {
	if system.fonts == nil {
		system.fonts = fontscan.NewFontMap(silent{})
		_ = system.fonts.UseSystemFonts("") // then there are none
	}
	aspect := font.Aspect{}
	if bold {
		aspect.Weight = font.WeightBold
	}
	system.fonts.SetQuery(fontscan.Query{Families: []string{fontscan.SansSerif}, Aspect: aspect})
	return system.fonts.ResolveFace(r)
}

// silent hears what is wrong with typefaces, which is no matter of ours.
type silent struct{}

func (silent) Printf(string, ...any) {}
