package scenetest

import (
	"image"
	"slices"
)

// picture is a named scene, in a table.
type picture struct {
	name          string
	width, height int
	light         float64 // where it comes from: 0 degrees is from the right, 90 from above
	ground        backdrop
	habits        []habit // of all its forms
	things        []layer // from back to front
	finish        finish
}

// pictures are all named scenes, in a fixed order.
var pictures = slices.Concat(drawings, darkAccented, halfToned, paintings, empties, greySteps)

// Names returns the names of the scenes that Named paints.
func Names() []string {
	var names []string
	for _, p := range pictures {
		names = append(names, p.name)
	}
	return names
}

// Named paints a scene; nil if there is none of that name.
func Named(name string) *Scene {
	i := slices.IndexFunc(pictures, func(p picture) bool { return p.name == name })
	if i < 0 {
		return nil
	}
	p := pictures[i]
	e := newEasel(p.name, image.Pt(p.width, p.height), p.light)
	e.habits, e.finish = p.habits, p.finish
	e.ground(p.ground)
	layers(p.things...)(e)
	return e.done()
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

// dull is a local colour whose shadow goes straight toward black; grey is the share of the
// saturation that is lost on the way.
func dull(name, light string, tones, grey float64) local {
	c := hex(light)
	return local{name, c, turned(c, tones, 0, -grey), true}
}

// stone is a neutral with a neutral shadow: of it nobody says toward black.
func stone(name, light string, tones float64) local {
	c := hex(light)
	return local{name, c, turned(c, tones, 0, 0), false}
}

// form starts a form of a local colour, with a hard edge.
func (l local) form(o outline, s shading) form {
	c := coat{light: l.light, shadow: l.shadow, bright: l.light, reflected: l.shadow, straight: l.straight}
	return form{family: l.name, outline: o, shading: s, coat: c}
}
