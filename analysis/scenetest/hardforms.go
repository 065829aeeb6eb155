package scenetest

// darkAccented have accents darker than the shadow: the one fault of an accent.
var darkAccented = []picture{
	hardForms("accents below the shadow, narrow", 1200, 900, 0, darkAccent(0.024, 0.6)),
	hardForms("accents below the shadow, middling", 1200, 900, 0, darkAccent(0.045, 1.2)),
	hardForms("accents below the shadow, wide", 1200, 900, 0, darkAccent(0.09, 1.2)),
	hardForms("accents below the shadow, narrow, lined", 1200, 900, 0, darkAccent(0.03, 1.2), lined(black(4.5))),
	hardForms("accents below the shadow, lined, grain", 1000, 750, 4, darkAccent(0.07, 1.2), lined(black(3.75))),
	hardForms("accents below the shadow, large", 1920, 1440, 0, darkAccent(0.05, 0.9), lined(black(7.2))),
}

// halfToned have a flat half-tone between light and shadow.
var halfToned = []picture{
	hardForms("half-tones, a tenth", 1200, 900, 0, halfTone(0.1)),
	hardForms("half-tones, a tenth, lined", 1200, 900, 0, halfTone(0.1), lined(black(4.5))),
	hardForms("half-tones, a fifth", 1200, 900, 0, halfTone(0.2)),
	hardForms("half-tones, a fifth, lined, grain", 900, 700, 4, halfTone(0.2), lined(black(3.5))),
	hardForms("half-tones, a third", 1200, 900, 0, halfTone(0.33)),
	hardForms("half-tones, a third, lined", 1200, 900, 0, halfTone(0.33), lined(black(4.5))),
	hardForms("half-tones, soft, grain", 1000, 800, 3, halfTone(0.2), soft(0.03)),
}

// hardForms draws four forms, one of them a neutral.
func hardForms(name string, width, height int, grain float64, habits ...habit) picture {
	p := picture{name: name, width: width, height: height, ground: plain(hex("#e8e4dc")), habits: habits, finish: finish{grain: grain}}
	w, h := float64(width), float64(height)
	for k, f := range []struct {
		local
		outline
		light float64 // degrees
	}{
		{local{"skin", hex("#e2ab85"), hex("#b26a5c"), false}, disc, 160},
		{local{"cloth", hex("#96b4dc"), hex("#565ca0"), false}, box, 180},
		{rich("leaf", "#bcd27c", 2.3, 24, 0.4), lump(31, 7, 0.1), 40},
		{stone("stone", "#c8c8c8", 2.6), disc, 120},
	} {
		x, y := w*(0.28+0.44*float64(k%2)), h*(0.27+0.46*float64(k/2))
		p.things = append(p.things, f.as(f.at(x, y, 1.15*(0.19*h), 0.19*h, 0), from(f.light, plane(0, 0, 0))))
	}
	return p
}

// darkAccent has an accent so wide, as a share of the form's size, and darker than the shadow
// by tones.
func darkAccent(band, tones float64) habit {
	return func(f *form) {
		s := f.coat.shadow
		f.coat.band = band
		f.coat.accent = map[string]Colour{
			"skin": turned(s, tones, -2, 1.2), "cloth": turned(s, tones, 6, 0.9),
			"leaf": turned(s, tones, 22, 0.5), "stone": mixed(s.Value()-tones, 265, 0.25),
		}[f.family]
	}
}

// halfTone has a half-tone so wide, as a share of the form's size.
func halfTone(wide float64) habit {
	return func(f *form) {
		toward := map[string]float64{"skin": 0.5, "cloth": 0.4, "leaf": 0.6, "stone": 0.5}[f.family]
		f.coat.half = f.coat.light.paint().to(f.coat.shadow.paint(), toward).linear()
		f.coat.halfWide = wide
	}
}
