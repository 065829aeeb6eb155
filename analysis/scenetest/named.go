package scenetest

// painter is a named scene and how it is painted.
type painter struct {
	name          string
	width, height int
	paint         func(e *easel) *Scene
}

// painters returns all named scenes, in a fixed order.
func painters() []painter {
	var all []painter
	all = append(all, drawings...)
	all = append(all, moreDrawings...)
	all = append(all, darkAccented...)
	all = append(all, halfToned...)
	all = append(all, paintings...)
	all = append(all, morePaintings...)
	all = append(all, largePaintings...)
	all = append(all, empties...)
	all = append(all, moreEmpties...)
	all = append(all, greySteps...)
	return all
}

// Names returns the names of the scenes that Named paints.
func Names() []string {
	var names []string
	for _, p := range painters() {
		names = append(names, p.name)
	}
	return names
}

// Named paints a scene; nil if there is none of that name.
func Named(name string) *Scene {
	for _, p := range painters() {
		if p.name == name {
			return p.paint(newEasel(p.name, p.width, p.height))
		}
	}
	return nil
}

// black is a pen with black ink.
func black(width float64) *pen { return &pen{colour: hex("#161616"), width: width, vary: 0.3} }

// tint is a pen with a darker, richer ink of the fill.
func tint(fill Colour, width float64) *pen {
	return &pen{colour: tinted(fill, 3), width: width, vary: 0.3}
}

// local is a local colour: its two sides.
type local struct {
	name          string
	light, shadow Colour
	straight      bool
}

// rich is a local colour whose shadow turns its hue by degrees and gains saturation.
func rich(name, light string, tones, degrees, gain float64) local {
	c := hex(light)
	return local{name, c, turned(c, tones, degrees, gain), false}
}

// dull is a local colour whose shadow goes straight toward black.
func dull(name, light string, tones, grey float64) local {
	c := hex(light)
	return local{name, c, straight(c, tones, grey), true}
}

// stone is a neutral with a neutral shadow: of it nobody says toward black.
func stone(name, light string, tones float64) local {
	c := hex(light)
	return local{name, c, straight(c, tones, 0), false}
}

func (l local) coat(soft float64) coat {
	return coat{light: l.light, shadow: l.shadow, straight: l.straight, soft: soft}
}

// form starts a form of a local colour.
func (l local) form(o outline, s shade, soft float64) form {
	return form{family: l.name, outline: o, shade: s, coat: l.coat(soft)}
}
