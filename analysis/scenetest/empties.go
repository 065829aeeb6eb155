package scenetest

import (
	"fmt"
	"strings"
)

// empties are pictures without any family.
var empties = []picture{
	{name: "empty: flat shapes on a ground", width: 800, height: 600, ground: plain(hex("#dfe3e8")),
		things: each("#b0503c #4a7c59 #46608f #c9a13b #7b4a78 #3f3f46", func(i int, c Colour) layer {
			o := lump(uint64(i+40), 7, 0.3).at(150+250*float64(i%3), 160+280*float64(i/3), 95, 95, 0)
			if i%2 == 0 {
				return layers(flat(o, c), stroke(o, black(4)))
			}
			return flat(o, c)
		})},
	{name: "empty: grey ramp, across", width: 640, height: 480, ground: fade(hex("#000000"), hex("#ffffff"), 0)},
	{name: "empty: grey ramp, down", width: 640, height: 480, ground: fade(hex("#000000"), hex("#ffffff"), 270)},
	{name: "empty: grey ramp, round", width: 640, height: 480, ground: glow(hex("#ffffff"), hex("#101010"))},
	{name: "empty: colour ramp", width: 960, height: 540, ground: fade(hex("#1f3d7a"), hex("#f0c890"), 250)},
	{name: "empty: white noise", width: 640, height: 480, ground: plain(hex("#808080")), finish: finish{grain: 40}},
	{name: "empty: colour noise", width: 640, height: 480, ground: plain(hex("#808080")), finish: finish{grain: 40, colour: true}},
	{name: "empty: coarse noise", width: 640, height: 480, ground: plain(hex("#808080")),
		finish: finish{grain: 30, colour: true, clump: 2.5}},
	{name: "empty: line drawing", width: 640, height: 860, ground: plain(hex("#fbfaf6")), things: []layer{
		blankShape(skirt.at(325, 620, 165, 125, 0)), blankShape(torso.at(320, 440, 105, 100, 0)),
		blankShape(head.at(320, 190, 88, 112, 0)), blankShape(hair.at(320, 165, 112, 120, 0)),
		blankShape(boot.at(285, 780, 42, 58, 0)), blankShape(boot.at(372, 780, 42, 58, 0)),
	}},
	{name: "empty: blank", width: 320, height: 240, ground: plain(hex("#f2efe6"))},
	{name: "empty: flats of unlike hue side by side", width: 800, height: 600, ground: plain(hex("#f0f0f0")),
		things: each("#c0392b #7fb069 #2e4a8a #e6c229 #5a2d6b #6fb7b2", func(i int, c Colour) layer {
			return flat(box.at(150+100*float64(i), 300, 50, 180, 0), c)
		})},
	{name: "empty: chequers of unlike hue", width: 720, height: 720, ground: either(func(p point) bool {
		return (int(p.x)/90+int(p.y)/90)%2 == 0
	}, hex("#b23a30"), hex("#8cc9a0"))},
	{name: "empty: rainbow", width: 800, height: 300, ground: everywhere(func(p point) paint {
		return mixed(6.5, p.x*0.45, 0.14).paint()
	})},
	{name: "empty: lined flats, grain and JPEG", width: 800, height: 600, ground: plain(hex("#d9d3c3")),
		things: each("#9a3d52 #3f7a86 #c98f3a #5a7d3a", func(i int, c Colour) layer {
			o := []outline{head, skirt, pot, boot}[i].at(170+430*float64(i%2), 160+280*float64(i/2), 110, 115, 0)
			return layers(flat(o, c), stroke(o, black(4)))
		}), finish: finish{grain: 6, quality: 75}},
	{name: "empty: flats before a gradient", width: 1280, height: 720, ground: fade(hex("#f2d6a2"), hex("#7a94c0"), 250),
		things: each("#7d2f3a #2e5d4f #46306a", func(i int, c Colour) layer {
			return flat(lump(uint64(80+i), 9, 0.25).at(260+380*float64(i), 380, 120, 160, 0), c)
		})},
	{name: "empty: dotted flats", width: 640, height: 480, ground: plain(hex("#f3efe4")), things: each("#2f6f8f #b8862f", dotted)},
	// A noisy screen as a camera sees it: soft grains, darker corners.
	{name: "empty: photograph of noise", width: 1024, height: 768, ground: glow(hex("#9c9c9c"), hex("#7a7a7a")),
		finish: finish{grain: 45, clump: 1.4, quality: 85}},
	{name: "empty: thin stripes", width: 640, height: 480, ground: either(func(p point) bool {
		return mod1((p.x+p.y)/14) < 0.5
	}, hex("#3a3f6a"), hex("#e8d8a8"))},
	{name: "empty: blank canvas with weave", width: 640, height: 480, ground: mottled(hex("#c9bfa9"), 0.05, 21),
		finish: finish{weave: 8, grain: 4, clump: 1}},
	// Flats that touch and differ in hue alone.
	{name: "empty: flats of one lightness", width: 800, height: 600, ground: plain(hex("#efefef")),
		things: []layer{oneLightness(0), oneLightness(1), oneLightness(2), oneLightness(3), oneLightness(4), oneLightness(5)}},
}

// greySteps are scales of grey.
var greySteps = []picture{emptySteps(7, 3), emptySteps(9, 2), emptySteps(11, 5), emptySteps(13, 11), emptySteps(16, 14)}

// emptySteps is a scale of even steps of grey on a ground that is as grey as one of them.
func emptySteps(steps, like int) picture {
	grey := func(k int) paint { v := float32(k) / float32(steps-1); return paint{v, v, v} }
	p := picture{
		name:  fmt.Sprintf("empty: %d steps of grey on a ground like one", steps),
		width: 1200, height: 900, ground: plain(grey(like).linear()),
	}
	wide := 1000 / float64(steps)
	for k := range steps {
		o := box.at(100+wide*(float64(k)+0.5), 450, wide/2, 150, 0)
		p.things = append(p.things, func(e *easel) { e.fill(o, grey(k), ground) })
	}
	return p
}

// each paints something in each of some colours.
func each(colours string, paint func(i int, c Colour) layer) (all []layer) {
	for i, c := range strings.Fields(colours) {
		all = append(all, paint(i, hex(c)))
	}
	return all
}

// blankShape is a drawn outline with paper inside.
func blankShape(o outline) layer { return layers(flat(o, hex("#fbfaf6")), stroke(o, black(3))) }

// dotted is a flat with dots of the ground's colour.
func dotted(i int, c Colour) layer {
	x := 180 + 280*float64(i)
	all := []layer{flat(disc.at(x, 240, 120, 150, 0), c)}
	for k := range 60 {
		u, v := 0.85*latticeAt(k, i, 11), 0.85*latticeAt(k, i, 12)
		if u*u+v*v < 0.7 {
			all = append(all, detail(disc.at(x+120*u, 240+150*v, 4, 4, 0), hex("#f3efe4")))
		}
	}
	return layers(all...)
}

func oneLightness(i int) layer {
	return flat(box.at(250+150*float64(i%3), 220+160*float64(i/3), 75, 80, 0), mixed(5.5, 60*float64(i)+20, 0.15))
}
