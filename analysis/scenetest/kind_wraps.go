package scenetest

import (
	"fmt"
	"image"
	"image/draw"
)

// another paints a scene of some kind.
func (r *chance) another() {
	k := one(r.rng, painted...)
	r.scene.Name = fmt.Sprintf("%s: %s", r.scene.Name, k.name)
	k.paint(r)
}

// jpeg is a scene of any kind that was saved with loss.
func (r *chance) jpeg() {
	r.another()
	r.quality = 60 + r.rng.IntN(26)
}

// workspace is a scene of any kind on the even grey that surrounds a canvas while it is
// worked on, on all sides or some.
func (r *chance) workspace() {
	r.another()
	rng := r.rng
	side := func(length int) int {
		if perhaps(rng, 0.2) {
			return 0
		}
		return int(between(rng, 0.06, 0.2) * float64(length))
	}
	r.around = frame{
		start: image.Pt(side(r.width)+1, side(r.height)), end: image.Pt(side(r.width), side(r.height)),
		grey: one[uint8](rng, 32, 43, 60, 83, 110, 128, 160, 200),
	}
}

// frame is what lies around a picture: so many pixels of an even grey.
type frame struct {
	start, end image.Point
	grey       uint8 // sRGB code
}

// inside lays a frame around a finished scene. Where less of the whole shows of a side
// than is scored, it isn't scored any longer.
func (s *Scene) inside(f frame) *Scene {
	old := s.Image.Rect
	size := old.Size().Add(f.start).Add(f.end)
	if size == old.Size() {
		return s
	}
	img, labels := image.NewRGBA(image.Rectangle{Max: size}), make([]uint8, size.X*size.Y)
	for i := range labels {
		labels[i] = alone
		copy(img.Pix[4*i:], []uint8{f.grey, f.grey, f.grey, 255})
	}
	draw.Draw(img, old.Add(f.start), s.Image, image.Point{}, draw.Src)
	for y := range old.Dy() {
		copy(labels[(y+f.start.Y)*size.X+f.start.X:], s.labels[y*old.Dx():(y+1)*old.Dx()])
	}
	s.Image, s.labels = img, labels
	part := float64(old.Dx()*old.Dy()) / float64(size.X*size.Y)
	for i := range s.Families {
		t := &s.Families[i]
		t.LightShare *= part
		t.ShadowShare *= part
		t.large()
	}
	return s
}
