package widgets

import (
	"math"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/settings"
)

// PageLayout lays the window out: bar, strip, mirror, sentence, below them what can be
// scrolled, and the tabs at the foot; in a wide window all from the sentence on stands
// beside the mirror.
type PageLayout struct {
	Bar                           *SourceBar
	Strip, Mirror, Verdict, Lower fyne.CanvasObject
	Tabs                          fyne.CanvasObject
	Content                       func() fyne.Size // of what is scrolled, at its width of now
	Rewrap                        func()           // lays what is scrolled anew, after its width changed
	width                         float32          // of what is scrolled, last
}

// Widths and heights of the page, in Fyne units.
const (
	wideFrom    = 95 * Step // from this width on there are two columns
	sideWidth   = 46 * Step // of the right one
	leastMirror = 18 * Step // height
	leastLower  = 12 * Step // height
	underStrip  = 10 * Step // least height of the mirror below the strip
	Gutter      = Step      // right of what is scrolled, for the scroll bar
)

// Layout places everything in size.
func (l *PageLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	rows := l.rows(size)
	put := func(o fyne.CanvasObject, r rect) {
		o.Move(fyne.NewPos(r.x, r.y))
		o.Resize(fyne.NewSize(max(r.w, 0), max(r.h, 0)))
	}
	put(l.Bar, rows.bar)
	put(l.Strip, rows.strip)
	put(l.Verdict, rows.verdict)
	rows.lower.w += Gutter
	put(l.Lower, rows.lower)
	if rows.lower.w != l.width { // wrapped texts know their heights only once they have their width
		l.width = rows.lower.w
		l.Rewrap()
	}
	put(l.Tabs, rows.tabs)
	put(l.Mirror, rows.mirror)
}

type rect struct{ x, y, w, h float32 }

// pageRows is where everything lies.
type pageRows struct{ bar, strip, mirror, verdict, lower, tabs rect }

func (l *PageLayout) rows(size fyne.Size) pageRows {
	var stripHeight float32
	if l.Strip.Visible() {
		l.Strip.Resize(fyne.NewSize(stripWidth(size), l.Strip.MinSize().Height)) // a wrapped text's height depends on its width
		stripHeight = l.Strip.MinSize().Height
	}
	inner := size.Width - 2*Step
	if size.Width >= wideFrom {
		inner = sideWidth
	}
	l.Lower.Resize(fyne.NewSize(inner+Gutter, l.Lower.Size().Height))
	return pageRowsFor(size, pageHeights{
		bar: l.Bar.heightFor(size.Width), strip: stripHeight,
		verdict: l.Verdict.MinSize().Height, content: l.Content().Height, tabs: l.Tabs.MinSize().Height,
	})
}

// pageHeights are the heights that the parts ask for.
type pageHeights struct{ bar, strip, verdict, content, tabs float32 }

// stripWidth is the strip's width: that of the mirror's column.
func stripWidth(size fyne.Size) float32 {
	if size.Width >= wideFrom {
		return size.Width - sideWidth - 2*Step
	}
	return size.Width
}

// pageRowsFor is the geometry of the page. The mirror gets what the others leave; where
// that is little, the scrolled part gives way first. The strip, which comes and goes, lies
// in the mirror's place, so that nothing moves away from under the pointer.
func pageRowsFor(size fyne.Size, h pageHeights) pageRows {
	// whole units: a picture between pixels would be blurred, and lines around it uneven
	whole := func(v float32) float32 { return float32(math.Ceil(float64(v))) }
	h.bar, h.strip, h.verdict, h.tabs = whole(h.bar), whole(h.strip), whole(h.verdict), whole(h.tabs)
	y := h.bar + Step
	left := size.Height - y - Step
	var r pageRows
	if size.Width >= wideFrom {
		x := size.Width - sideWidth - Step
		r.mirror = rect{Step, y, x - 2*Step, left}
		r.verdict = rect{x, y, sideWidth, h.verdict}
		r.lower = rect{x, y + h.verdict + Step, sideWidth, left - h.verdict - 2*Step - h.tabs}
		r.tabs = rect{x, y + left - h.tabs, sideWidth, h.tabs}
	} else {
		inner := size.Width - 2*Step
		left -= h.verdict + 2*Step + h.tabs
		r.tabs = rect{0, size.Height - h.tabs, size.Width, h.tabs}
		least := max(leastMirror, 0.4*left)
		lower := whole(max(min(h.content, left-least), min(leastLower, left/3)))
		r.mirror = rect{Step, y, inner, left - lower}
		r.verdict = rect{Step, y + r.mirror.h + Step, inner, h.verdict}
		r.lower = rect{Step, r.verdict.y + h.verdict + Step, inner, lower}
	}
	r.bar = rect{0, 0, size.Width, h.bar}
	r.strip = rect{0, h.bar, stripWidth(size), h.strip}
	r.mirror.y, r.mirror.h = r.mirror.y+h.strip, r.mirror.h-h.strip
	if short := underStrip - r.mirror.h; short > 0 && size.Width < wideFrom {
		r.mirror.h, r.verdict.y = underStrip, r.verdict.y+short
		r.lower.y, r.lower.h = r.lower.y+short, r.lower.h-short
	}
	return r
}

// MinSize is the smallest window in which everything still fits.
func (l *PageLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(settings.MinWidth, settings.MinHeight)
}
