package main

import (
	"image"
	"image/color"
)

// The size of the painting, in pixels.
const width, height = 1200, 900

// A scene is the painting while it is being painted.
type scene struct {
	*canvas
	skin, hair, coat, scarf, leaf tubes
	sheen, bounce                 color.NRGBA // highlight on the hair, light thrown back onto the coat
}

// paintScene paints the whole picture: someone on a hill above a bay, late in the day,
// eyes shut against the wind that comes from the low sun on the left.
func paintScene() *image.RGBA {
	s := scene{
		skin: squeeze(skin), hair: squeeze(hair), coat: squeeze(coat), scarf: squeeze(scarf), leaf: squeeze(leaf),
		sheen: mix(sheen), bounce: mix(bounce),
	}
	return s.paint()
}

// paint paints it all with the scene's colours.
func (s *scene) paint() *image.RGBA {
	s.canvas = newCanvas(width, height, image.White)
	s.background()
	s.backHair()
	s.paintCoat()
	s.neck()
	s.face()
	s.features()
	s.frontHair()
	s.paintScarf()
	s.leaves()
	return s.img
}

// background paints sky, sun, bay and hills, with the wash left open at the top right,
// where the paper stays white.
func (s *scene) background() {
	sky, low, sun := mix(paint{6.75, 19, 222}), mix(paint{8.25, 20, 82}), mix(paint{9.5, 14, 92})
	far, near := mix(paint{6, 17, 248}), mix(paint{4.75, 20, 205})
	grass, glint := mix(paint{3.5, 24, 165}), mix(paint{8.75, 20, 88})
	s.inside(closed(wash), func() {
		s.wash(sky, low)
		s.glow(236, 352, 330, sun, 0.55)
		s.fill(disc(236, 352, 92, 92), sun)
		s.clouds(low, sun)
		s.land(far, near, grass, glint)
	})
	s.drybrush(sky)
	s.birds(near)
}

// wash is the edge of the painted ground: the sheet but for its top right corner.
const wash = "-20,-20! 905,-20! 930,22 900,48 962,70 940,96 1010,118 985,150 1062,162 1050,196 " +
	"1130,206 1112,240 1220,262! 1220,920! -20,920!"

// wash lays the sky from above downward in even steps.
func (s *scene) wash(sky, low color.NRGBA) {
	const steps = 310
	for i := range steps {
		t := float64(i) / (steps - 1)
		t = t * t * (3 - 2*t)
		top := -20 + 620*float64(i)/steps
		foot := top + 620.0/steps
		if i == steps-1 {
			foot = height + 20
		}
		s.fill(box(-20, top, width+20, foot), between(sky, low, t))
	}
}

// between mixes a and b on the encoded values.
func between(a, b color.NRGBA, t float64) color.NRGBA {
	at := func(x, y uint8) uint8 { return uint8(float64(x)*(1-t) + float64(y)*t + 0.5) }
	return color.NRGBA{at(a.R, b.R), at(a.G, b.G), at(a.B, b.B), 255}
}

func (s *scene) clouds(low, sun color.NRGBA) {
	for _, c := range []struct {
		edge    string
		width   float64
		opacity float64
	}{
		{"-60,170 80,150 210,168 360,140 470,150", 34, 0.5},
		{"40,206 150,196 260,206 330,198", 16, 0.5},
		{"760,250 900,232 1030,250 1190,236", 26, 0.45},
		{"840,300 960,288 1060,298", 14, 0.45},
		{"-60,470 30,460 120,474 240,462 330,466", 16, 0.6},
		{"330,352 390,344 440,352 500,346", 12, 0.45},
	} {
		s.glaze(ribbon(open(c.edge), c.width, 1), between(low, sun, 0.35), c.opacity)
	}
}

func (s *scene) land(far, near, grass, glint color.NRGBA) {
	s.fill(closed("-20,560! 90,520 200,548 300,506 400,540 520,560 1220,560! 1220,920! -20,920!"), far)
	s.fill(closed("760,566! 850,520 940,540 1040,486 1130,520 1220,500! 1220,700! 760,640!"), between(far, near, 0.35))
	s.fill(closed("-20,596! 300,590 700,596 1220,590! 1220,920! -20,920!"), between(far, glint, 0.45))
	for _, g := range []string{
		"120,620 230,616 350,621", "60,648 210,642 300,648", "180,672 260,669 330,673",
		"930,628 1040,623 1160,629", "1000,655 1090,651 1150,656",
	} {
		s.line(g, 9, glint)
	}
	s.fill(closed("-20,700! 110,678 250,712 420,760 620,780 860,742 1040,700 1220,676! 1220,920! -20,920!"), near)
	s.fill(closed("-20,806! 150,786 330,826 560,850 900,822 1080,786 1220,760! 1220,920! -20,920!"), grass)
	blade := between(near, grass, 0.5)
	for i := range 64 {
		x, root := float64(i*19-10+i*i%13), float64(838+i*i*5%54)
		tall := float64(24 + i*11%31)
		s.fill(ribbon([]point{{x, root}, {x + 3, root - 0.4*tall}, {x + 9, root - 0.75*tall}, {x + 20, root - tall}}, 5, 0.9), blade)
	}
}

// drybrush drags the sky's paint a little way over the bare corner.
func (s *scene) drybrush(sky color.NRGBA) {
	for _, e := range []string{
		"900,30 960,42 1012,38", "930,84 1004,98 1066,92", "1000,134 1068,146 1120,140",
		"1048,182 1118,194 1168,188", "880,8 930,14 972,10",
	} {
		s.glaze(ribbon(open(e), 7, 1), sky, 0.75)
	}
}

func (s *scene) birds(with color.NRGBA) {
	for _, e := range []string{
		"348,246 360,238 370,248 382,237 395,243", "398,290 407,284 414,291 423,283 432,287",
		"300,292 308,287 314,293 322,286 330,290",
	} {
		s.line(e, 4, with)
	}
}
