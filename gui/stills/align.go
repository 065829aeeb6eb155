package stills

import (
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/reduce"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/files"
)

// Alignment says how two pictures were laid over each other to be compared.
type Alignment string

const (
	// SamePixels: both show the same place at the same size, or nothing says otherwise.
	SamePixels Alignment = "same"
	// ByPosition: they show different parts of one place; what both show is compared.
	ByPosition Alignment = "position"
	// Scaled: both are brought to one size, as wholes.
	Scaled Alignment = "scaled"
)

// Side is one of two pictures to compare.
type Side struct {
	Picture analysis.Pixels
	Source  Source // the zero value where nothing is known
	LeftOut LeftOut
}

// Aligned are two pictures of one size.
type Aligned struct {
	How           Alignment
	Region        files.Rect // of ByPosition: what both show, in the source's pixels
	Stretched     bool       // of Scaled: the shapes of the two differ
	Before, After analysis.Pixels
	OutBefore     *analysis.Mask // what is left out of each; nil for nothing
	OutAfter      *analysis.Mask
}

// leastShared is the part of the smaller picture that two must share to be compared by
// position (our choice): less says little of the picture.
const leastShared = 0.25

// Align lays two pictures over each other: by position where both show parts of the same
// place, pixel on pixel where their sizes agree, else scaled down to the least of their
// widths and heights.
func Align(before, after Side) Aligned {
	a, b := before.place(), after.place()
	met := a.Intersect(b)
	switch least := min(a.Dx()*a.Dy(), b.Dx()*b.Dy()); {
	case before.Source.feed() != after.Source.feed(), a == b, met.Empty():
	case float64(met.Dx()*met.Dy()) >= leastShared*float64(least):
		return Aligned{
			How: ByPosition, Region: files.RectOf(met),
			Before: before.Picture.Crop(met.Sub(a.Min)), After: after.Picture.Crop(met.Sub(b.Min)),
			OutBefore: moved(before.LeftOut.Out(), a.Min.Sub(met.Min)),
			OutAfter:  moved(after.LeftOut.Out(), b.Min.Sub(met.Min)),
		}
	}
	p, q := before.Picture, after.Picture
	if p.Width == q.Width && p.Height == q.Height {
		return Aligned{How: SamePixels, Before: p, After: q, OutBefore: before.LeftOut.Out(), OutAfter: after.LeftOut.Out()}
	}
	w, h := min(p.Width, q.Width), min(p.Height, q.Height)
	across, down := float64(p.Width)*float64(q.Height), float64(q.Width)*float64(p.Height)
	return Aligned{
		How: Scaled, Stretched: across > 1.01*down || down > 1.01*across,
		Before: reduced(p, w, h), After: reduced(q, w, h),
		OutBefore: scaled(before.LeftOut.Out(), p, w, h), OutAfter: scaled(after.LeftOut.Out(), q, w, h),
	}
}

// place returns the part of its source that a picture shows pixel by pixel; empty if that
// isn't known.
func (s Side) place() image.Rectangle {
	r := s.Source.Region.Rectangle()
	if r.Dx() != s.Picture.Width || r.Dy() != s.Picture.Height {
		return image.Rectangle{}
	}
	return r
}

// feed returns what two parts of one place have in common.
func (s Source) feed() Source {
	s.Region = files.Rect{}
	return s
}

// moved returns out with its areas moved.
func moved(out *analysis.Mask, by image.Point) *analysis.Mask {
	if out == nil {
		return nil
	}
	for i, area := range out.Areas {
		out.Areas[i] = area.Add(by)
	}
	return out
}

// scaled returns out for its picture brought to w x h pixels.
func scaled(out *analysis.Mask, p analysis.Pixels, w, h int) *analysis.Mask {
	if out == nil {
		return nil
	}
	for i, r := range out.Areas {
		out.Areas[i] = image.Rect(
			r.Min.X*w/p.Width, r.Min.Y*h/p.Height,
			(r.Max.X*w+p.Width-1)/p.Width, (r.Max.Y*h+p.Height-1)/p.Height,
		)
	}
	return out
}

// reduced returns a picture brought to w x h pixels, which are no more than it has. Pixels
// mostly without colour have none.
func reduced(p analysis.Pixels, w, h int) analysis.Pixels {
	if p.Width == w && p.Height == h {
		return p
	}
	r := reduce.New()
	defer r.Close()
	small := r.Reduce(p, w, h, nil)
	to := analysis.Pixels{Pix: make([]byte, 4*w*h), Stride: 4 * w, Width: w, Height: h}
	colour, _ := views.ByKey("colour")
	colour.Paint(to.Pix, small, views.Look{})
	for i, left := range small.Left {
		if left != 0 {
			to.Pix[4*i+3] = 0
		}
	}
	return to
}
