package scenetest

import "math"

// moreEmpties are further pictures without any family.
var moreEmpties = []painter{
	{"empty: lined flats, grain and JPEG", 800, 600, emptyLinedFlats},
	{"empty: flats before a gradient", 1280, 720, emptyFlatsOnGradient},
	{"empty: dotted flats", 640, 480, emptyDotted},
	{"empty: photograph of noise", 1024, 768, emptyPhotograph},
	{"empty: rainbow", 800, 300, emptyRainbow},
	{"empty: grey ramp in a frame", 800, 500, emptyFramedRamp},
	{"empty: soft dots of colour", 800, 600, emptySoftDots},
	{"empty: thin stripes", 640, 480, emptyStripes},
	{"empty: blank canvas with weave", 640, 480, emptyWeave},
	{"empty: flats of one lightness", 800, 600, emptyOneLightness},
}

func emptyLinedFlats(e *easel) *Scene {
	e.ground(plain(hex("#d9d3c3")))
	for i, c := range []string{"#9a3d52", "#3f7a86", "#c98f3a", "#5a7d3a"} {
		o := []outline{head(), skirt(), pot(), boot()}[i].at(170+430*float64(i%2), 160+280*float64(i/2), 110, 115, 0)
		e.flat(o, hex(c).paint())
		e.draw(o, *black(4), unjudged)
	}
	e.finish = finish{grain: 6, quality: 75}
	return e.empty()
}

func emptyFlatsOnGradient(e *easel) *Scene {
	e.ground(e.fade(hex("#f2d6a2"), hex("#7a94c0"), 250))
	for i, c := range []string{"#7d2f3a", "#2e5d4f", "#46306a"} {
		e.flat(lump(uint64(80+i), 9, 0.25).at(260+380*float64(i), 380, 120, 160, 0), hex(c).paint())
	}
	return e.empty()
}

func emptyDotted(e *easel) *Scene {
	e.ground(plain(hex("#f3efe4")))
	for i, c := range []string{"#2f6f8f", "#b8862f"} {
		x := 180 + 280*float64(i)
		e.flat(disc().at(x, 240, 120, 150, 0), hex(c).paint())
		for k := range 60 {
			u, v := 0.85*latticeAt(k, i, 11), 0.85*latticeAt(k, i, 12)
			if u*u+v*v < 0.7 {
				e.detail(disc().at(x+120*u, 240+150*v, 4, 4, 0), hex("#f3efe4").paint())
			}
		}
	}
	return e.empty()
}

// emptyPhotograph is a noisy screen as a camera sees it: soft grains, darker corners.
func emptyPhotograph(e *easel) *Scene {
	e.ground(e.glow(hex("#9c9c9c"), hex("#7a7a7a")))
	e.finish = finish{grain: 45, clump: 1.4, quality: 85}
	return e.empty()
}

func emptyRainbow(e *easel) *Scene {
	e.ground(func(p point) paint { return mixed(6.5, p.x*0.45, 0.14).paint() })
	return e.empty()
}

func emptyFramedRamp(e *easel) *Scene {
	ramp := e.fade(hex("#161616"), hex("#f0f0f0"), 0)
	paper := hex("#d8c9a6").paint()
	e.ground(func(p point) paint {
		if math.Abs(p.x-400) > 320 || math.Abs(p.y-250) > 170 {
			return paper
		}
		return ramp(p)
	})
	return e.empty()
}

// emptySoftDots are airbrushed dots: one colour each, the edge lost in the paper.
func emptySoftDots(e *easel) *Scene {
	white := hex("#fafafa").paint()
	e.ground(plain(hex("#fafafa")))
	for i, c := range []string{"#b0503c", "#2f6f5f", "#3f5a9a", "#8a6a2a"} {
		x, y, ink := 200+400*float64(i%2), 160+280*float64(i/2), hex(c).paint()
		for k := range e.pix {
			d := math.Hypot(float64(k%e.width)-x, float64(k/e.width)-y)
			if d < 120 {
				e.pix[k] = ink.to(white, ease(60, 120, d))
			}
		}
	}
	return e.empty()
}

func emptyStripes(e *easel) *Scene {
	a, b := hex("#3a3f6a").paint(), hex("#e8d8a8").paint()
	e.ground(func(p point) paint {
		if mod1((p.x+p.y)/14) < 0.5 {
			return a
		}
		return b
	})
	return e.empty()
}

func emptyWeave(e *easel) *Scene {
	e.ground(e.mottled(hex("#c9bfa9"), 0.05, 21))
	e.finish = finish{weave: 8, grain: 4, clump: 1}
	return e.empty()
}

// emptyOneLightness has flats that touch and differ in hue alone.
func emptyOneLightness(e *easel) *Scene {
	e.ground(plain(hex("#efefef")))
	for i := range 6 {
		c := mixed(5.5, 60*float64(i)+20, 0.15)
		e.flat(box().at(250+150*float64(i%3), 220+160*float64(i/3), 75, 80, 0), c.paint())
	}
	return e.empty()
}
