package scenetest

// halfToned have a half-tone between light and shadow.
var halfToned = []painter{
	{"half-tones, a tenth", 1200, 900, halfTones(0.1, 0, 0, false)},
	{"half-tones, a tenth, lined", 1200, 900, halfTones(0.1, 0, 0, true)},
	{"half-tones, a fifth", 1200, 900, halfTones(0.2, 0, 0, false)},
	{"half-tones, a fifth, lined, grain", 900, 700, halfTones(0.2, 0, 4, true)},
	{"half-tones, a third", 1200, 900, halfTones(0.33, 0, 0, false)},
	{"half-tones, a third, lined", 1200, 900, halfTones(0.33, 0, 0, true)},
	{"half-tones, soft, grain", 1000, 800, halfTones(0.2, 0.03, 3, false)},
}

// halfTones has a flat half-tone between light and shadow, so wide as a share of the form.
func halfTones(wide, soft, grain float64, lined bool) func(*easel) *Scene {
	return func(e *easel) *Scene {
		return hardForms(e, grain, lined, func(k int, f *form) {
			half := f.coat.light.paint().to(f.coat.shadow.paint(), []float64{0.5, 0.4, 0.6, 0.5}[k]).linear()
			f.coat.half, f.coat.halfWide, f.coat.soft = &half, wide, soft
		})
	}
}
