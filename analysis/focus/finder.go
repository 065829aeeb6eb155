package focus

import (
	"math"
	"slices"

	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/internal/pool"
	"app.tonedesk/analysis/reduce"
)

// Finder measures one picture after another. The zero value is ready for use, on one goroutine at
// a time.
type Finder struct {
	src  *reduce.Picture
	w, h int  // cells
	all  bool // of it counts

	half   []float32              // of a blur: what is blurred along rows, with rows of nothing around
	wide   []float32              // and what is to be, with cells of nothing around
	levels [channels][]float32    // what has been blurred last, times the share that counts
	weight []float32              // that share, blurred alike
	whole  wholeWeights           // of a picture of which all counts
	mean   [2][channels][]float32 // of the level before and of this one, without what doesn't count
}

// The channels that are blurred.
const (
	luminance = iota // 0 to 1
	lightness        // L*
	alongA           // a*, of a chroma that is drawn together
	alongB           // b*
	channels
)

// planes is what is kept of a picture, a cell each.
type planes struct {
	w, h   int
	light  []uint16 // red, green, blue, linear
	counts []bool
	l      []float32              // L*, blurred by a cell
	bright [Scales][]float32      // squared contrast of lightness
	chroma [Scales][]float32      // and of chroma
	slopes [slopeLevels][]float32 // squared, of L*, cell by cell: after the first blur and after the second
	all    []float32              // mean of all squared contrast around each cell
}

// wholeWeights are the blurred shares of a picture of which all counts: they depend on its size alone,
// and pictures of one size often follow each other.
type wholeWeights struct {
	w, h int
	of   [len(widths)][]float32 // nil before it was needed
}

// widths are those of the blurs between which the bands lie, cells: octaves, as PELI90 has them.
var widths = [Scales + 1]float64{1, 2, 4, 8}

// blurs lead from one width to the next.
var blurs = func() (k [len(widths)]kernel) {
	before := 0.0
	for i, to := range widths {
		k[i] = kernelOf(rootOfDifference(to, before))
		before = to
	}
	return k
}()

// Find measures a reduced picture, which it doesn't keep. A picture of more than Longest pixels
// is measured at finer scales than it is meant for.
func (f *Finder) Find(src *reduce.Picture, o Options) *Found {
	f.src, f.w, f.h = src, src.Width, src.Height
	defer func() { f.src = nil }()
	found := &Found{options: o}
	if f.w == 0 {
		return found
	}
	f.fill(&found.planes)
	f.bands(&found.planes)
	found.radius = radiusOf(f.w, f.h, o)
	f.gather(&found.planes, found.radius, o)
	found.findPlaces()
	f.findExtremes(found)
	return found
}

// do does rows of the picture on all cores.
func (f *Finder) do(job func(from, to int)) { f.src.Do(rows(job), f.h) }

// rows is a job for reduce.Picture.
type rows func(from, to int)

// Rows is for reduce.Picture.
func (r rows) Rows(_, from, to int) { r(from, to) }

// fill takes the picture over as channels.
func (f *Finder) fill(p *planes) {
	n := f.w * f.h
	p.w, p.h, p.light, p.counts = f.w, f.h, append([]uint16(nil), f.src.Linear...), make([]bool, n)
	f.weight = pool.Resized(f.weight, n)
	f.all = !slices.ContainsFunc(f.src.Left, func(left uint8) bool { return left != 0 })
	if f.whole.w != f.w || f.whole.h != f.h {
		f.whole = wholeWeights{w: f.w, h: f.h}
	}
	for c := range channels {
		f.levels[c] = pool.Resized(f.levels[c], n)
		f.mean[0][c], f.mean[1][c] = pool.Resized(f.mean[0][c], n), pool.Resized(f.mean[1][c], n)
	}
	f.do(func(from, to int) {
		for i := from * f.w; i < to*f.w; i++ {
			p.counts[i] = f.src.Left[i] == 0
			var v [channels]float32
			if f.weight[i] = 0; p.counts[i] {
				f.weight[i], v = 1, channelsOf(p.light[3*i:][:3])
			}
			for c := range v {
				f.levels[c][i] = v[c]
			}
		}
	})
}

// channelsOf returns light as channels, L*, a* and b* within 0.01.
func channelsOf(linear []uint16) [channels]float32 {
	r, g, b := uint32(linear[0]), uint32(linear[1]), uint32(linear[2])
	w := &fixed.LabWeights[1]
	y := r*w[0] + g*w[1] + b*w[2]
	lab := fixed.LabOf(linear)
	const unit = fixed.LabUnit
	aStar, bStar := 500*float64(lab.A)/unit, 200*float64(lab.B)/unit
	together := float32(drawnTogether(math.Hypot(aStar, bStar)))
	return [channels]float32{
		luminance: float32(y) / (fixed.LinearWhite << 16),
		lightness: 116*float32(fixed.LabRoots.Of(y))/unit - 16,
		alongA:    together * float32(aStar),
		alongB:    together * float32(bStar),
	}
}

// drawnTogether returns by which factor DIN99 makes a chroma C*ab smaller: ln(1 + 0.045 C*) / 0.045,
// over C*. As of light, a step of chroma counts by how much there is already.
func drawnTogether(chroma float64) float64 {
	const rate = 0.045
	if chroma < 1e-6 {
		return 1
	}
	return math.Log1p(rate*chroma) / (rate * chroma)
}
