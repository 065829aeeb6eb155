package scenetest

// largePaintings put many things together.
var largePaintings = []painter{
	{"landscape with nine families on canvas", 1920, 1080, landscape},
	{"dress with drawn folds, soft edges", 720, 960, drawnFolds},
	{"rim light behind dark figures", 1000, 800, rimLight},
	{"tall shelf of jars, JPEG 90", 540, 1200, shelf},
	{"eggs in bright light, wide terminators", 1100, 620, eggs},
}

func landscape(e *easel) *Scene {
	light := toward(140)
	e.ground(e.fade(hex("#9db9cf"), hex("#e9e2cf"), 270))
	put := func(l local, o outline, s shade, soft float64) {
		f := l.form(o, s, soft)
		f.coat.strokes = 0.025
		e.add(f)
	}
	follows := func(l local, o outline, soft float64) {
		put(l, o, mean(follow(o, light, 0.3*o.size()), plane(o.middle(), light, 0, 0.03*o.size(), 5)), soft)
	}
	follows(rich("hill", "#a9a26a", 2.2, 25, 0.4), lump(60, 8, 0.12).at(960, 760, 560, 260, 0), 0.04)
	for i, l := range []local{rich("tree, left", "#7f9a4e", 2.3, 28, 0.2), dull("tree, right", "#c07a3c", 2.2, 0.2)} {
		follows(l, lump(uint64(61+i), 13, 0.2).at(230+1450*float64(i), 420, 200, 230, 0), 0.06)
	}
	o := house().at(960, 470, 240, 180, 0)
	put(rich("cottage", "#ead9b6", 2.3, -24, 0.6), o, plane(point{1008, 470}, toward(180), 0, 0, 0), 0)
	o = roof().at(960, 240, 275, 125, 0)
	put(dull("thatch", "#a8573f", 2.2, 0.2), o, plane(point{1010, 240}, toward(175), 0, 0, 0), 0.01)
	e.detail(box().at(860, 480, 22, 30, 0), hex("#2f3440").paint())
	follows(stone("boulder", "#b9bcc0", 2.4), rock(62, 9).at(1460, 860, 190, 140, 0), 0.02)
	follows(rich("cloak", "#b0526a", 2.2, -20, 0.1), cloak().at(520, 800, 130, 230, 0), 0.04)
	o = head().at(520, 540, 62, 78, 0)
	f := rich("face", "#e6b48e", 2.2, -22, 0.6).form(o, ballOf(o, light, 0.2), 0.05)
	f.why = "too small to be judged"
	e.add(f)
	follows(rich("bush", "#5f8f86", 2.3, 25, 0.3), lump(63, 12, 0.18).at(230, 920, 190, 130, 0), 0.05)
	e.finish = finish{weave: 3, grain: 3, clump: 0.8}
	return e.done()
}

func drawnFolds(e *easel) *Scene {
	light := toward(150)
	e.ground(e.glow(hex("#f0eadc"), hex("#d9cfbb")))
	dress, top := rich("dress", "#8fb0d8", 2.3, 22, 0.4), dull("bodice", "#b8657a", 2.2, 0.2)
	o := skirt().at(360, 650, 290, 290, 0)
	f := dress.form(o, plane(point{370, 660}, light, 0, 16, 6), 0.05)
	f.line = tint(dress.light, 3)
	e.add(f)
	for i := range 7 { // the folds are lines
		x := 180 + 60*float64(i)
		e.draw(outline{{360 + (x-360)*0.5, 420}, {x, 880}, {360 + (x-360)*0.5, 420}}, *tint(dress.light, 2), unjudged)
	}
	o = torso().at(360, 270, 150, 170, 0)
	f = top.form(o, mean(follow(o, light, 80), plane(o.middle(), light, 0, 8, 8)), 0.04)
	f.line = tint(top.light, 3)
	e.add(f)
	return e.done()
}

func rimLight(e *easel) *Scene {
	light := toward(165)
	e.ground(e.fade(hex("#54616e"), hex("#39424c"), 270))
	for i, l := range []local{rich("coat, red", "#a5483e", 2.1, -18, 0.1), rich("coat, green", "#5d8a5a", 2.2, 26, 0.2), dull("coat, blue", "#5a79b4", 2.3, 0.2)} {
		x := 190 + 310*float64(i)
		o := cloak().at(x, 470, 135, 260, 0)
		e.add(l.form(o, mean(follow(o, light, 90), plane(o.middle(), light, 0, 10, 6)), 0.05))
		// The rim: a thin bright edge on the shadow's far side.
		var rim outline
		for _, p := range o {
			if p.x > x+40 && p.y < 660 {
				rim = append(rim, point{p.x - 4, p.y})
			}
		}
		for k := len(rim) - 1; k >= 0; k-- {
			rim = append(rim, rim[k])
		}
		e.draw(rim, pen{colour: mixed(8.6, 75, 0.09), width: 3}, unjudged)
	}
	return e.done()
}

func shelf(e *easel) *Scene {
	light := toward(45)
	e.ground(plain(hex("#3b2f2a")))
	for i, l := range []local{
		rich("jar, blue", "#8fb4dc", 2.4, 24, 0.4), dull("jar, honey", "#dca23c", 2.3, 0.15),
		rich("jar, jam", "#c4485c", 2.1, -14, 0.05), rich("jar, mint", "#9fd4b4", 2.5, 30, 0.6),
	} {
		y := 160 + 290*float64(i)
		o := jug().at(270, y, 150, 125, 0)
		f := l.form(o, ballOf(o, light, 0.3), 0.09)
		g := mixed(l.shadow.Value()+0.45, l.shadow.Oklab().Hue()-10, l.shadow.saturation())
		f.coat.reflected = &g
		e.add(f)
		e.detail(disc().at(320, y-50, 8, 18, -20), hex("#ffffff").paint())
	}
	e.finish = finish{quality: 90}
	return e.done()
}

func eggs(e *easel) *Scene {
	light := toward(110)
	e.ground(plain(hex("#7d8a6a")))
	for i, l := range []local{stone("egg, white", "#f4f4f2", 2.5), rich("egg, brown", "#dba77e", 2.4, -20, 0.5), rich("egg, blue", "#a8cfd4", 2.5, 26, 0.7)} {
		x := 200 + 350*float64(i)
		e.castShadow(x-30, 500, 150, 34, hex("#4c563f"), 0.5)
		o := disc().at(x, 310, 140, 190, 0)
		f := l.form(o, ballOf(o, light, 0.3), 0.3)
		b := mixed(min(l.light.Value()+0.3, 9.9), l.light.Oklab().Hue(), l.light.saturation())
		f.coat.bright = &b
		e.add(f)
	}
	return e.done()
}
