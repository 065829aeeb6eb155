package assets

import (
	_ "embed"
	"image"
)

//go:generate go run ./demo

// DemoPNG is the demo painting, an opaque PNG of 1200 by 900 pixels: a scene of our own
// with every thing that the window measures.
//
//go:embed demo.png
var DemoPNG []byte

// Icon is the program's icon, a PNG of 256 by 256 pixels in neutral greys.
//
//go:embed icon.png
var Icon []byte

// A Place is a spot of the demo painting whose value the painting declares.
type Place struct {
	Name  string      // family and side
	At    image.Point // pixels from the top left
	Value float64     // step of the value scale, 0 to 10
}

// Places lists the families of the demo painting, each with its light side, its shadow
// side and, but for the scarf, its core-shadow accent. The first two are the pair that a
// new window can begin with: one skin in light and in shadow.
var Places = []Place{
	{"skin, light", image.Pt(590, 270), 8},
	{"skin, shadow", image.Pt(670, 450), 5.5},
	{"skin, accent", image.Pt(666, 350), 5.5},
	{"hair, light", image.Pt(640, 172), 4.75},
	{"hair, shadow", image.Pt(760, 330), 2.25},
	{"hair, accent", image.Pt(708, 262), 2.25},
	{"coat, light", image.Pt(410, 800), 5.75},
	{"coat, shadow", image.Pt(760, 760), 3.25},
	{"coat, accent", image.Pt(644, 780), 3.25},
	{"scarf, light", image.Pt(600, 590), 8.25},
	{"scarf, shadow", image.Pt(720, 630), 5.75},
	{"paper", image.Pt(1150, 60), 10},
}
