package scenetest

// morePaintings are soft, or finished in ways that trouble the eye of a machine.
var morePaintings = []painter{
	{"heap of fruit with soft accents", 1100, 800, heap},
	{"metal pots, neutral, with highlights", 900, 700, metal},
	{"trees with leaves, colour grain", 1280, 720, trees},
	{"one large head", 900, 1200, largeHead},
	{"balloons before a sky, slight blur", 1024, 768, balloons},
	{"strong grain", 640, 480, strongGrain},
	{"cloaks on rough canvas", 1200, 900, cloaks},
	{"figures at night, tinted lines, JPEG 70", 1080, 1440, nightFigures},
	{"bust, accents and tinted lines", 800, 1000, bust},
	{"coarse grain, soft forms", 960, 640, coarseGrain},
}

func heap(e *easel) *Scene {
	light := toward(130)
	e.ground(e.fade(hex("#3e3a44"), hex("#57525a"), 270))
	put := func(l local, o outline, degrees, gain float64) {
		f := l.form(o, ballOf(o, light, 0.3), 0.04)
		f.coat.accent, f.coat.band = accentAt(l.shadow, degrees, gain), 0.07
		e.add(f)
	}
	put(rich("melon", "#a9c98a", 2.4, 24, 0.2), disc().at(330, 330, 220, 210, 0), 26, 0.6)
	put(rich("peach", "#f0b48a", 2.3, -20, 0.4), apple().at(640, 420, 165, 160, 0), -22, 0.5)
	put(dull("plum", "#9c7fb8", 2.2, 0.25), disc().at(430, 620, 155, 130, 0), 30, 0.9)
	put(rich("lemon", "#f0dc62", 2.3, -28, 0.1), lemon().at(850, 610, 165, 125, -14), -22, 0.12)
	return e.done()
}

func metal(e *easel) *Scene {
	light := toward(120)
	e.ground(e.glow(hex("#9c5a48"), hex("#6a3a32")))
	for i, l := range []local{stone("tin", "#d4d6d8", 2.8), stone("iron", "#8a8c8e", 2.4), stone("pewter", "#b0b0ae", 3.4)} {
		x, y := 180+270*float64(i), 360+40*float64(i%2)
		o := []outline{pot(), bell(), jug()}[i].at(x, y, 125, 215, 0)
		f := l.form(o, ballOf(o, light, 0.25), 0.14)
		r := mixed(l.shadow.Value()+0.6, 30, 0.03)
		f.coat.reflected = &r
		e.add(f)
		e.detail(disc().at(x-40, y-50, 9, 22, 15), hex("#ffffff").paint())
	}
	return e.done()
}

func trees(e *easel) *Scene {
	light := toward(40)
	e.ground(e.floor(hex("#e7d9c4"), hex("#8d8f9c"), 0.8))
	trunk := rich("trunks", "#a37a5e", 2.2, -20, 0.4)
	for i, l := range []local{rich("oak", "#9ab85a", 2.4, 30, 0.25), dull("maple", "#d8793a", 2.3, 0.2), rich("spruce", "#6fa88c", 2.3, 30, 0.2)} {
		x, y := 230+410*float64(i), 260.0
		o := stem().at(x, y+270, 52, 150, 0)
		e.add(trunk.form(o, plane(o.middle(), toward(10), 4, 3, 8), 0.03))
		o = lump(uint64(50+i), 14, 0.22).at(x, y, 185, 190, 0)
		f := l.form(o, mean(ballOf(o, light, 0.15), plane(o.middle(), light, 0, 14, 9)), 0.06)
		f.coat.strokes = 0.03
		e.add(f)
		for k := range 22 {
			u, v := 0.8*latticeAt(k, i, 1), 0.8*latticeAt(k, i, 2)
			if u*u+v*v < 0.6 {
				e.detail(leaf().at(x+185*u, y+190*v, 8, 5, 40*u), tinted(l.light, 1.4).paint())
			}
		}
	}
	e.finish = finish{grain: 4, colour: true, clump: 0.7}
	return e.done()
}

func largeHead(e *easel) *Scene {
	light := toward(150)
	e.ground(e.fade(hex("#7b8c94"), hex("#a9b2ae"), 240))
	skin := rich("skin", "#d9a07c", 2.4, -20, 0.5)
	hairs := rich("hair", "#7a5fa0", 2.1, 24, 0.2)
	o := head().at(450, 660, 330, 440, 0)
	f := skin.form(o, mean(ballOf(o, light, 0.25), follow(o, light, 180)), 0.07)
	b := mixed(skin.light.Value()+0.4, skin.light.Oklab().Hue(), skin.light.saturation())
	f.coat.bright, f.coat.strokes = &b, 0.02
	e.add(f)
	o = hair().at(450, 520, 410, 440, 0)
	e.add(hairs.form(o, plane(point{500, 430}, light, 0, 25, 4), 0.04))
	for _, x := range []float64{330, 560} {
		e.detail(disc().at(x, 700, 26, 17, 0), hex("#2a2530").paint())
	}
	e.finish = finish{grain: 2.5}
	return e.done()
}

func balloons(e *easel) *Scene {
	light := toward(65)
	e.ground(e.fade(hex("#5f9cd6"), hex("#dcebf2"), 270))
	for i, l := range []local{
		dull("balloon, red", "#e0503f", 2.3, 0.15), rich("balloon, yellow", "#f2d24a", 2.4, -34, 0.02),
		rich("balloon, pink", "#eaa3b8", 2.3, -30, 0.7), dull("balloon, green", "#7cae4e", 2.4, 0.2),
	} {
		x, y := 150+240*float64(i), 250+170*float64(i%2)
		o := disc().at(x, y, 105, 135, 0)
		e.add(l.form(o, ballOf(o, light, 0.35), 0.1))
		e.draw(outline{{x, y + 137}, {x + 8, y + 230}, {x, y + 137}}, *black(1.5), unjudged)
	}
	e.finish = finish{blur: 0.8}
	return e.done()
}

func strongGrain(e *easel) *Scene {
	light := toward(110)
	e.ground(plain(hex("#cfc3ae")))
	for i, l := range []local{rich("jug", "#6f97ad", 2.4, 25, 0.5), dull("pot", "#b4623f", 2.3, 0.2)} {
		o := []outline{jug(), pot()}[i].at(190+260*float64(i), 240, 100, 170, 0)
		e.lined(l, o, ballOf(o, light, 0.2), black(4))
	}
	e.finish = finish{grain: 10}
	return e.done()
}

func cloaks(e *easel) *Scene {
	light := toward(125)
	e.ground(e.mottled(hex("#b3a892"), 0.05, 14))
	for i, l := range []local{dull("cloak, green", "#5f8f5a", 2.2, 0.2), rich("cloak, red", "#c4564c", 2.3, -22, 0.15), rich("cloak, blue", "#7390c8", 2.5, 22, 0.3)} {
		o := cloak().at(220+380*float64(i), 470, 190, 340, 0)
		f := l.form(o, folds(plane(o.middle(), light, 0, 18, 5), o, 3, 18), 0.03)
		f.coat.strokes = 0.03
		e.add(f)
	}
	e.finish = finish{weave: 7, grain: 3, clump: 1.2}
	return e.done()
}

func nightFigures(e *easel) *Scene {
	light := toward(35)
	e.ground(e.fade(hex("#0d1420"), hex("#232a3c"), 270))
	figure := func(x, y, size float64, skin, cloth local) {
		o := cloak().at(x, y+0.9*size, 0.62*size, 0.85*size, 0)
		f := cloth.form(o, mean(follow(o, light, 0.3*size), plane(o.middle(), light, 0, 0.04*size, 4)), 0.02)
		f.line = tint(cloth.light, 4)
		e.add(f)
		o = head().at(x, y-0.2*size, 0.36*size, 0.42*size, 5)
		f = skin.form(o, ballOf(o, light, 0.15), 0.03)
		f.line = tint(skin.light, 4)
		e.add(f)
	}
	figure(340, 400, 480, rich("skin, left", "#b08468", 2.4, -18, 0.2), rich("cloth, left", "#5d6fa8", 2.2, 22, 0.1))
	figure(740, 520, 470, dull("skin, right", "#c09a70", 2.6, 0.2), dull("cloth, right", "#8a4550", 2.1, 0.2))
	e.finish = finish{quality: 70}
	return e.done()
}

func bust(e *easel) *Scene {
	light := toward(135)
	e.ground(plain(hex("#e3e6e0")))
	put := func(l local, o outline, s shade, degrees, gain float64) {
		f := l.form(o, s, 0)
		f.coat.accent, f.coat.band = accentAt(l.shadow, degrees, gain), 0.045
		f.line = tint(l.light, 5)
		e.add(f)
	}
	o := torso().at(400, 850, 330, 250, 0)
	put(rich("coat", "#7fa6a0", 2.3, 20, 0.4), o, plane(point{430, 830}, light, 0, 14, 5), 28, 0.8)
	o = head().at(400, 400, 190, 240, 0)
	put(rich("skin", "#edc0a2", 2.2, -16, 0.5), o, mean(ballOf(o, light, 0.25), follow(o, light, 90)), -24, 0.6)
	o = hair().at(400, 340, 245, 260, 0)
	put(dull("hair", "#b07f5a", 2.2, 0.3), o, plane(point{430, 300}, light, 0, 14, 6), -18, 1)
	return e.done()
}

func coarseGrain(e *easel) *Scene {
	light := toward(100)
	e.ground(e.glow(hex("#4f5f57"), hex("#33403c")))
	for i, l := range []local{rich("shell", "#e6c2a8", 2.4, -24, 0.7), dull("sponge", "#d6b04a", 2.3, 0.2), rich("coral", "#e08a86", 2.3, -18, 0.3)} {
		o := lump(uint64(70+i), 10, 0.18).at(170+310*float64(i), 320, 135, 150, 0)
		e.add(l.form(o, ballOf(o, light, 0.25), 0.12))
	}
	e.finish = finish{grain: 6, clump: 1.8}
	return e.done()
}
