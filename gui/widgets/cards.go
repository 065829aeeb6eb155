package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
)

// Card is a panel with parts below each other, a step from its edges and so far apart.
func Card(gap float32, parts ...fyne.CanvasObject) *fyne.Container {
	inner := container.New(layout.NewCustomPaddedVBoxLayout(gap), parts...)
	return container.NewStack(NewPanel(), container.New(layout.NewCustomPaddedLayout(Step, Step, Step, Step), inner))
}

// BaseRow stands in a row: a swatch, two lines of words below each other, a button, an entry and
// another button. Where the entry would be too narrow the last two get a row of their own.
type BaseRow struct{}

// baseSwatch is the width of the swatch where there is room.
const baseSwatch = 58

// basePlan are the widths in a row: of the swatch, the words and the entry, and the gap between all
// of them; below says that the entry and the last button have a row of their own.
type basePlan struct {
	swatch, words, entry, gap float32
	below                     bool
}

// planBase plans a row of this width. Where it is narrow the swatch and the gaps give way first.
func planBase(o []fyne.CanvasObject, width float32) basePlan {
	p := basePlan{swatch: baseSwatch, words: max(o[1].MinSize().Width, o[2].MinSize().Width), gap: Step}
	least, most := fyne.MeasureText("#dddddd", TextSize(), fyne.TextStyle{}).Width+2*Step, 13*Step*textScale()
	for {
		p.entry = width - p.swatch - p.words - 2*Row() - 4*p.gap
		switch {
		case p.entry >= least:
			p.entry = min(p.entry, most)
			p.words = width - p.swatch - p.entry - 2*Row() - 4*p.gap
			return p
		case p.swatch <= 5*Step:
			return basePlan{p.swatch, max(width-p.swatch-Row()-2*Step, 0), width - Row() - Step, Step, true}
		}
		p.swatch, p.gap = p.swatch-2, 0.75*Step
	}
}

// Layout stands the parts beside each other.
func (BaseRow) Layout(o []fyne.CanvasObject, size fyne.Size) {
	p, row := planBase(o, size.Width), Row()
	put(o[0], fyne.NewPos(0, (row-o[0].MinSize().Height)/2), fyne.NewSize(p.swatch, o[0].MinSize().Height))
	x := p.swatch + p.gap
	put(o[1], fyne.NewPos(x, 0), fyne.NewSize(p.words, row/2))
	put(o[2], fyne.NewPos(x, row/2), fyne.NewSize(p.words, row/2))
	high := max(row, o[4].MinSize().Height) // in less the toolkit's entry shows a scroll bar
	if p.below {
		put(o[3], fyne.NewPos(size.Width-row, 0), fyne.NewSquareSize(row))
		put(o[4], fyne.NewPos(0, row+Step), fyne.NewSize(p.entry, high))
		put(o[5], fyne.NewPos(size.Width-row, row+Step), fyne.NewSquareSize(row))
		return
	}
	put(o[5], fyne.NewPos(size.Width-row, 0), fyne.NewSquareSize(row))
	put(o[4], fyne.NewPos(size.Width-row-p.gap-p.entry, (row-high)/2), fyne.NewSize(p.entry, high))
	put(o[3], fyne.NewPos(size.Width-2*row-2*p.gap-p.entry, 0), fyne.NewSquareSize(row))
}

// MinSize is a row's or two rows'.
func (BaseRow) MinSize(o []fyne.CanvasObject) fyne.Size {
	width := plainPageWidth - 2*Step
	if last := o[5]; last.Size().Width > 0 {
		width = last.Position().X + last.Size().Width
	}
	if planBase(o, width).below {
		return fyne.NewSize(20*Step, 2*Row()+Step)
	}
	return fyne.NewSize(20*Step, Row())
}

// UnderRamp stands words and three swatches under the last three of a row of six.
type UnderRamp struct{}

// Layout gives the words the left half; the row leaves three places free there.
func (UnderRamp) Layout(o []fyne.CanvasObject, size fyne.Size) {
	put(o[0], fyne.Position{}, fyne.NewSize(float32(int(size.Width/2))-Step, size.Height))
	put(o[1], fyne.Position{}, size)
}

// MinSize is as high as the higher.
func (UnderRamp) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(20*Step, max(o[0].MinSize().Height, o[1].MinSize().Height))
}

// SwatchGroups stands groups of swatches beside each other, a line of words over each, in widths
// that are to each other as these; below each other where a group is narrower than its words.
type SwatchGroups struct{ Shares []float32 }

// groupGap is between two of them.
const groupGap = 1.5 * Step

// widths are those of the groups in a row; nil where words have no room.
func (g SwatchGroups) widths(o []fyne.CanvasObject, width float32) []float32 {
	sum := float32(0)
	for _, s := range g.Shares {
		sum += s
	}
	room := width - float32(len(g.Shares)-1)*groupGap
	widths := make([]float32, len(g.Shares))
	for i, s := range g.Shares {
		widths[i] = float32(int(room * s / sum))
		if widths[i] < o[2*i].MinSize().Width {
			return nil
		}
	}
	return widths
}

// Layout places words and swatches.
func (g SwatchGroups) Layout(o []fyne.CanvasObject, size fyne.Size) {
	widths, at := g.widths(o, size.Width), fyne.Position{}
	for i := range g.Shares {
		words, row := o[2*i], o[2*i+1]
		wide := size.Width
		if widths != nil {
			wide = widths[i]
		}
		put(words, at, fyne.NewSize(wide, words.MinSize().Height))
		put(row, at.AddXY(0, words.MinSize().Height), fyne.NewSize(wide, row.MinSize().Height))
		if widths != nil {
			at.X += wide + groupGap
		} else {
			at.Y += words.MinSize().Height + row.MinSize().Height + Step/2
		}
	}
}

// MinSize is as high as one of them, or all below each other.
func (g SwatchGroups) MinSize(o []fyne.CanvasObject) (size fyne.Size) {
	width := max(o[1].Position().X+o[1].Size().Width, o[len(o)-1].Position().X+o[len(o)-1].Size().Width)
	if width == 0 {
		width = plainPageWidth - 2*Step
	}
	one := g.widths(o, width) != nil
	for i := range g.Shares {
		h := o[2*i].MinSize().Height + o[2*i+1].MinSize().Height
		if one {
			size.Height = max(size.Height, h)
		} else {
			size.Height += h + Step/2
		}
	}
	size.Width = 20 * Step
	return size
}
