package main

import (
	"fmt"
	"image/color"

	"github.com/lucasb-eyer/go-colorful"
)

// lightnessOf holds the L* of each quarter step of the value scale, from 0 to 10: the
// luminance that ASTM D1535-08e1 gives for the step, through CIE 1976 lightness.
// The rows are those of testdata/munsell_value_to_y.csv.
var lightnessOf = [41]float64{
	0, 2.595499, 5.124426, 7.759598,
	10.408446, 12.896041, 15.333040, 17.772030,
	20.235577, 22.730661, 25.256294, 27.807708,
	30.378670, 32.962719, 35.553807, 38.146584,
	40.736504, 43.319824, 45.893560, 48.455422,
	51.003745, 53.537417, 56.055820, 58.558776,
	61.046496, 63.519544, 65.978799, 68.425426,
	70.860848, 73.286727, 75.704940, 78.117562,
	80.526851, 82.935230, 85.345274, 87.759693,
	90.181318, 92.613091, 95.058044, 97.519289,
	100,
}

// A paint is a colour as this painting declares it: by its lightness first.
type paint struct {
	value  float64 // step of the value scale, a multiple of 0.25
	chroma float64 // C*ab, D65
	hue    float64 // hab, degrees
}

// A family is one local colour with what grows from it.
type family struct {
	light, shadow, accent, line paint
}

// straightToBlack says that a family's shadow is not mixed by hue and chroma, but by
// taking light away from its light side, all three primaries alike.
const straightToBlack = -1

// The painting's palette. Every shadow lies two to three tones below its light; the
// hues turn on the way, from yellow to red to purple and from green to blue to violet;
// each accent has the value of the shadow that it borders, and more chroma. The scarf
// does none of this, so that the reader can see what that looks like.
var (
	skin = family{
		light: paint{8, 30, 66}, shadow: paint{5.5, 42, 36},
		accent: paint{5.5, 66, 32}, line: paint{3, 42, 30},
	}
	hair = family{
		light: paint{4.75, 46, 52}, shadow: paint{2.25, 32, 14},
		accent: paint{2.25, 48, 27}, line: paint{1.25, 24, 8},
	}
	coat = family{
		light: paint{5.75, 29, 208}, shadow: paint{3.25, 31, 270},
		accent: paint{3.25, 56, 294}, line: paint{1.75, 34, 290},
	}
	scarf = family{
		light: paint{8.25, 64, 84}, shadow: paint{5.75, straightToBlack, 0},
	}
	leaf = family{
		light: paint{6.5, 50, 50}, shadow: paint{4.5, 52, 32},
		accent: paint{4.5, 60, 36}, line: paint{2.75, 42, 26},
	}
	sheen  = paint{6.25, 42, 64}  // where the hair turns straight to the sun
	bounce = paint{3.75, 28, 250} // the bay's light in the coat's shadow
)

// lightnessAt returns the L* of a step of the value scale.
func lightnessAt(value float64) float64 { return lightnessOf[int(value*4+0.5)] }

// mix returns the 8-bit sRGB colour of p.
func mix(p paint) color.NRGBA {
	return shown(colorful.Hcl(p.hue, p.chroma/100, lightnessAt(p.value)/100))
}

// darken takes light away from p until its value is the given one. Hue and saturation,
// as Oklch counts them, stay as they are: scaling linear light scales Oklab evenly.
func darken(p paint, value float64) color.NRGBA {
	c := colorful.Hcl(p.hue, p.chroma/100, lightnessAt(p.value)/100)
	_, y, _ := c.Xyz()
	_, want, _ := colorful.LabToXyz(lightnessAt(value)/100, 0, 0)
	r, g, b := c.LinearRgb()
	k := want / y
	return shown(colorful.LinearRgb(r*k, g*k, b*k))
}

// shown rounds c to 8 bits. The palette is this program's own, so a colour that the display
// cannot show panics.
func shown(c colorful.Color) color.NRGBA {
	if !c.IsValid() {
		panic(fmt.Sprintf("colour outside sRGB: %v", c))
	}
	r, g, b := c.RGB255()
	return color.NRGBA{r, g, b, 255}
}

// tubes are a family's colours, mixed.
type tubes struct {
	light, shadow, accent, line color.NRGBA
}

// squeeze mixes a family. The family without an accent and a line of its own gets the
// neutral black that many drawings start with.
func squeeze(f family) tubes {
	if f.shadow.chroma == straightToBlack {
		shadow := darken(f.light, f.shadow.value)
		return tubes{mix(f.light), shadow, shadow, grey(0)}
	}
	return tubes{mix(f.light), mix(f.shadow), mix(f.accent), mix(f.line)}
}
