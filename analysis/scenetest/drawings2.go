package scenetest

// moreDrawings are flat colours with hard edges: other things, sizes and faults.
var moreDrawings = []painter{
	{"boats, thin tinted lines with gaps", 1920, 1080, boats},
	{"nine things, black lines", 1600, 1000, nineThings},
	{"five balls straight toward black", 1000, 420, ballsStraight},
	{"five balls with turned hues", 1000, 420, ballsTurned},
	{"white cloth, thick lines with gaps", 700, 560, whiteCloth},
	{"lamps, contrasts of four and a half tones", 800, 600, lamps},
	{"feathers, contrasts of eight tenths", 800, 600, feathers},
	{"spotted mushrooms, tinted lines", 960, 720, mushrooms},
	{"face and two hands of one skin", 720, 960, faceAndHands},
	{"face under a hat that casts a shadow", 640, 800, underHat},
	{"canvas in a grey workspace", 1366, 768, inWorkspace},
	{"fish in flat colour, JPEG 60", 640, 480, fishJPEG},
	{"flats of like hue beside a family", 800, 600, likeHues},
}

// lined paints a hard-edged form with a line around.
func (e *easel) lined(l local, o outline, s shade, p *pen) {
	f := l.form(o, s, 0)
	f.line = p
	e.add(f)
}

func boats(e *easel) *Scene {
	light := toward(155)
	e.ground(e.fade(hex("#e9e4d2"), hex("#86b3bf"), 270))
	for i, b := range []struct {
		hull, sail local
		x, y, size float64
	}{
		{rich("hull, left", "#b8553f", 2.3, -14, 0.1), rich("sail, left", "#f2ead2", 2.1, -35, 1.2), 420, 560, 350},
		{dull("hull, middle", "#7f9a4c", 2.2, 0.2), dull("sail, middle", "#e3b95e", 2.5, 0.2), 1010, 640, 360},
		{rich("hull, right", "#8660a0", 2.4, 20, 0.25), rich("sail, right", "#e69ba6", 2.2, -20, 0.5), 1580, 540, 340},
	} {
		thin := func(c Colour) *pen { return &pen{colour: tinted(c, 2.6), width: 2.5, vary: 0.4, gaps: 0.12} }
		o := gable().at(b.x, b.y-0.45*b.size, 0.62*b.size, 0.75*b.size, 4-3*float64(i))
		e.lined(b.sail, o, plane(point{b.x, b.y}, light, 0.06*b.size, 0.03*b.size, 2), thin(b.sail.light))
		o = bowl().at(b.x, b.y+0.5*b.size, 0.8*b.size, 0.27*b.size, 0)
		e.lined(b.hull, o, plane(point{b.x, b.y + 0.52*b.size}, toward(120), 0, 4, 3), thin(b.hull.light))
	}
	return e.done()
}

func nineThings(e *easel) *Scene {
	light := toward(128)
	e.ground(plain(hex("#ece7da")))
	for i, t := range []struct {
		l local
		o outline
	}{
		{rich("teapot", "#5fa3b5", 2.2, 25, 0.3), pot()},
		{dull("orange", "#e8902f", 2.4, 0.15), disc()},
		{rich("cabbage", "#a9c77c", 2.2, 26, 0.4), lump(3, 12, 0.16)},
		{dull("loaf", "#b98a52", 2.3, 0.2), mushroom()},
		{rich("aubergine", "#9a6fb0", 2.6, 18, 0.3), pear()},
		{stone("kettle", "#b4b6b8", 2.7), bell()},
		{rich("cheese", "#f4dc6a", 2.2, -35, 0.1), house()},
		{dull("tomato", "#d24a3a", 2.1, 0.18), apple()},
		{rich("cap", "#4a63a8", 2.1, 20, 0.15), hat()},
	} {
		x, y := 270+530*float64(i%3), 170+325*float64(i/3)
		o := t.o.at(x, y, 175, 140, 0)
		s := ballOf(o, light, 0.2)
		if t.l.name == "cheese" {
			s = plane(point{x + 35, y}, toward(180), 0, 0, 0)
		}
		e.lined(t.l, o, s, black(5))
	}
	return e.done()
}

// balls sets five balls in a row.
func (e *easel) balls(locals []local, soft float64) *Scene {
	e.ground(plain(hex("#8f8f8f")))
	for i, l := range locals {
		o := disc().at(100+200*float64(i), 210, 84, 110, 0)
		e.add(l.form(o, ballOf(o, toward(115), 0.25), soft))
	}
	return e.done()
}

func ballsStraight(e *easel) *Scene {
	return e.balls([]local{
		dull("yellow", "#f0d43c", 2.4, 0.04), dull("skin", "#e9b493", 2.2, 0.04), dull("red", "#d8402f", 2.2, 0.04),
		dull("green", "#4caf5e", 2.6, 0.04), dull("blue", "#5c86dc", 2.5, 0.04),
	}, 0)
}

func ballsTurned(e *easel) *Scene {
	return e.balls([]local{
		rich("yellow", "#f0d43c", 2.4, -36, 0.05), rich("skin", "#e9b493", 2.2, -26, 0.6), rich("red", "#e0604a", 2.2, -24, 0.2),
		rich("green", "#7cc07a", 2.6, 28, 0.25), rich("blue", "#7c9be0", 2.5, 24, 0.3),
	}, 0)
}

func whiteCloth(e *easel) *Scene {
	light := toward(50)
	e.ground(plain(hex("#6b8f9c")))
	pen := &pen{colour: hex("#1d1a22"), width: 7, vary: 0.45, gaps: 0.15}
	o := skirt().at(240, 300, 180, 210, 0)
	e.lined(stone("cloth, white", "#f1f1f0", 2.4), o, folds(plane(o.middle(), light, 10, 14, 7), o, 3, 20), pen)
	o = torso().at(540, 290, 110, 170, 8)
	e.lined(stone("cloth, grey", "#9a9a9b", 2.2), o, mean(follow(o, light, 60), plane(o.middle(), light, 0, 10, 9)), pen)
	return e.done()
}

func lamps(e *easel) *Scene {
	light := toward(90)
	e.ground(plain(hex("#5b4a57")))
	for i, l := range []local{
		rich("shade", "#f6e6a8", 4.5, -38, 0.8), dull("foot", "#9fc9b8", 4.2, 0.1), rich("book", "#e8b0a8", 3.8, -20, 0.7),
	} {
		o := []outline{bell(), jug(), house()}[i].at(160+240*float64(i), 300, 105, 190, 0)
		e.add(l.form(o, plane(o.middle(), light, -10, 8, 8), 0))
	}
	return e.done()
}

func feathers(e *easel) *Scene {
	light := toward(75)
	e.ground(plain(hex("#3c4a52")))
	for i, l := range []local{
		rich("dove", "#b9a7b2", 0.85, -40, 0.6), dull("robin", "#c8683e", 0.9, 0.25), rich("jay", "#6f96c4", 0.8, 28, 0.5),
		dull("finch", "#c9c05a", 1.1, 0.25),
	} {
		o := leaf().at(220+360*float64(i%2), 170+260*float64(i/2), 165, 105, 8*float64(i)-12)
		e.lined(l, o, mean(follow(o, light, 60), plane(o.middle(), light, -5, 8, 9)), black(3))
	}
	return e.done()
}

func mushrooms(e *easel) *Scene {
	light := toward(135)
	e.ground(e.mottled(hex("#5f7a4a"), 0.07, 8))
	stalk := rich("stalks", "#ead9c0", 2.3, -30, 0.8)
	for i, l := range []local{dull("cap, red", "#d6453a", 2.2, 0.15), rich("cap, ochre", "#dba53f", 2.3, -26, 0.05), rich("cap, violet", "#a78ac9", 2.4, 18, 0.3)} {
		x, y, w := 190+290*float64(i), 330+60*float64(i%2), 160.0
		o := stem().at(x, y+150, 0.42*w, 140, 0)
		e.lined(stalk, o, plane(o.middle(), toward(170), -6, 3, 9), tint(stalk.light, 4))
		o = mushroom().at(x, y-20, w, 125, 0)
		e.lined(l, o, mean(ballOf(o, light, 0.2), follow(o, light, 60)), tint(l.light, 4))
		for k := range 9 {
			u, v := -0.6+0.15*float64(k), -0.5+0.28*float64(k%3)
			e.detail(disc().at(x+u*w, y-20+v*100, 7, 6, 0), hex("#fdf6e6").paint())
		}
	}
	return e.done()
}

func faceAndHands(e *easel) *Scene {
	light := toward(140)
	e.ground(e.fade(hex("#37404c"), hex("#6a6f70"), 270))
	skin := rich("skin", "#e8b48f", 2.3, -22, 0.6)
	robe := dull("robe", "#5d8f86", 2.2, 0.2)
	scarf := rich("scarf", "#c8484f", 2.1, -16, 0.05)
	pen := black(4)
	o := cloak().at(360, 680, 300, 330, 0)
	e.lined(robe, o, mean(follow(o, light, 150), plane(o.middle(), light, 0, 14, 6)), pen)
	for _, x := range []float64{150, 560} {
		o = lump(5, 9, 0.18).at(x, 760, 82, 92, 0)
		e.lined(skin, o, mean(follow(o, light, 52), plane(o.middle(), light, 0, 4, 10)), pen)
	}
	o = head().at(360, 250, 135, 165, 4)
	e.lined(skin, o, mean(ballOf(o, light, 0.2), follow(o, light, 80)), pen)
	o = bowl().at(360, 440, 160, 62, 0)
	e.lined(scarf, o, plane(point{370, 440}, light, 0, 8, 8), pen)
	return e.done()
}

func underHat(e *easel) *Scene {
	light := toward(100)
	e.ground(plain(hex("#e9d7c0")))
	skin, felt, shirt := rich("skin", "#c98f6a", 2.2, -18, 0.4), dull("hat", "#6f8a58", 2.2, 0.2), rich("shirt", "#8fa8d8", 2.3, 22, 0.3)
	o := torso().at(320, 700, 250, 170, 0)
	e.lined(shirt, o, plane(point{400, 690}, toward(160), 0, 14, 8), black(4))
	o = head().at(320, 370, 140, 180, 0)
	brim := plane(point{320, 375}, toward(265), 0, 10, 4)
	e.lined(skin, o, darker(brim, follow(o, toward(150), 60)), black(4))
	o = hat().at(320, 180, 230, 140, 0)
	e.lined(felt, o, mean(plane(point{345, 180}, toward(165), 0, 8, 6), follow(o, light, 60)), black(4))
	return e.done()
}

func inWorkspace(e *easel) *Scene {
	e.ground(plain(hex("#4b4b4b")))
	e.flat(box().at(683, 384, 480, 330, 0), hex("#f7f7f5").paint())
	light := toward(60)
	for i, l := range []local{rich("vase", "#6c8fc4", 2.3, 24, 0.3), dull("bread", "#c48a4e", 2.2, 0.2), rich("leaf", "#8fb65c", 2.2, 28, 0.3)} {
		o := []outline{pot(), lump(6, 10, 0.12), leaf()}[i].at(380+300*float64(i), 390+30*float64(i%2), 140, 190-35*float64(i), 0)
		e.lined(l, o, mean(ballOf(o, light, 0.2), follow(o, light, 70)), tint(l.light, 3))
	}
	return e.done()
}

func fishJPEG(e *easel) *Scene {
	light := toward(80)
	e.ground(e.fade(hex("#cfe3dd"), hex("#9cc3c4"), 270))
	for i, l := range []local{dull("carp", "#d98c4a", 2.3, 0.2), rich("perch", "#b56a86", 2.2, -25, 0.35)} {
		o := fish().at(200+230*float64(i), 150+180*float64(i), 170, 105, 5)
		e.lined(l, o, plane(o.middle(), light, -8, 6, 9), black(3))
		e.detail(disc().at(300+230*float64(i), 135+180*float64(i), 6, 6, 0), hex("#101010").paint())
	}
	e.finish = finish{quality: 60}
	return e.done()
}

// likeHues has a lighter and a darker green that touch: two hills or one hill's two
// sides, no one could tell.
func likeHues(e *easel) *Scene {
	e.ground(plain(hex("#c4dcea")))
	e.likeFlats("green hills", lump(31, 7, 0.2).at(210, 420, 150, 110, 0), hex("#9cc07c"),
		lump(32, 7, 0.2).at(340, 470, 140, 80, 0), hex("#5d8a4a"))
	o := house().at(620, 300, 130, 120, 0)
	wall := rich("wall", "#e8c49a", 2.2, -25, 0.6)
	e.lined(wall, o, plane(point{646, 300}, toward(180), 0, 0, 0), black(3))
	return e.done()
}
