package scenetest

// drawings are flat colours with hard edges between light and shadow, most with lines.
var drawings = []painter{
	{"figure in flat colour, black lines", 640, 860, figureFlat},
	{"two figures that overlap, tinted lines", 1280, 960, twoFigures},
	{"village with black lines, JPEG 75", 1000, 700, village},
	{"grey rocks, tinted lines", 900, 600, rocks},
	{"fruit with core-shadow accents, no lines", 800, 600, fruitAccents},
	{"small fruit on dark, thick lines", 320, 240, smallFruit},
}

func figureFlat(e *easel) *Scene {
	light := toward(140)
	e.ground(plain(hex("#d8e2e6")))
	skin := rich("skin", "#f0c4a0", 2.3, -22, 0.7)
	hairs := dull("hair", "#a0522c", 2.2, 0.15)
	jacket := rich("jacket", "#4f9a8c", 2.4, 28, 0.35)
	dress := dull("skirt", "#d9b23c", 2.6, 0.2)
	boots := rich("boots", "#9c6a86", 2.2, -30, 0.5)
	pen := black(4)
	draw := func(l local, o outline, s shade) {
		f := l.form(o, s, 0)
		f.line = pen
		e.add(f)
	}
	for _, x := range []float64{265, 385} {
		o := boot().at(x, 780, 62, 68, 0)
		draw(boots, o, plane(o.middle(), light, -4, 3, 12))
	}
	o := skirt().at(325, 620, 165, 125, 0)
	draw(dress, o, folds(plane(point{345, 620}, light, 10, 12, 8), o, 4, 16))
	o = neck().at(322, 318, 30, 50, 0)
	draw(skin, o, plane(point{322, 300}, toward(230), 6, 2, 10))
	for _, side := range []float64{-1, 1} {
		o = sleeve().at(320+side*118, 470, side*58, 100, 0)
		draw(jacket, o, follow(o, light, 34))
	}
	o = torso().at(320, 440, 105, 100, 0)
	draw(jacket, o, plane(point{335, 440}, light, 5, 10, 7))
	o = head().at(320, 190, 88, 112, 0)
	draw(skin, o, mean(ballOf(o, light, 0.25), follow(o, light, 50)))
	o = hair().at(320, 165, 112, 120, 0)
	draw(hairs, o, mean(plane(point{335, 150}, light, 16, 8, 9), ballOf(o, light, 0.2)))
	for _, x := range []float64{-32, 34} { // eyes
		e.detail(disc().at(320+x, 205, 7, 10, 0), hex("#2a2a30").paint())
	}
	e.draw(smooth(point{300, 258}, point{320, 264}, point{342, 257}, point{320, 262}), *black(2.5), unjudged)
	return e.done()
}

func twoFigures(e *easel) *Scene {
	light := toward(60)
	e.ground(e.fade(hex("#b9c7a2"), hex("#e6e3c8"), 270))
	figure := func(x, y, size float64, skin, hairs, coat, under local) {
		draw := func(l local, o outline, s shade) {
			f := l.form(o, s, 0)
			f.line = tint(l.light, 0.02*size)
			e.add(f)
		}
		o := skirt().at(x, y+1.22*size, 0.66*size, 0.5*size, 0)
		draw(under, o, plane(point{x - 0.02*size, y + 1.34*size}, light, 0, 0.05*size, 6))
		o = cloak().at(x, y+0.55*size, 0.6*size, 0.56*size, 0)
		draw(coat, o, mean(follow(o, light, 0.32*size), plane(o.middle(), light, 0, 0.03*size, 8)))
		o = head().at(x, y-0.3*size, 0.36*size, 0.43*size, -8)
		draw(skin, o, mean(ballOf(o, light, 0.2), follow(o, light, 0.2*size)))
		o = hair().at(x, y-0.36*size, 0.45*size, 0.48*size, -8)
		draw(hairs, o, plane(point{x, y - 0.42*size}, light, -0.02*size, 0.03*size, 10))
	}
	figure(420, 380, 400, rich("skin, left", "#e9b58c", 2.2, -20, 0.6), dull("hair, left", "#8d8f3a", 2.3, 0.2),
		rich("cloak, left", "#6f8fd0", 2.6, 20, 0.3), dull("skirt, left", "#c46a9a", 2.2, 0.18))
	figure(860, 395, 390, rich("skin, right", "#a86b4a", 2.1, -16, 0.35), rich("hair, right", "#d9c070", 2.4, -32, 0.5),
		dull("cloak, right", "#b5432f", 2.3, 0.16), rich("skirt, right", "#55a37b", 2.5, 30, 0.3))
	return e.done()
}

func village(e *easel) *Scene {
	e.ground(e.floor(hex("#a9cfe8"), hex("#8fb35a"), 0.62))
	walls := []local{rich("wall, left", "#f2e2b8", 2.2, -28, 0.5), stone("wall, middle", "#dcdcda", 2.3), dull("wall, right", "#d8a08a", 2.4, 0.2)}
	roofs := []local{dull("roof, left", "#b4513a", 2.1, 0.15), rich("roof, middle", "#7187b8", 2.2, 22, 0.4), rich("roof, right", "#9a7a3e", 2.2, -25, 0.4)}
	for i, x := range []float64{190, 520, 830} {
		y, w := 440+20*float64(i%2), 130+10*float64(i)
		o := house().at(x, y, w, 120, 0)
		corner := point{x + 0.2*w, y}
		f := walls[i].form(o, plane(corner, toward(180), 0, 0, 0), 0)
		f.line = black(3)
		e.add(f)
		for _, dx := range []float64{-0.7, -0.25} { // windows
			e.detail(box().at(x+dx*w, y, 11, 15, 0), hex("#3a4658").paint())
		}
		o = roof().at(x, y-155, w*1.12, 78, 0)
		f = roofs[i].form(o, plane(point{x + 0.18*w, y}, toward(174), 0, 0, 0), 0)
		f.line = black(3)
		e.add(f)
	}
	e.flat(disc().at(900, 90, 46, 46, 0), hex("#fbe9a0").paint())
	e.finish = finish{quality: 75}
	return e.done()
}

func rocks(e *easel) *Scene {
	light := toward(120)
	e.ground(e.fade(hex("#e8d9bd"), hex("#d2b98f"), 270))
	for i, r := range []struct {
		l          local
		x, y, w, h float64
	}{
		{stone("stone, pale", "#c9c9cc", 2.3), 250, 250, 150, 120},
		{rich("stone, warm", "#a08a78", 2.2, -30, 0.5), 560, 230, 130, 140},
		{stone("stone, dark", "#7d7f80", 2.4), 690, 430, 160, 105},
		{dull("stone, mossy", "#93a06a", 2.2, 0.2), 330, 450, 170, 100},
	} {
		o := rock(uint64(20+i), 9).at(r.x, r.y, r.w, r.h, 0)
		f := r.l.form(o, mean(follow(o, light, r.w*0.55), plane(o.middle(), light, 0, 9, 14)), 0)
		f.line = tint(r.l.light, 5)
		e.add(f)
	}
	return e.done()
}

func fruitAccents(e *easel) *Scene {
	light := toward(130)
	e.ground(plain(hex("#4a5358")))
	put := func(l local, o outline, turn, gain float64) {
		f := l.form(o, ballOf(o, light, 0.3), 0)
		f.coat.accent, f.coat.band = accentAt(l.shadow, turn, gain), 0.055
		e.add(f)
	}
	put(rich("pear", "#d6cf5e", 2.4, -24, 0.2), pear().at(210, 270, 110, 180, 8), -22, 0.35)
	put(dull("apple", "#e08a70", 2.3, 0.25), apple().at(470, 340, 130, 125, 0), -18, 0.9)
	put(rich("plum", "#a596c8", 2.5, 16, 0.3), disc().at(660, 190, 95, 105, 0), 28, 0.6)
	return e.done()
}

func smallFruit(e *easel) *Scene {
	light := toward(45)
	e.ground(plain(hex("#26303a")))
	for _, r := range []struct {
		l          local
		o          outline
		pen, depth float64
	}{
		{rich("lemon", "#eed94e", 2.2, -30, 0.1), lemon().at(85, 80, 60, 44, -20), 3.5, 0.5},
		{dull("apple", "#cf5748", 2.4, 0.15), apple().at(215, 95, 56, 56, 0), 3.5, 0.5},
		{rich("lime", "#9cc45a", 2.3, 26, 0.15), disc().at(120, 180, 44, 42, 0), 3, 0.5},
	} {
		f := r.l.form(r.o, ballOf(r.o, light, 0.2), 0)
		f.line = black(r.pen)
		e.add(f)
	}
	return e.done()
}
