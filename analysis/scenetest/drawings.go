package scenetest

// drawings are flat colours with hard edges between light and shadow, most with lines.
var drawings = []picture{
	{name: "figure in flat colour, black lines", width: 640, height: 860, light: 140,
		ground: plain(hex("#d8e2e6")), habits: []habit{lined(black(4))}, things: figure()},
	{name: "village with black lines, JPEG 75", width: 1000, height: 700,
		ground: either(func(p point) bool { return p.y < 434 }, hex("#a9cfe8"), hex("#8fb35a")),
		habits: []habit{lined(black(3))}, things: []layer{
			cottage(190, 440, 130, rich("wall, left", "#f2e2b8", 2.2, -28, 0.5), dull("roof, left", "#b4513a", 2.1, 0.15)),
			cottage(520, 460, 140, stone("wall, middle", "#dcdcda", 2.3), rich("roof, middle", "#7187b8", 2.2, 22, 0.4)),
			cottage(830, 440, 150, dull("wall, right", "#d8a08a", 2.4, 0.2), rich("roof, right", "#9a7a3e", 2.2, -25, 0.4)),
			flat(disc.at(900, 90, 46, 46, 0), hex("#fbe9a0")),
		}, finish: finish{quality: 75}},
	{name: "grey rocks, tinted lines", width: 900, height: 600, light: 120,
		ground: fade(hex("#e8d9bd"), hex("#d2b98f"), 270), habits: []habit{tinted(5)}, things: []layer{
			stone("stone, pale", "#c9c9cc", 2.3).as(rock(20, 9).at(250, 250, 150, 120, 0), mean(follow(82.5), plane(0, 9, 14))),
			rich("stone, warm", "#a08a78", 2.2, -30, 0.5).as(rock(21, 9).at(560, 230, 130, 140, 0), mean(follow(71.5), plane(0, 9, 14))),
			stone("stone, dark", "#7d7f80", 2.4).as(rock(22, 9).at(690, 430, 160, 105, 0), mean(follow(88), plane(0, 9, 14))),
			dull("stone, mossy", "#93a06a", 2.2, 0.2).as(rock(23, 9).at(330, 450, 170, 100, 0), mean(follow(93.5), plane(0, 9, 14))),
		}},
	{name: "fruit with core-shadow accents, no lines", width: 800, height: 600, light: 130,
		ground: plain(hex("#4a5358")), things: []layer{
			rich("pear", "#d6cf5e", 2.4, -24, 0.2).as(pear.at(210, 270, 110, 180, 8), ball(0.3), accented(-22, 0.35, 0.055)),
			dull("apple", "#e08a70", 2.3, 0.25).as(apple.at(470, 340, 130, 125, 0), ball(0.3), accented(-18, 0.9, 0.055)),
			rich("plum", "#a596c8", 2.5, 16, 0.3).as(disc.at(660, 190, 95, 105, 0), ball(0.3), accented(28, 0.6, 0.055)),
		}},
	{name: "small fruit on dark, thick lines", width: 320, height: 240, light: 45,
		ground: plain(hex("#26303a")), habits: []habit{lined(black(3.5))}, things: []layer{
			rich("lemon", "#eed94e", 2.2, -30, 0.1).as(lemon.at(85, 80, 60, 44, -20), ball(0.2)),
			dull("apple", "#cf5748", 2.4, 0.15).as(apple.at(215, 95, 56, 56, 0), ball(0.2)),
			rich("lime", "#9cc45a", 2.3, 26, 0.15).as(disc.at(120, 180, 44, 42, 0), ball(0.2), lined(black(3))),
		}},
	{name: "nine things, black lines", width: 1600, height: 1000, light: 128,
		ground: plain(hex("#ece7da")), habits: []habit{lined(black(5))}, things: []layer{
			rich("teapot", "#5fa3b5", 2.2, 25, 0.3).as(pot.at(270, 170, 175, 140, 0), ball(0.2)),
			dull("orange", "#e8902f", 2.4, 0.15).as(disc.at(800, 170, 175, 140, 0), ball(0.2)),
			rich("cabbage", "#a9c77c", 2.2, 26, 0.4).as(lump(3, 12, 0.16).at(1330, 170, 175, 140, 0), ball(0.2)),
			dull("loaf", "#b98a52", 2.3, 0.2).as(mushroom.at(270, 495, 175, 140, 0), ball(0.2)),
			rich("aubergine", "#9a6fb0", 2.6, 18, 0.3).as(pear.at(800, 495, 175, 140, 0), ball(0.2)),
			stone("kettle", "#b4b6b8", 2.7).as(bell.at(1330, 495, 175, 140, 0), ball(0.2)),
			rich("cheese", "#f4dc6a", 2.2, -35, 0.1).as(house.at(270, 820, 175, 140, 0), edgeAt(305)),
			dull("tomato", "#d24a3a", 2.1, 0.18).as(apple.at(800, 820, 175, 140, 0), ball(0.2)),
			rich("cap", "#4a63a8", 2.1, 20, 0.15).as(hat.at(1330, 820, 175, 140, 0), ball(0.2)),
		}},
	{name: "five balls straight toward black", width: 1000, height: 420, light: 115,
		ground: plain(hex("#8f8f8f")), things: balls(
			dull("yellow", "#f0d43c", 2.4, 0.04), dull("skin", "#e9b493", 2.2, 0.04), dull("red", "#d8402f", 2.2, 0.04),
			dull("green", "#4caf5e", 2.6, 0.04), dull("blue", "#5c86dc", 2.5, 0.04))},
	{name: "five balls with turned hues", width: 1000, height: 420, light: 115,
		ground: plain(hex("#8f8f8f")), things: balls(
			rich("yellow", "#f0d43c", 2.4, -36, 0.05), rich("skin", "#e9b493", 2.2, -26, 0.6), rich("red", "#e0604a", 2.2, -24, 0.2),
			rich("green", "#7cc07a", 2.6, 28, 0.25), rich("blue", "#7c9be0", 2.5, 24, 0.3))},
	{name: "white cloth, thick lines with gaps", width: 700, height: 560, light: 50, ground: plain(hex("#6b8f9c")),
		habits: []habit{lined(pen{colour: hex("#1d1a22"), width: 7, vary: 0.45, gaps: 0.15})}, things: []layer{
			stone("cloth, white", "#f1f1f0", 2.4).as(skirt.at(240, 300, 180, 210, 0), folds(plane(10, 14, 7), 3, 20)),
			stone("cloth, grey", "#9a9a9b", 2.2).as(torso.at(540, 290, 110, 170, 8), mean(follow(60), plane(0, 10, 9))),
		}},
	{name: "lamps, contrasts of four and a half tones", width: 800, height: 600, light: 90,
		ground: plain(hex("#5b4a57")), things: []layer{
			rich("shade", "#f6e6a8", 4.5, -38, 0.8).as(bell.at(160, 300, 105, 190, 0), plane(-10, 8, 8)),
			dull("foot", "#9fc9b8", 4.2, 0.1).as(jug.at(400, 300, 105, 190, 0), plane(-10, 8, 8)),
			rich("book", "#e8b0a8", 3.8, -20, 0.7).as(house.at(640, 300, 105, 190, 0), plane(-10, 8, 8)),
		}},
	{name: "feathers, contrasts of eight tenths", width: 800, height: 600, light: 75,
		ground: plain(hex("#3c4a52")), habits: []habit{lined(black(3))}, things: []layer{
			rich("dove", "#b9a7b2", 0.85, -40, 0.6).as(leaf.at(220, 170, 165, 105, -12), mean(follow(60), plane(-5, 8, 9))),
			dull("robin", "#c8683e", 0.9, 0.25).as(leaf.at(580, 170, 165, 105, -4), mean(follow(60), plane(-5, 8, 9))),
			rich("jay", "#6f96c4", 0.8, 28, 0.5).as(leaf.at(220, 430, 165, 105, 4), mean(follow(60), plane(-5, 8, 9))),
			dull("finch", "#c9c05a", 1.1, 0.25).as(leaf.at(580, 430, 165, 105, 12), mean(follow(60), plane(-5, 8, 9))),
		}},
	{name: "spotted mushrooms, tinted lines", width: 960, height: 720, light: 135,
		ground: mottled(hex("#5f7a4a"), 0.07, 8), habits: []habit{tinted(4)}, things: []layer{
			toadstool(190, 330, dull("cap, red", "#d6453a", 2.2, 0.15)),
			toadstool(480, 390, rich("cap, ochre", "#dba53f", 2.3, -26, 0.05)),
			toadstool(770, 330, rich("cap, violet", "#a78ac9", 2.4, 18, 0.3)),
		}},
	{name: "face and two hands of one skin", width: 720, height: 960, light: 140,
		ground: fade(hex("#37404c"), hex("#6a6f70"), 270), habits: []habit{lined(black(4))}, things: []layer{
			dull("robe", "#5d8f86", 2.2, 0.2).as(cloak.at(360, 680, 300, 330, 0), mean(follow(150), plane(0, 14, 6))),
			rich("skin", "#e8b48f", 2.3, -22, 0.6).as(lump(5, 9, 0.18).at(150, 760, 82, 92, 0), mean(follow(52), plane(0, 4, 10))),
			rich("skin", "#e8b48f", 2.3, -22, 0.6).as(lump(5, 9, 0.18).at(560, 760, 82, 92, 0), mean(follow(52), plane(0, 4, 10))),
			rich("skin", "#e8b48f", 2.3, -22, 0.6).as(head.at(360, 250, 135, 165, 4), mean(ball(0.2), follow(80))),
			rich("scarf", "#c8484f", 2.1, -16, 0.05).as(bowl.at(360, 440, 160, 62, 0), planeAt(point{370, 440}, 0, 8, 8)),
		}},
	{name: "face under a hat that casts a shadow", width: 640, height: 800, light: 150,
		ground: plain(hex("#e9d7c0")), habits: []habit{lined(black(4))}, things: []layer{
			rich("shirt", "#8fa8d8", 2.3, 22, 0.3).as(torso.at(320, 700, 250, 170, 0), from(160, planeAt(point{400, 690}, 0, 14, 8))),
			rich("skin", "#c98f6a", 2.2, -18, 0.4).as(head.at(320, 370, 140, 180, 0),
				darker(from(265, planeAt(point{320, 375}, 0, 10, 4)), follow(60))),
			dull("hat", "#6f8a58", 2.2, 0.2).as(hat.at(320, 180, 230, 140, 0),
				mean(from(165, planeAt(point{345, 180}, 0, 8, 6)), from(100, follow(60)))),
		}},
	{name: "canvas in a grey workspace", width: 1366, height: 768, light: 60,
		ground: plain(hex("#4b4b4b")), habits: []habit{tinted(3)}, things: []layer{
			flat(box.at(683, 384, 480, 330, 0), hex("#f7f7f5")),
			rich("vase", "#6c8fc4", 2.3, 24, 0.3).as(pot.at(380, 390, 140, 190, 0), mean(ball(0.2), follow(70))),
			dull("bread", "#c48a4e", 2.2, 0.2).as(lump(6, 10, 0.12).at(680, 420, 140, 155, 0), mean(ball(0.2), follow(70))),
			rich("leaf", "#8fb65c", 2.2, 28, 0.3).as(leaf.at(980, 390, 140, 120, 0), mean(ball(0.2), follow(70))),
		}},
	{name: "fish in flat colour, JPEG 60", width: 640, height: 480, light: 80,
		ground: fade(hex("#cfe3dd"), hex("#9cc3c4"), 270), habits: []habit{lined(black(3))}, things: []layer{
			dull("carp", "#d98c4a", 2.3, 0.2).as(fish.at(200, 150, 170, 105, 5), plane(-8, 6, 9)),
			detail(disc.at(300, 135, 6, 6, 0), hex("#101010")),
			rich("perch", "#b56a86", 2.2, -25, 0.35).as(fish.at(430, 330, 170, 105, 5), plane(-8, 6, 9)),
			detail(disc.at(530, 315, 6, 6, 0), hex("#101010")),
		}, finish: finish{quality: 60}},
	// A lighter and a darker green that touch: two hills or one hill's two sides, no one could tell.
	{name: "flats of like hue beside a family", width: 800, height: 600,
		ground: plain(hex("#c4dcea")), habits: []habit{lined(black(3))}, things: []layer{
			likeFlats("green hills", lump(31, 7, 0.2).at(210, 420, 150, 110, 0), hex("#9cc07c"),
				lump(32, 7, 0.2).at(340, 470, 140, 80, 0), hex("#5d8a4a")),
			rich("wall", "#e8c49a", 2.2, -25, 0.6).as(house.at(620, 300, 130, 120, 0), edgeAt(646)),
		}},
}

func figure() []layer {
	skin := rich("skin", "#f0c4a0", 2.3, -22, 0.7)
	jacket := rich("jacket", "#4f9a8c", 2.4, 28, 0.35)
	boots := rich("boots", "#9c6a86", 2.2, -30, 0.5)
	return []layer{
		boots.as(boot.at(265, 780, 62, 68, 0), plane(-4, 3, 12)),
		boots.as(boot.at(385, 780, 62, 68, 0), plane(-4, 3, 12)),
		dull("skirt", "#d9b23c", 2.6, 0.2).as(skirt.at(325, 620, 165, 125, 0), folds(planeAt(point{345, 620}, 10, 12, 8), 4, 16)),
		skin.as(neck.at(322, 318, 30, 50, 0), from(230, planeAt(point{322, 300}, 6, 2, 10))),
		jacket.as(sleeve.at(202, 470, -58, 100, 0), follow(34)),
		jacket.as(sleeve.at(438, 470, 58, 100, 0), follow(34)),
		jacket.as(torso.at(320, 440, 105, 100, 0), planeAt(point{335, 440}, 5, 10, 7)),
		skin.as(head.at(320, 190, 88, 112, 0), mean(ball(0.25), follow(50))),
		dull("hair", "#a0522c", 2.2, 0.15).as(hair.at(320, 165, 112, 120, 0), mean(planeAt(point{335, 150}, 16, 8, 9), ball(0.2))),
		detail(disc.at(288, 205, 7, 10, 0), hex("#2a2a30")), // eyes
		detail(disc.at(354, 205, 7, 10, 0), hex("#2a2a30")),
		stroke(smooth(outline{{300, 258}, {320, 264}, {342, 257}, {320, 262}}), black(2.5)),
	}
}

// cottage is a house with two windows, lit from the left.
func cottage(x, y, w float64, wall, tiles local) layer {
	return layers(
		wall.as(house.at(x, y, w, 120, 0), edgeAt(x+0.2*w)),
		detail(box.at(x-0.7*w, y, 11, 15, 0), hex("#3a4658")),
		detail(box.at(x-0.25*w, y, 11, 15, 0), hex("#3a4658")),
		tiles.as(roof.at(x, y-155, w*1.12, 78, 0), from(174, planeAt(point{x + 0.18*w, y}, 0, 0, 0))),
	)
}

// balls sets balls in a row.
func balls(locals ...local) (row []layer) {
	for i, l := range locals {
		row = append(row, l.as(disc.at(100+200*float64(i), 210, 84, 110, 0), ball(0.25)))
	}
	return row
}

// toadstool has a stalk of the colour that all have, and a spotted cap.
func toadstool(x, y float64, cap local) layer {
	all := []layer{
		rich("stalks", "#ead9c0", 2.3, -30, 0.8).as(stem.at(x, y+150, 67.2, 140, 0), from(170, plane(-6, 3, 9))),
		cap.as(mushroom.at(x, y-20, 160, 125, 0), mean(ball(0.2), follow(60))),
	}
	for k := range 9 {
		u, v := -0.6+0.15*float64(k), -0.5+0.28*float64(k%3)
		all = append(all, detail(disc.at(x+u*160, y-20+v*100, 7, 6, 0), hex("#fdf6e6")))
	}
	return layers(all...)
}
