package views

import (
	"cmp"
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/edges"
	"app.tonedesk/analysis/reduce"
)

// LostEdges is the key of the view of lost edges.
const LostEdges = "lost-edges"

// LostEdgesOf returns the edges that this view found where it was painted last of a reduced picture;
// none where it never was. They are valid until it is painted again.
func LostEdgesOf(src *reduce.Picture) *edges.Found { return reduce.MemoryOf[edges.Finder](src).Last() }

// The greys, and over them the lost edges: borders that colour alone carries, drawn as a white line
// with a black rim, which is seen on any grey.
var lostEdgesView = View{Key: LostEdges, Name: "Lost edges", Says: "in grey they vanish", Wide: true, Knob: &meltsKnob, Paint: paintLostEdges}

// meltsKnob is how far the sides of an edge may be apart for it to be lost (its start is common practice,
// no source; its range our choice).
var meltsKnob = Knob{Name: "Within", Unit: "tones", From: 0.1, To: 1, Step: 0.1, Start: edges.DefaultOptions().MostTones}

// The line is half as wide again as a cell of what edges are looked for in, three pixels at least;
// the rim is a pixel, or a third of half the line (our choices: plain, and a hundredth of
// the picture at most).
const leastLine = 1.5 // half of its width, pixels

func paintLostEdges(dst []byte, src *reduce.Picture, look Look) {
	paintGrey(dst, src, look)
	found := reduce.MemoryOf[edges.Finder](src).Find(src, cmp.Or(look.Edges, edges.DefaultOptions()).WithTones(meltsKnob.At(look.Knob)))
	p := pen{dst: dst, width: src.Width, height: src.Height}
	half := max(leastLine, found.Cell(src.Width)*0.75)
	p.along(found, half+max(1, half/3), 0)
	p.along(found, half, 255)
}

// pen draws round dots.
type pen struct {
	dst           []byte
	width, height int
}

// along draws lost edges as dots of a radius, in pixels, which lie closer than that.
func (p *pen) along(found *edges.Found, radius float64, grey uint8) {
	lost := found.Of(edges.Lost)
	for i := range lost {
		found.Along(&lost[i], func(x, y float64) {
			p.dot(x*float64(p.width), y*float64(p.height), radius, grey)
		})
	}
}

// dot paints the pixels whose middle lies within a radius of a place.
func (p *pen) dot(x, y, radius float64, grey uint8) {
	for v := max(0, int(y-radius-0.5)); v < min(p.height, int(y+radius)+2); v++ {
		dy := float64(v) + 0.5 - y
		across := radius*radius - dy*dy
		if across < 0 {
			continue
		}
		across = math.Sqrt(across)
		from, to := max(0, int(math.Ceil(x-across-0.5))), min(p.width, int(math.Floor(x+across-0.5))+1)
		for u := from; u < to; u++ {
			q := p.dst[analysis.PixelBytes*(v*p.width+u):][:analysis.PixelBytes]
			q[0], q[1], q[2], q[3] = grey, grey, grey, 255
		}
	}
}
