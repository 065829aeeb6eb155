package stills

import (
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/views"
	"app.tonedesk/capture/memory"
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
	MaskBefore    *analysis.Mask // what is left out of each; nil for nothing
	MaskAfter     *analysis.Mask
}

// leastShared is the part of the smaller picture that two must share to be compared by
// position (our choice): less says little of the picture.
const leastShared = 0.25

// Align lays two pictures over each other: by position where both show parts of the same
// place, pixel on pixel where their sizes agree, else scaled down to the least of their
// widths and heights. The error is a *memory.Full where there is no room for what is made of
// them, their difference too.
func Align(before, after Side) (Aligned, error) {
	a, b := before.place(), after.place()
	met := a.Intersect(b)
	switch least := min(a.Dx()*a.Dy(), b.Dx()*b.Dy()); {
	case before.Source.feed() != after.Source.feed(), a == b, met.Empty():
	case float64(met.Dx()*met.Dy()) >= leastShared*float64(least):
		return roomFor(differs, Aligned{
			How: ByPosition, Region: files.RectOf(met),
			Before: before.Picture.Crop(met.Sub(a.Min)), After: after.Picture.Crop(met.Sub(b.Min)),
			MaskBefore: before.moved(a.Min.Sub(met.Min)),
			MaskAfter:  after.moved(b.Min.Sub(met.Min)),
		})
	}
	p, q := before.Picture, after.Picture
	if p.Width == q.Width && p.Height == q.Height {
		return roomFor(differs, Aligned{How: SamePixels, Before: p, After: q, MaskBefore: before.mask(), MaskAfter: after.mask()})
	}
	w, h := min(p.Width, q.Width), min(p.Height, q.Height)
	across, down := float64(p.Width)*float64(q.Height), float64(q.Width)*float64(p.Height)
	if err := memory.Room(scales * int64(w) * int64(h)); err != nil {
		return Aligned{}, err
	}
	return Aligned{
		How: Scaled, Stretched: across > 1.01*down || down > 1.01*across,
		Before: reduced(p, w, h), After: reduced(q, w, h),
		MaskBefore: before.scaled(w, h), MaskAfter: after.scaled(w, h),
	}, nil
}

// What is made of each pixel, in bytes: its difference, and where both pictures are scaled
// these, with the light of the one that is being made.
const (
	differs = 2
	scales  = 2*analysis.PixelBytes + 7 + differs
)

// roomFor returns a if there is room for so many bytes a pixel.
func roomFor(each int64, a Aligned) (Aligned, error) {
	return a, memory.Room(each * int64(a.Before.Width) * int64(a.Before.Height))
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

// mask returns what is left out of a picture; nil for nothing.
func (s Side) mask() *analysis.Mask { return s.LeftOut.Mask(s.Picture) }

// moved returns what is left out of a picture that begins elsewhere, by so much.
func (s Side) moved(by image.Point) *analysis.Mask {
	out := s.mask()
	if out != nil {
		out.At = by
		for i := range out.Areas {
			out.Areas[i] = out.Areas[i].Add(by)
		}
	}
	return out
}

// scaled returns what is left out of a picture brought to w x h pixels.
func (s Side) scaled(w, h int) *analysis.Mask {
	p, out := s.Picture, s.mask()
	if out == nil {
		return nil
	}
	for i, r := range out.Areas {
		out.Areas[i] = image.Rect(
			r.Min.X*w/p.Width, r.Min.Y*h/p.Height,
			(r.Max.X*w+p.Width-1)/p.Width, (r.Max.Y*h+p.Height-1)/p.Height,
		)
	}
	out.Grown = out.Grown.Scaled(w, h)
	return out
}

// reduced returns a picture brought to w x h pixels, which are no more than it has. Pixels
// mostly without colour have none.
func reduced(p analysis.Pixels, w, h int) analysis.Pixels {
	if p.Width == w && p.Height == h {
		return p
	}
	img, small := paint(p, "colour", w, h, views.Look{})
	for i, left := range small.Left {
		if left != 0 {
			img.Pix[4*i+3] = 0
		}
	}
	return pixelsOf(img)
}
