package scenetest

// darkAccented have accents that are too dark.
var darkAccented = []painter{
	{"accents below the shadow, narrow", 1200, 900, darkAccents(0.024, 0.6, 0, false)},
	{"accents below the shadow, middling", 1200, 900, darkAccents(0.045, 1.2, 0, false)},
	{"accents below the shadow, wide", 1200, 900, darkAccents(0.09, 1.2, 0, false)},
	{"accents below the shadow, narrow, lined", 1200, 900, darkAccents(0.03, 1.2, 0, true)},
	{"accents below the shadow, lined, grain", 1000, 750, darkAccents(0.07, 1.2, 4, true)},
	{"accents below the shadow, large", 1920, 1440, darkAccents(0.05, 0.9, 0, true)},
}

// hardLocals are four local colours, one of them a neutral.
var hardLocals = []local{
	{"skin", hex("#e2ab85"), hex("#b26a5c"), false},
	{"cloth", hex("#96b4dc"), hex("#565ca0"), false},
	rich("leaf", "#bcd27c", 2.3, 24, 0.4),
	stone("stone", "#c8c8c8", 2.6),
}

// hardForms draws a form of each of hardLocals, as change has its coat.
func hardForms(e *easel, grain float64, lined bool, change func(k int, f *form)) *Scene {
	e.ground(plain(hex("#e8e4dc")))
	w, h := float64(e.width), float64(e.height)
	r := 0.19 * h
	for k, l := range hardLocals {
		x, y := w*(0.28+0.44*float64(k%2)), h*(0.27+0.46*float64(k/2))
		o := []outline{disc(), box(), lump(31, 7, 0.1), disc()}[k].at(x, y, 1.15*r, r, 0)
		f := l.form(o, plane(o.middle(), toward([]float64{160, 180, 40, 120}[k]), 0, 0, 0), 0)
		if lined {
			f.line = black(h / 200)
		}
		change(k, &f)
		e.add(f)
	}
	e.finish = finish{grain: grain}
	return e.done()
}

// darkAccents has accents darker than the shadow by tones: the one fault of an accent.
func darkAccents(band, tones, grain float64, lined bool) func(*easel) *Scene {
	return func(e *easel) *Scene {
		return hardForms(e, grain, lined, func(k int, f *form) {
			s := f.coat.shadow
			accent := []Colour{
				turned(s, tones, -2, 1.2), turned(s, tones, 6, 0.9),
				turned(s, tones, 22, 0.5), mixed(s.Value()-tones, 265, 0.25),
			}[k]
			f.coat.accent, f.coat.band = &accent, band
		})
	}
}
