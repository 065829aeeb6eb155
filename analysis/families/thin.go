package families

import "app.tonedesk/analysis/internal/pool"

// What is thin is up to 2 thinReach cells wide, and differs by at least thinLeast in L* from
// both sides; grain adds thinNoise times its deviation (found on drawn scenes; no source).
const (
	thinReach = 2
	thinLeast = 6.0
	thinNoise = 3.0
)

// markThin marks cells that are much darker, or lighter, than what lies on both sides of
// them: where closing, or opening, the lightness with a square changes it much (the top hats
// of MORPH).
func (f *Finder) markThin() {
	p, n := &f.planes, f.source.across*f.source.down
	p.thin, p.low, p.high = pool.Resized(p.thin, n), pool.Resized(p.low, n), pool.Resized(p.high, n)
	f.square(p.high, p.raw[0], true)
	f.square(p.high, p.high, false)
	f.square(p.low, p.raw[0], false)
	f.square(p.low, p.low, true)
	limit := int32(cellLab * (thinLeast + thinNoise*p.noise))
	for i, l := range p.raw[0] {
		p.thin[i] = 0
		if p.high[i]-l > limit || l-p.low[i] > limit {
			p.thin[i] = thinCell
		}
	}
}

// square sets each cell of dst to the lightest, or darkest, of a square of src around it. dst
// may be src.
func (f *Finder) square(dst, src []int32, lightest bool) {
	w, h := f.source.across, f.source.down
	row := pool.Resized(f.planes.even.row, w*h)
	f.planes.even.row = row
	f.rows(h, func(y int) {
		in, out := src[y*w:][:w], row[y*w:][:w]
		for x := range out {
			near := in[max(0, x-thinReach):min(w, x+thinReach+1)]
			v := near[0]
			if lightest {
				for _, l := range near[1:] {
					v = max(v, l)
				}
			} else {
				for _, l := range near[1:] {
					v = min(v, l)
				}
			}
			out[x] = v
		}
	})
	f.rows(h, func(y int) {
		out := dst[y*w:][:w]
		copy(out, row[y*w:][:w])
		for k := max(0, y-thinReach); k <= min(h-1, y+thinReach); k++ {
			in := row[k*w:][:len(out)]
			if lightest {
				for x, l := range in {
					out[x] = max(out[x], l)
				}
			} else {
				for x, l := range in {
					out[x] = min(out[x], l)
				}
			}
		}
	})
}
