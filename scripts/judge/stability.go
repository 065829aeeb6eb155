package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"math"
	"slices"
	"strings"

	xdraw "golang.org/x/image/draw"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/workspace"
)

// change is a way to lay a picture out anew that changes nothing in it.
type change struct {
	name string
	of   func(*image.RGBA) *image.RGBA
}

// changes are shifts of 0 to 3 pixels each way (the corner that comes in is the pixel beside
// it), other sizes, JPEG, turns and a plain frame.
var changes = func() (all []change) {
	for dy := range 4 {
		for dx := range 4 {
			if dx+dy > 0 {
				all = append(all, change{"shifted", func(p *image.RGBA) *image.RGBA {
					return laid(p, p.Rect, func(x, y int) (int, int) { return x - dx, y - dy })
				}})
			}
		}
	}
	turned := func(p *image.RGBA) image.Rectangle { return image.Rect(0, 0, p.Rect.Dy(), p.Rect.Dx()) }
	return append(all,
		change{"half size", func(p *image.RGBA) *image.RGBA { return scaled(p, 0.5) }},
		change{"x 1.5", func(p *image.RGBA) *image.RGBA { return scaled(p, 1.5) }},
		change{"JPEG 80", compressed},
		change{"mirrored", func(p *image.RGBA) *image.RGBA {
			return laid(p, p.Rect, func(x, y int) (int, int) { return p.Rect.Dx() - 1 - x, y })
		}},
		change{"upside down", func(p *image.RGBA) *image.RGBA {
			return laid(p, p.Rect, func(x, y int) (int, int) { return x, p.Rect.Dy() - 1 - y })
		}},
		change{"quarter turn", func(p *image.RGBA) *image.RGBA {
			return laid(p, turned(p), func(x, y int) (int, int) { return y, p.Rect.Dy() - 1 - x })
		}},
		change{"quarter turn back", func(p *image.RGBA) *image.RGBA {
			return laid(p, turned(p), func(x, y int) (int, int) { return p.Rect.Dx() - 1 - y, x })
		}},
		change{"6 % frame", framed},
	)
}()

// laid lays a picture out anew: from says where a pixel comes from.
func laid(p *image.RGBA, size image.Rectangle, from func(x, y int) (int, int)) *image.RGBA {
	out := image.NewRGBA(size)
	for y := range size.Dy() {
		for x := range size.Dx() {
			u, v := from(x, y)
			out.SetRGBA(x, y, p.RGBAAt(min(max(u, 0), p.Rect.Dx()-1), min(max(v, 0), p.Rect.Dy()-1)))
		}
	}
	return out
}

func scaled(p *image.RGBA, by float64) *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, int(by*float64(p.Rect.Dx())), int(by*float64(p.Rect.Dy()))))
	xdraw.CatmullRom.Scale(out, out.Rect, p, p.Rect, draw.Src, nil)
	return out
}

func compressed(p *image.RGBA) *image.RGBA {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, p, &jpeg.Options{Quality: 80}); err != nil {
		panic(err) // a picture in memory is always written
	}
	img, err := jpeg.Decode(&b)
	if err != nil {
		panic(err)
	}
	out := image.NewRGBA(p.Rect)
	draw.Draw(out, out.Rect, img, image.Point{}, draw.Src)
	return out
}

// framed lays a picture on the plain grey of a workspace.
func framed(p *image.RGBA) *image.RGBA {
	wide, high := p.Rect.Dx()*6/100, p.Rect.Dy()*6/100
	out := image.NewRGBA(image.Rect(0, 0, p.Rect.Dx()+2*wide, p.Rect.Dy()+2*high))
	draw.Draw(out, out.Rect, image.NewUniform(color.Gray{Y: 83}), image.Point{}, draw.Src)
	draw.Draw(out, image.Rectangle{Max: p.Rect.Size()}.Add(image.Pt(wide, high)), p, image.Point{}, draw.Src)
	return out
}

// sameSide is the CIEDE2000 up to which a side is the same after a change.
const sameSide = 4

// stability counts what becomes of sure families when a picture is changed.
type stability struct {
	finder *families.Finder
	by     map[string]*kept
}

type kept struct{ was, stayed, fresh, is, verdicts int }

func newStability(f *families.Finder) *stability {
	return &stability{f, map[string]*kept{}}
}

// find finds what is sure, as the command does: without the workspace around a canvas, where one
// is certain.
func (s *stability) find(p *image.RGBA) []families.Family {
	pixels := analysis.Pixels{Pix: p.Pix, Stride: p.Stride, Width: p.Rect.Dx(), Height: p.Rect.Dy(), Layout: analysis.RGBA}
	var mask *analysis.Mask
	if found := workspace.Find(pixels); found.Certainty == workspace.Certain {
		mask = &analysis.Mask{Areas: analysis.Around(pixels.Bounds(), found.Canvas)}
	}
	s.finder.Take(pixels, mask)
	return slices.DeleteFunc(s.finder.Find(families.DefaultRules()).List, func(f families.Family) bool { return !f.Sure() })
}

func (s *stability) add(p analysis.Pixels) {
	img := &image.RGBA{Pix: p.Pix, Stride: p.Stride, Rect: image.Rect(0, 0, p.Width, p.Height)}
	was := s.find(img)
	for _, c := range changes {
		k := s.by[c.name]
		if k == nil {
			k = &kept{}
			s.by[c.name] = k
		}
		is := s.find(c.of(img))
		k.was, k.is = k.was+len(was), k.is+len(is)
		for _, f := range was {
			if g := like(is, &f); g != nil {
				k.stayed++
				if !slices.Equal(f.Verdict, g.Verdict) && !nearLimit(&f) {
					k.verdicts++
				}
			}
		}
		for _, g := range is {
			if like(was, &g) == nil {
				k.fresh++
			}
		}
	}
}

// like returns the family of a list that has both sides' colours, nil for none.
func like(list []families.Family, f *families.Family) *families.Family {
	for i := range list {
		if colour.CIEDE2000(list[i].Light.Lab, f.Light.Lab) <= sameSide && colour.CIEDE2000(list[i].Shadow.Lab, f.Shadow.Lab) <= sameSide {
			return &list[i]
		}
	}
	return nil
}

// nearLimit reports whether a verdict hangs on a tenth of a tone, or as little.
func nearLimit(f *families.Family) bool {
	r := families.DefaultRules()
	near := func(v, limit, by float64) bool { return math.Abs(v-limit) <= by }
	return near(f.Tones, r.LeastTones, 0.1) || near(f.Tones, r.MostTones, 0.1) || f.Overlap != nil && near(*f.Overlap, 0, 0.1) ||
		f.HueTurn != nil && near(math.Abs(*f.HueTurn), r.LeastTurn, 3) || f.SaturationGain != nil && near(*f.SaturationGain, r.MostGain, 0.05)
}

// String says it by change, and at the end for all.
func (s *stability) String() string {
	var b strings.Builder
	var all kept
	line := func(name string, k *kept) {
		percent := func(n, of int) float64 { return 100 * float64(n) / float64(max(of, 1)) }
		fmt.Fprintf(&b, "%-18s %.1f %% kept, %.1f %% new, %d of %d verdicts changed\n", name, percent(k.stayed, k.was), percent(k.fresh, k.is), k.verdicts, k.stayed)
	}
	seen := map[string]bool{}
	for _, c := range changes {
		if k := s.by[c.name]; k != nil && !seen[c.name] {
			seen[c.name] = true
			line(c.name, k)
			all = kept{all.was + k.was, all.stayed + k.stayed, all.fresh + k.fresh, all.is + k.is, all.verdicts + k.verdicts}
		}
	}
	line("all", &all)
	return b.String()
}
