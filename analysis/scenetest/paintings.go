package scenetest

// paintings are soft: gradients, reflected light, grain.
var paintings = []painter{
	{"still life, soft edges", 960, 720, stillLife},
	{"still life, reflected light on canvas", 1280, 800, onCanvas},
	{"pots with a wide terminator, JPEG 85", 900, 640, widePots},
	{"night, low key, grain", 800, 600, night},
	{"high key portrait, small contrasts", 600, 760, highKey},
}

func stillLife(e *easel) *Scene {
	light := toward(135)
	e.ground(e.fade(hex("#c8b79c"), hex("#9a8468"), 270))
	put := func(l local, o outline, soft float64) {
		b := o.bounds()
		e.castShadow(o.middle().x+float64(b.Dx())*0.35, float64(b.Max.Y)-8, float64(b.Dx())*0.6, float64(b.Dy())*0.12, hex("#5a4a3c"), 0.4)
		e.add(l.form(o, ballOf(o, light, 0.35), soft))
	}
	put(rich("pot", "#7fb0bb", 2.5, 24, 0.4), pot().at(330, 310, 150, 190, 0), 0.12)
	put(dull("apple", "#d8695a", 2.4, 0.15), apple().at(600, 450, 112, 108, 0), 0.15)
	put(rich("pear", "#dcd877", 2.2, -26, 0.2), pear().at(790, 380, 84, 140, -6), 0.08)
	put(rich("lemon", "#f2d660", 2.3, -32, 0.15), lemon().at(470, 590, 130, 96, 12), 0.18)
	return e.done()
}

func onCanvas(e *easel) *Scene {
	light := toward(150)
	e.ground(e.mottled(hex("#6d7a70"), 0.06, 3))
	put := func(l local, o outline, soft float64, glow string) {
		f := l.form(o, mean(ballOf(o, light, 0.3), follow(o, light, o.size()*0.42)), soft)
		c := hex(glow)
		r := mixed(l.shadow.Value()+0.5, c.Oklab().Hue(), l.shadow.saturation())
		f.coat.reflected = &r
		b := mixed(min(l.light.Value()+0.5, 9.6), l.light.Oklab().Hue(), l.light.saturation()*0.9)
		f.coat.bright = &b
		f.coat.strokes = 0.02
		e.add(f)
	}
	put(rich("jug", "#cfa87c", 2.6, -24, 0.5), jug().at(360, 380, 170, 270, 0), 0.16, "#c08050")
	put(dull("cabbage", "#a5c283", 2.4, 0.2), lump(9, 11, 0.12).at(720, 520, 175, 165, 0), 0.2, "#90b060")
	put(rich("cloth", "#c27a9c", 2.5, -26, 0.35), lump(12, 9, 0.2).at(1040, 420, 180, 170, 0), 0.14, "#a04a60")
	e.finish = finish{grain: 4, clump: 0.8, weave: 3}
	return e.done()
}

func widePots(e *easel) *Scene {
	light := toward(40)
	e.ground(e.glow(hex("#f0ece2"), hex("#cfc9bd")))
	put := func(l local, o outline, soft float64) { e.add(l.form(o, plane(o.middle(), light, 0, 0, 0), soft)) }
	put(rich("bowl", "#5f86b8", 2.6, 22, 0.3), bowl().at(250, 430, 170, 120, 0), 0.33)
	put(dull("pot", "#b98058", 2.6, 0.2), pot().at(520, 300, 130, 190, 0), 0.3)
	put(rich("jug", "#8fae62", 2.7, 28, 0.25), jug().at(760, 360, 95, 190, 0), 0.25)
	e.finish = finish{quality: 85}
	return e.done()
}

func night(e *easel) *Scene {
	light := toward(70)
	e.ground(e.fade(hex("#10131c"), hex("#1f2436"), 270))
	put := func(l local, o outline, soft float64) {
		e.add(l.form(o, mean(ballOf(o, light, 0.1), plane(o.middle(), light, 0, 6, 7)), soft))
	}
	put(rich("cloak", "#7c3b46", 2.1, -18, 0.2), cloak().at(240, 330, 150, 240, 0), 0.03)
	put(rich("lantern", "#c98f3a", 3.6, -20, 0.05), bell().at(520, 300, 85, 130, 0), 0.1)
	put(dull("stone", "#4d6470", 2.3, 0.25), rock(5, 8).at(640, 470, 130, 95, 0), 0.05)
	e.finish = finish{grain: 3, colour: true}
	return e.done()
}

func highKey(e *easel) *Scene {
	light := toward(125)
	e.ground(plain(hex("#f4f1ea")))
	skin := rich("skin", "#f6dccb", 1.1, -20, 0.9)
	hairs := rich("hair", "#e3c48c", 0.85, -24, 0.4)
	cloth := dull("cloth", "#9fd0da", 0.8, 0.2)
	o := torso().at(300, 640, 230, 200, 0)
	e.add(cloth.form(o, plane(point{320, 620}, light, 10, 14, 5), 0.02))
	o = neck().at(300, 440, 62, 70, 0)
	e.add(skin.form(o, plane(point{300, 430}, toward(240), 8, 3, 10), 0.05))
	o = head().at(300, 270, 140, 180, 0)
	e.add(skin.form(o, mean(ballOf(o, light, 0.25), follow(o, light, 70)), 0.05))
	o = hair().at(300, 235, 180, 190, 0)
	e.add(hairs.form(o, plane(point{315, 190}, light, 0, 12, 8), 0.02))
	return e.done()
}
