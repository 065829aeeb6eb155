package widgets

import (
	"math"

	"fyne.io/fyne/v2"
)

// Where everything lies in the window, in Fyne units. Nothing here knows of words: what is fixed
// never moves because of them.

type rect struct{ x, y, w, h float32 }

func (r rect) bottom() float32 { return r.y + r.h }

// pageRows is where everything lies. Messages lie over the picture, and take no room.
type pageRows struct{ bar, mirror, strip, sentence, lower, tabs rect }

// pageForm is how the parts stand in a window.
type pageForm struct {
	size fyne.Size
	text float32 // by how much the text is larger than its plain size, 1 to 2
	wide bool    // picture left, page right
	low  bool    // little height: smaller rows, and the strip beside the picture unless it is wide
}

// Widths and heights that choose the form (our choice: a second column needs the main window's
// width and a picture that is larger than there; under the low height the page has no room).
const (
	wideFrom    = 100 * Step   // 800
	lowUnder    = 75 * Step    // 600
	largeFrom   = 1.5          // text from which the low form holds
	lowForLarge = 112.5 * Step // under 900
)

// Lengths of the rows.
const (
	sideWidth   = 45.5 * Step // of the page in a wide window, 364
	leastMirror = 20 * Step   // height of the picture, 160
	mirrorShare = 0.42        // of the window's height, the most for the picture
	leastPage   = 15 * Step   // height of what is scrolled, for which a high picture gives way (our choice)
	narrowStrip = 17.5 * Step // the least where the picture would else be too low: four buttons that a pen hits
	leastBeside = 20 * Step   // width of the picture beside the strip (our choice: as its height)
	stripBeside = 10 * Step   // width of the strip beside the picture, 80
	lowGap      = 6
	Gutter      = Step // right of what is scrolled, for the scroll bar
)

func formOf(size fyne.Size, text float32) pageForm {
	f := pageForm{size: size, text: text, wide: size.Width >= wideFrom}
	f.low = size.Height < lowUnder || !f.wide && text >= largeFrom && size.Height < lowForLarge
	return f
}

// beside reports whether the strip stands beside the picture.
func (f pageForm) beside() bool { return f.low && !f.wide }

// rowsOf are the heights of the rows of a form: those of the plain size of text, grown with it.
// The space around what stands in the bar and in the tabs stays.
func (f pageForm) heights() (bar, strip, sentence, line, tabs, gap float32) {
	grown := func(v float32) float32 { return float32(math.Ceil(float64(v * f.text))) }
	bar, strip, line, tabs, gap = grown(36)+12, grown(32), grown(36), grown(40), Step
	sentence = grown(64)
	if f.low {
		bar, tabs, gap, sentence = grown(32)+8, grown(36), lowGap, line
	}
	return bar, strip, sentence, line, tabs, gap
}

// pageRowsFor is the geometry of the window: proportion is the picture's height by its width, and
// lines says how many lines the sentence has, 0 where there is none.
func pageRowsFor(f pageForm, proportion float32, lines int) (r pageRows) {
	switch {
	case f.wide:
		r = f.wideRows()
	case f.low:
		r = f.lowRows(proportion)
	default:
		r = f.plainRows(proportion)
	}
	if lines == 2 || f.low && lines > 0 || f.wide && lines > 0 {
		return r
	}
	if _, _, _, line, _, _ := f.heights(); lines == 1 { // the page begins higher
		r.lower.h += r.sentence.h - line
		r.lower.y -= r.sentence.h - line
		r.sentence.h = line
	} else if !f.wide {
		r.lower.h += r.lower.y - r.sentence.y
		r.lower.y, r.sentence.h = r.sentence.y, 0
	} else {
		r.sentence.h = 0
	}
	return r
}

// seenPart is where a picture lies in the mirror's room that is higher than it: what is said over
// the picture keeps to that, as long as it leaves room for it.
func seenPart(mirror rect, proportion float32) rect {
	h := min(max(round(mirror.w*proportion), leastMirror), mirror.h)
	return rect{mirror.x, mirror.y + round((mirror.h-h)/2), mirror.w, h}
}

// plainRows stand below each other.
func (f pageForm) plainRows(proportion float32) (r pageRows) {
	bar, strip, sentence, _, tabs, gap := f.heights()
	w, h := f.size.Width, f.size.Height
	inner := w - 2*Step
	r.bar = rect{0, 0, w, bar}
	r.tabs = rect{0, h - tabs, w, tabs}
	room := r.tabs.y - gap - gap - sentence - strip - bar - gap // for picture and page
	r.mirror = rect{Step, bar + gap, inner, f.mirrorHeight(inner, proportion, room)}
	r.strip = rect{Step, r.mirror.bottom(), inner, strip}
	r.sentence = rect{Step, r.strip.bottom(), inner, sentence}
	r.lower = rect{Step, r.sentence.bottom() + gap, inner, 0}
	r.lower.h = max(r.tabs.y-gap-r.lower.y, 0)
	return r
}

// lowRows have the strip beside the picture.
func (f pageForm) lowRows(proportion float32) (r pageRows) {
	bar, _, sentence, _, tabs, gap := f.heights()
	w, h := f.size.Width, f.size.Height
	inner := w - 2*Step
	r.bar = rect{0, 0, w, bar}
	r.tabs = rect{0, h - tabs, w, tabs}
	side := f.sideWidth(inner, proportion)
	room := r.tabs.y - 3*gap - sentence - bar - lowFoot
	r.mirror = rect{Step, bar + gap, max(inner-Step-side, 0), 0}
	r.mirror.h = f.mirrorHeight(r.mirror.w, proportion, room)
	r.strip = rect{w - Step - side, r.mirror.y, side, r.mirror.h}
	r.sentence = rect{Step, r.mirror.bottom() + gap, inner, sentence}
	r.lower = rect{Step, r.sentence.bottom() + gap, inner, 0}
	r.lower.h = max(r.tabs.y-lowFoot-r.lower.y, 0)
	return r
}

// sideWidth is the strip's beside the picture: it grows with the text, but leaves the picture the width
// for its least height.
func (f pageForm) sideWidth(inner, proportion float32) float32 {
	forPicture := float32(math.Floor(float64(inner - Step - leastMirror/proportion)))
	side := min(round(stripBeside*f.text), inner-Step-leastBeside, max(forPicture, narrowStrip))
	return max(side, stripBeside)
}

// lowFoot is between page and tabs in the low form.
const lowFoot = Step / 2

// wideRows have picture, strip and sentence left, and the page with its tabs right.
func (f pageForm) wideRows() (r pageRows) {
	bar, strip, sentence, _, tabs, gap := f.heights()
	w, h := f.size.Width, f.size.Height
	x := w - Step - sideWidth
	left := x - 2*Step
	r.bar = rect{0, 0, w, bar}
	r.tabs = rect{x, bar + gap, sideWidth, tabs}
	r.lower = rect{x, r.tabs.bottom() + gap, sideWidth, 0}
	r.lower.h = max(h-gap-r.lower.y, 0)
	r.sentence = rect{Step, h - gap - sentence, left, sentence}
	r.strip = rect{Step, r.sentence.y - gap - strip, left, strip}
	r.mirror = rect{Step, bar + gap, left, 0}
	r.mirror.h = max(r.strip.y-gap-r.mirror.y, 0)
	return r
}

// mirrorHeight is the picture's height in a width: as the source's proportion asks, between the
// least and a share of the window, and where the text is large so that the page keeps some room.
func (f pageForm) mirrorHeight(width, proportion, room float32) float32 {
	most := min(mirrorShare*f.size.Height, room-leastPage)
	return whole(min(max(min(width*proportion, most), leastMirror), max(room, 0)))
}

// whole is a length in whole units: a picture between pixels would be blurred.
func whole(v float32) float32 { return float32(math.Round(float64(v))) }
