package scenetest

import "math"

// empties are pictures without any family.
var empties = []painter{
	{"empty: flat shapes on a ground", 800, 600, emptyFlats},
	{"empty: grey ramp, across", 640, 480, emptyRamp(0)},
	{"empty: grey ramp, down", 640, 480, emptyRamp(270)},
	{"empty: grey ramp, round", 640, 480, emptyGlow},
	{"empty: colour ramp", 960, 540, emptyColourRamp},
	{"empty: white noise", 640, 480, emptyNoise(false, 0, 40)},
	{"empty: colour noise", 640, 480, emptyNoise(true, 0, 40)},
	{"empty: coarse noise", 640, 480, emptyNoise(true, 2.5, 30)},
	{"empty: clouds of grey noise", 800, 600, emptyClouds(false)},
	{"empty: clouds of coloured noise", 800, 600, emptyClouds(true)},
	{"empty: line drawing", 640, 860, emptyLines},
	{"empty: blank", 320, 240, emptyBlank},
	{"empty: flats of unlike hue side by side", 800, 600, emptyNeighbours},
	{"empty: chequers of unlike hue", 720, 720, emptyChequers},
	{"empty: hue wheel at one lightness", 600, 600, emptyWheel},
}

func emptyFlats(e *easel) *Scene {
	e.ground(plain(hex("#dfe3e8")))
	for i, c := range []string{"#b0503c", "#4a7c59", "#46608f", "#c9a13b", "#7b4a78", "#3f3f46"} {
		o := lump(uint64(i+40), 7, 0.3).at(150+250*float64(i%3), 160+280*float64(i/3), 95, 95, 0)
		e.flat(o, hex(c).paint())
		if i%2 == 0 {
			e.draw(o, *black(4), unjudged)
		}
	}
	return e.empty()
}

func emptyRamp(degrees float64) func(*easel) *Scene {
	return func(e *easel) *Scene {
		e.ground(e.fade(hex("#000000"), hex("#ffffff"), degrees))
		return e.empty()
	}
}

func emptyGlow(e *easel) *Scene {
	e.ground(e.glow(hex("#ffffff"), hex("#101010")))
	return e.empty()
}

func emptyColourRamp(e *easel) *Scene {
	e.ground(e.fade(hex("#1f3d7a"), hex("#f0c890"), 250))
	return e.empty()
}

func emptyNoise(colour bool, clump, strength float64) func(*easel) *Scene {
	return func(e *easel) *Scene {
		e.ground(plain(hex("#808080")))
		e.finish = finish{grain: strength, colour: colour, clump: clump}
		return e.empty()
	}
}

// emptyClouds is noise whose clouds of all sizes are equally strong, like photographs.
func emptyClouds(colour bool) func(*easel) *Scene {
	return func(e *easel) *Scene {
		e.ground(func(p point) paint {
			var c paint
			for k := range c {
				seed := 100
				if colour {
					seed += 20 * k
				}
				c[k] = float32(min(max(0.5+0.55*cloudAt(p.x, p.y, 260, 8, seed), 0), 1))
			}
			return c
		})
		return e.empty()
	}
}

func emptyLines(e *easel) *Scene {
	e.ground(plain(hex("#fbfaf6")))
	for _, o := range []outline{
		skirt().at(325, 620, 165, 125, 0), torso().at(320, 440, 105, 100, 0), head().at(320, 190, 88, 112, 0),
		hair().at(320, 165, 112, 120, 0), boot().at(285, 780, 42, 58, 0), boot().at(372, 780, 42, 58, 0),
	} {
		e.fill(o, hex("#fbfaf6").paint(), ground)
		e.draw(o, *black(3), unjudged)
	}
	return e.empty()
}

func emptyBlank(e *easel) *Scene {
	e.ground(plain(hex("#f2efe6")))
	return e.empty()
}

func emptyNeighbours(e *easel) *Scene {
	hues := []string{"#c0392b", "#7fb069", "#2e4a8a", "#e6c229", "#5a2d6b", "#6fb7b2"}
	e.ground(plain(hex("#f0f0f0")))
	for i, c := range hues {
		e.flat(box().at(150+100*float64(i), 300, 50, 180, 0), hex(c).paint())
	}
	return e.empty()
}

func emptyChequers(e *easel) *Scene {
	a, b := hex("#b23a30").paint(), hex("#8cc9a0").paint()
	e.ground(func(p point) paint {
		if (int(p.x)/90+int(p.y)/90)%2 == 0 {
			return a
		}
		return b
	})
	return e.empty()
}

func emptyWheel(e *easel) *Scene {
	var wheel [360]paint
	for i := range wheel {
		wheel[i] = mixed(6.5, float64(i), 0.13).paint()
	}
	white := hex("#ffffff").paint()
	e.ground(func(p point) paint {
		x, y := p.x-300, p.y-300
		if r := math.Hypot(x, y); r > 260 || r < 110 {
			return white
		}
		return wheel[(int(math.Atan2(y, x)*180/math.Pi)+360)%360]
	})
	return e.empty()
}
