package movement

import (
	"math"
	"math/rand/v2"
	"sync"

	"app.tonedesk/analysis"
)

// canvas is a painted document of whole lightness steps, larger than what is seen of it.
type canvas struct {
	width, height int
	grey          []uint8
}

// paint makes a canvas from a function of the place, counted from the middle.
func paintCanvas(at func(x, y float64) float64) *canvas {
	c := &canvas{width: 2000, height: 1300}
	c.grey = make([]uint8, c.width*c.height)
	for i := range c.grey {
		x, y := i%c.width-c.width/2, i/c.width-c.height/2
		c.grey[i] = uint8(min(max(at(float64(x), float64(y)), 0), 255))
	}
	return c
}

// workspace is what a painting program shows around the canvas.
const workspace = 75

// view is how a canvas is seen: its middle lies dx, dy beside the middle of the view.
type view struct {
	dx, dy, zoom, turn float64 // pixels, factor, degrees
	mirror             bool
}

// seen returns a reading of the canvas in a view of the size given.
func (c *canvas) seen(width, height int, v view) *analysis.Reading {
	if v.zoom == 0 {
		v.zoom = 1
	}
	r := &analysis.Reading{Width: width, Height: height, Grey: make([]uint8, width*height)}
	sin, cos := math.Sincos(v.turn * math.Pi / 180)
	for y := range height {
		row := r.Grey[y*width:][:width]
		a, b := (-float64(width/2)-v.dx)/v.zoom, (float64(y-height/2)-v.dy)/v.zoom
		a, b = a*cos+b*sin, b*cos-a*sin
		stepA, stepB := cos/v.zoom, -sin/v.zoom
		if v.mirror {
			a, stepA = -a, -stepA
		}
		for x := range row {
			i, k := int(a+float64(c.width/2)+0.5), int(b+float64(c.height/2)+0.5)
			row[x] = workspace
			if i >= 0 && k >= 0 && i < c.width && k < c.height {
				row[x] = c.grey[k*c.width+i]
			}
			a, b = a+stepA, b+stepB
		}
	}
	return r
}

// scenes paints the documents, once. Whole numbers, the same in every run.
var scenes = sync.OnceValue(func() map[string]*canvas {
	return map[string]*canvas{
		"figure": paintCanvas(figureAt), "lines": paintCanvas(linesAt), "flats": paintCanvas(flatsAt()),
		"soft": paintCanvas(softAt), "grain": paintCanvas(grainAt), "lone": paintCanvas(loneAt),
	}
})

// figureAt is a figure in front of a landscape: flat shapes with a light and a shadow side.
func figureAt(x, y float64) float64 {
	grey := 205 - y/10 // a soft sky
	if y > 130+20*math.Sin(x/170) {
		grey = 120 - y/12
		if math.Mod(x+1000+y/3, 90) < 8 && y > 200 { // tufts
			grey = 75
		}
	}
	for i := -4; i <= 4; i++ { // posts
		if math.Abs(x-float64(i)*230+40) < 14 && y > -40-float64(i*i) && y < 220 {
			grey = 60 + float64(i)*6
		}
	}
	if y > 60 && math.Abs(x) < 90+(y-60)*0.5 { // body
		grey = 150
		if x > 20 {
			grey = 82
		}
	}
	if x*x/14400+(y+30)*(y+30)/22500 < 1 { // head
		grey = 186
		if x > 25+y/8 {
			grey = 112
		}
		if y < -110+30*math.Sin(x/25) { // hair
			grey = 48
		}
		if math.Abs(math.Abs(x+10)-45) < 14 && math.Abs(y+20) < 8 { // eyes
			grey = 30
		}
	}
	if math.Hypot(x-430, y+220) < 70 { // a lamp
		grey = 248
	}
	return grey
}

// linesAt is a line drawing on paper: thin curves only.
func linesAt(x, y float64) float64 {
	near := func(d, width float64) bool { return math.Abs(d) < width/2 }
	switch {
	case near(math.Hypot(x/1.0, (y+60)/1.25)-130, 3),
		near(math.Hypot(x-360, y-60)-90, 2.5), near(math.Hypot(x+400, (y-20)*1.4)-140, 3),
		near(x-40*math.Sin(y/60), 3) && y > 90 && y < 420,
		near(y-180-25*math.Sin(x/90), 2), near(y+250-60*math.Sin(x/240+1), 2),
		near(math.Abs(x+6)-48, 26) && near(y+80, 3),
		near(x-y*0.8-60, 3) && y > 100, near(x+y*0.9+60, 3) && y > 100:
		return 60
	}
	return 246
}

// flatsAt is a picture of large flat shapes, each of its own lightness.
func flatsAt() func(x, y float64) float64 {
	var shapes [24]struct{ x, y, tone float64 }
	rng := rand.New(rand.NewPCG(5, 6))
	for i := range shapes {
		shapes[i].x, shapes[i].y = rng.Float64()*1900-950, rng.Float64()*1200-600
		shapes[i].tone = 40 + rng.Float64()*200
	}
	return func(x, y float64) float64 {
		best, tone := math.Inf(1), 0.0
		for _, s := range shapes {
			if d := (x-s.x)*(x-s.x) + (y-s.y)*(y-s.y); d < best {
				best, tone = d, s.tone
			}
		}
		return tone
	}
}

// softAt has no edge at all.
func softAt(x, y float64) float64 {
	return 130 + 50*math.Sin(x/47+math.Sin(y/90)) + 45*math.Cos(y/41-x/200) + 20*math.Sin((x-y)/150)
}

// grainAt is a mottled surface.
func grainAt(x, y float64) float64 {
	sum := 0.0
	for i, size := range [3]float64{23, 11, 6} {
		ix, iy := math.Floor(x/size), math.Floor(y/size)
		fx, fy := x/size-ix, y/size-iy
		at := func(a, b float64) float64 {
			h := uint32(int32(a))*2654435761 ^ uint32(int32(b))*2246822519 ^ uint32(i)*97
			h = (h ^ h>>15) * 2246822519
			return float64(h>>8&255)/255 - 0.5
		}
		sum += (at(ix, iy)*(1-fx)+at(ix+1, iy)*fx)*(1-fy) + (at(ix, iy+1)*(1-fx)+at(ix+1, iy+1)*fx)*fy
	}
	return 140 + 90*sum
}

// loneAt is a single figure on plain paper.
func loneAt(x, y float64) float64 {
	if math.Hypot(x, y+60) < 110 {
		if x > 20 {
			return 110
		}
		return 180
	}
	if y > 20 && y < 300 && math.Abs(x) < 60+y*0.3 {
		if x > 10 {
			return 70
		}
		return 140
	}
	return 235
}

// edited returns a reading changed by a function of place and lightness.
func edited(r *analysis.Reading, change func(x, y, v float64) float64) *analysis.Reading {
	e := &analysis.Reading{Width: r.Width, Height: r.Height, Grey: make([]uint8, len(r.Grey))}
	for i, v := range r.Grey {
		e.Grey[i] = uint8(min(max(change(float64(i%r.Width), float64(i/r.Width), float64(v)), 0), 255))
	}
	return e
}
