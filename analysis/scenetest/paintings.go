package scenetest

// paintings are soft: gradients, reflected light, grain; or finished in ways that trouble the
// eye of a machine.
var paintings = []picture{
	{name: "pots with a wide terminator, JPEG 85", width: 900, height: 640, light: 40,
		ground: glow(hex("#f0ece2"), hex("#cfc9bd")), things: []layer{
			rich("bowl", "#5f86b8", 2.6, 22, 0.3).as(bowl.at(250, 430, 170, 120, 0), plane(0, 0, 0), soft(0.33)),
			dull("pot", "#b98058", 2.6, 0.2).as(pot.at(520, 300, 130, 190, 0), plane(0, 0, 0), soft(0.3)),
			rich("jug", "#8fae62", 2.7, 28, 0.25).as(jug.at(760, 360, 95, 190, 0), plane(0, 0, 0), soft(0.25)),
		}, finish: finish{quality: 85}},
	{name: "still life, reflected light on canvas", width: 1280, height: 800, light: 150,
		ground: mottled(hex("#6d7a70"), 0.06, 3), habits: []habit{bright(0.5, -0.1), stroked(0.02)}, things: []layer{
			rich("jug", "#cfa87c", 2.6, -24, 0.5).as(jug.at(360, 380, 170, 270, 0), mean(ball(0.3), deep(0.42)),
				soft(0.16), reflecting(0.5, hex("#c08050").Oklab().Hue())),
			dull("cabbage", "#a5c283", 2.4, 0.2).as(lump(9, 11, 0.12).at(720, 520, 175, 165, 0), mean(ball(0.3), deep(0.42)),
				soft(0.2), reflecting(0.5, hex("#90b060").Oklab().Hue())),
			rich("cloth", "#c27a9c", 2.5, -26, 0.35).as(lump(12, 9, 0.2).at(1040, 420, 180, 170, 0), mean(ball(0.3), deep(0.42)),
				soft(0.14), reflecting(0.5, hex("#a04a60").Oklab().Hue())),
		}, finish: finish{grain: 4, clump: 0.8, weave: 3}},
	{name: "still life, soft edges", width: 960, height: 720, light: 135,
		ground: fade(hex("#c8b79c"), hex("#9a8468"), 270), things: []layer{
			onFloor(rich("pot", "#7fb0bb", 2.5, 24, 0.4), pot.at(330, 310, 150, 190, 0), 0.12),
			onFloor(dull("apple", "#d8695a", 2.4, 0.15), apple.at(600, 450, 112, 108, 0), 0.15),
			onFloor(rich("pear", "#dcd877", 2.2, -26, 0.2), pear.at(790, 380, 84, 140, -6), 0.08),
			onFloor(rich("lemon", "#f2d660", 2.3, -32, 0.15), lemon.at(470, 590, 130, 96, 12), 0.18),
		}},
	{name: "night, low key, grain", width: 800, height: 600, light: 70,
		ground: fade(hex("#10131c"), hex("#1f2436"), 270), things: []layer{
			rich("cloak", "#7c3b46", 2.1, -18, 0.2).as(cloak.at(240, 330, 150, 240, 0), mean(ball(0.1), plane(0, 6, 7)), soft(0.03)),
			rich("lantern", "#c98f3a", 3.6, -20, 0.05).as(bell.at(520, 300, 85, 130, 0), mean(ball(0.1), plane(0, 6, 7)), soft(0.1)),
			dull("stone", "#4d6470", 2.3, 0.25).as(rock(5, 8).at(640, 470, 130, 95, 0), mean(ball(0.1), plane(0, 6, 7)), soft(0.05)),
		}, finish: finish{grain: 3, colour: true}},
	{name: "high key portrait, small contrasts", width: 600, height: 760, light: 125,
		ground: plain(hex("#f4f1ea")), things: []layer{
			dull("cloth", "#9fd0da", 0.8, 0.2).as(torso.at(300, 640, 230, 200, 0), planeAt(point{320, 620}, 10, 14, 5), soft(0.02)),
			rich("skin", "#f6dccb", 1.1, -20, 0.9).as(neck.at(300, 440, 62, 70, 0), from(240, planeAt(point{300, 430}, 8, 3, 10)), soft(0.05)),
			rich("skin", "#f6dccb", 1.1, -20, 0.9).as(head.at(300, 270, 140, 180, 0), mean(ball(0.25), follow(70)), soft(0.05)),
			rich("hair", "#e3c48c", 0.85, -24, 0.4).as(hair.at(300, 235, 180, 190, 0), planeAt(point{315, 190}, 0, 12, 8), soft(0.02)),
		}},
	{name: "heap of fruit with soft accents", width: 1100, height: 800, light: 130,
		ground: fade(hex("#3e3a44"), hex("#57525a"), 270), habits: []habit{soft(0.04)}, things: []layer{
			rich("melon", "#a9c98a", 2.4, 24, 0.2).as(disc.at(330, 330, 220, 210, 0), ball(0.3), accented(26, 0.6, 0.07)),
			rich("peach", "#f0b48a", 2.3, -20, 0.4).as(apple.at(640, 420, 165, 160, 0), ball(0.3), accented(-22, 0.5, 0.07)),
			dull("plum", "#9c7fb8", 2.2, 0.25).as(disc.at(430, 620, 155, 130, 0), ball(0.3), accented(30, 0.9, 0.07)),
			rich("lemon", "#f0dc62", 2.3, -28, 0.1).as(lemon.at(850, 610, 165, 125, -14), ball(0.3), accented(-22, 0.12, 0.07)),
		}},
	{name: "metal pots, neutral, with highlights", width: 900, height: 700, light: 120,
		ground: glow(hex("#9c5a48"), hex("#6a3a32")), habits: []habit{soft(0.14), reflecting(0.6, 30)}, things: []layer{
			stone("tin", "#d4d6d8", 2.8).as(pot.at(180, 360, 125, 215, 0), ball(0.25)),
			detail(disc.at(140, 310, 9, 22, 15), hex("#ffffff")),
			stone("iron", "#8a8c8e", 2.4).as(bell.at(450, 400, 125, 215, 0), ball(0.25)),
			detail(disc.at(410, 350, 9, 22, 15), hex("#ffffff")),
			stone("pewter", "#b0b0ae", 3.4).as(jug.at(720, 360, 125, 215, 0), ball(0.25)),
			detail(disc.at(680, 310, 9, 22, 15), hex("#ffffff")),
		}},
	{name: "one large head", width: 900, height: 1200, light: 150,
		ground: fade(hex("#7b8c94"), hex("#a9b2ae"), 240), things: []layer{
			rich("skin", "#d9a07c", 2.4, -20, 0.5).as(head.at(450, 660, 330, 440, 0), mean(ball(0.25), follow(180)),
				soft(0.07), bright(0.4, 0), stroked(0.02)),
			rich("hair", "#7a5fa0", 2.1, 24, 0.2).as(hair.at(450, 520, 410, 440, 0), planeAt(point{500, 430}, 0, 25, 4), soft(0.04)),
			detail(disc.at(330, 700, 26, 17, 0), hex("#2a2530")), // eyes
			detail(disc.at(560, 700, 26, 17, 0), hex("#2a2530")),
		}, finish: finish{grain: 2.5}},
	{name: "balloons before a sky, slight blur", width: 1024, height: 768, light: 65,
		ground: fade(hex("#5f9cd6"), hex("#dcebf2"), 270), habits: []habit{soft(0.1)}, things: []layer{
			balloon(150, 250, dull("balloon, red", "#e0503f", 2.3, 0.15)),
			balloon(390, 420, rich("balloon, yellow", "#f2d24a", 2.4, -34, 0.02)),
			balloon(630, 250, rich("balloon, pink", "#eaa3b8", 2.3, -30, 0.7)),
			balloon(870, 420, dull("balloon, green", "#7cae4e", 2.4, 0.2)),
		}, finish: finish{blur: 0.8}},
	{name: "strong grain", width: 640, height: 480, light: 110,
		ground: plain(hex("#cfc3ae")), habits: []habit{lined(black(4))}, things: []layer{
			rich("jug", "#6f97ad", 2.4, 25, 0.5).as(jug.at(190, 240, 100, 170, 0), ball(0.2)),
			dull("pot", "#b4623f", 2.3, 0.2).as(pot.at(450, 240, 100, 170, 0), ball(0.2)),
		}, finish: finish{grain: 10}},
	{name: "cloaks on rough canvas", width: 1200, height: 900, light: 125,
		ground: mottled(hex("#b3a892"), 0.05, 14), habits: []habit{soft(0.03), stroked(0.03)}, things: []layer{
			dull("cloak, green", "#5f8f5a", 2.2, 0.2).as(cloak.at(220, 470, 190, 340, 0), folds(plane(0, 18, 5), 3, 18)),
			rich("cloak, red", "#c4564c", 2.3, -22, 0.15).as(cloak.at(600, 470, 190, 340, 0), folds(plane(0, 18, 5), 3, 18)),
			rich("cloak, blue", "#7390c8", 2.5, 22, 0.3).as(cloak.at(980, 470, 190, 340, 0), folds(plane(0, 18, 5), 3, 18)),
		}, finish: finish{weave: 7, grain: 3, clump: 1.2}},
	{name: "bust, accents and tinted lines", width: 800, height: 1000, light: 135,
		ground: plain(hex("#e3e6e0")), habits: []habit{tinted(5)}, things: []layer{
			rich("coat", "#7fa6a0", 2.3, 20, 0.4).as(torso.at(400, 850, 330, 250, 0), planeAt(point{430, 830}, 0, 14, 5), accented(28, 0.8, 0.045)),
			rich("skin", "#edc0a2", 2.2, -16, 0.5).as(head.at(400, 400, 190, 240, 0), mean(ball(0.25), follow(90)), accented(-24, 0.6, 0.045)),
			dull("hair", "#b07f5a", 2.2, 0.3).as(hair.at(400, 340, 245, 260, 0), planeAt(point{430, 300}, 0, 14, 6), accented(-18, 1, 0.045)),
		}},
	{name: "coarse grain, soft forms", width: 960, height: 640, light: 100,
		ground: glow(hex("#4f5f57"), hex("#33403c")), habits: []habit{soft(0.12)}, things: []layer{
			rich("shell", "#e6c2a8", 2.4, -24, 0.7).as(lump(70, 10, 0.18).at(170, 320, 135, 150, 0), ball(0.25)),
			dull("sponge", "#d6b04a", 2.3, 0.2).as(lump(71, 10, 0.18).at(480, 320, 135, 150, 0), ball(0.25)),
			rich("coral", "#e08a86", 2.3, -18, 0.3).as(lump(72, 10, 0.18).at(790, 320, 135, 150, 0), ball(0.25)),
		}, finish: finish{grain: 6, clump: 1.8}},
	{name: "dress with drawn folds, soft edges", width: 720, height: 960, light: 150,
		ground: glow(hex("#f0eadc"), hex("#d9cfbb")), habits: []habit{tinted(3)}, things: []layer{
			rich("dress", "#8fb0d8", 2.3, 22, 0.4).as(skirt.at(360, 650, 290, 290, 0), planeAt(point{370, 660}, 0, 16, 6), soft(0.05)),
			drawnFolds(ink(hex("#8fb0d8"), 3)),
			dull("bodice", "#b8657a", 2.2, 0.2).as(torso.at(360, 270, 150, 170, 0), mean(follow(80), plane(0, 8, 8)), soft(0.04)),
		}},
	{name: "rim light behind dark figures", width: 1000, height: 800, light: 165,
		ground: fade(hex("#54616e"), hex("#39424c"), 270), things: []layer{
			rimmed(190, rich("coat, red", "#a5483e", 2.1, -18, 0.1)),
			rimmed(500, rich("coat, green", "#5d8a5a", 2.2, 26, 0.2)),
			rimmed(810, dull("coat, blue", "#5a79b4", 2.3, 0.2)),
		}},
}

// deep is follow, as deep as a share of the outline's size.
func deep(share float64) shading {
	return func(o outline, light point) shade { return follow(share*o.size())(o, light) }
}

// onFloor is a form whose shadow falls on the floor to its right.
func onFloor(l local, o outline, edge float64) layer {
	b := o.bounds()
	w, h := float64(b.Dx()), float64(b.Dy())
	return layers(
		func(e *easel) {
			e.castShadow(o.middle().x+w*0.35, float64(b.Max.Y)-8, w*0.6, h*0.12, hex("#5a4a3c"), 0.4)
		},
		l.as(o, ball(0.35), soft(edge)),
	)
}

// balloon hangs on a string.
func balloon(x, y float64, l local) layer {
	return layers(l.as(disc.at(x, y, 105, 135, 0), ball(0.35)), thread(black(1.5), point{x, y + 137}, point{x + 8, y + 230}))
}

// drawnFolds are folds that are lines, not shadows.
func drawnFolds(c Colour) layer {
	var all []layer
	for x := 180.0; x <= 540; x += 60 {
		all = append(all, thread(pen{colour: c, width: 2, vary: 0.3}, point{360 + (x-360)*0.5, 420}, point{x, 880}))
	}
	return layers(all...)
}

// rimmed is a figure with a thin bright edge on the shadow's far side.
func rimmed(x float64, l local) layer {
	o := cloak.at(x, 470, 135, 260, 0)
	var rim outline
	for _, p := range o {
		if p.x > x+40 && p.y < 660 {
			rim = append(rim, point{p.x - 4, p.y})
		}
	}
	return layers(l.as(o, mean(follow(90), plane(0, 10, 6)), soft(0.05)), thread(pen{colour: mixed(8.6, 75, 0.09), width: 3}, rim...))
}
