package analysis

import (
	"math"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
)

// deepOf is how many 16-bit codes a step of 8 bits has: 65535/255.
const deepOf = fixed.DeepWhite / 255

// deepAt returns the 16-bit code of each channel of a pixel, of a picture that has them.
func (p *Pixels) deepAt(x, y int) (c [3]uint16) {
	at := y*p.Stride + PixelBytes*x
	q, rest := p.Pix[at:][:PixelBytes], p.Rest[at:][:PixelBytes]
	for i := range c {
		c[i] = deepCode(q[i], rest[i])
	}
	return c
}

// deepCode joins a channel and its rest. What no picture of 16 bits has is brought to the ends.
func deepCode(code, rest byte) uint16 {
	return uint16(max(0, min(deepOf*int(code)+int(int8(rest)), fixed.DeepWhite)))
}

// splitDeep is the way back: a rest of 128 is written as 127, since it is a byte, so that one code of
// 257 is off by one.
func splitDeep(deep int) (code, rest byte) {
	code = byte((deep + deepOf/2) / deepOf)
	return code, byte(int8(min(deep-deepOf*int(code), 127)))
}

// deepLight returns the linear light of 16-bit codes in the space's own primaries.
func (p *Pixels) deepLight(c [3]uint16) (red, green, blue float64) {
	t := &fixed.CodesOf(p.Space).Deep().Linear
	return t[0][c[0]], t[1][c[1]], t[2][c[2]]
}

// spotOfDeep reads a colour of 16 bits a channel.
func spotOfDeep(space *colour.Space, c [3]uint16) Spot {
	t := &fixed.CodesOf(space).Deep().Linear
	s := spotIn(space, t[0][c[0]], t[1][c[1]], t[2][c[2]])
	s.LayerGrey = colour.LayerGrey(float64(c[0])/deepOf, float64(c[1])/deepOf, float64(c[2])/deepOf) // exact: no way there and back
	s.Low, s.High = s.Lightness, s.Lightness
	return s
}

// overDeep lays pixel q, with its rest, over ground.
func overDeep(q, rest []byte, ground colour.RGB) {
	alpha := int(deepCode(q[3], rest[3]))
	for i, under := range [3]byte{ground.R, ground.G, ground.B} {
		sum := int(deepCode(q[i], rest[i]))*alpha + deepOf*int(under)*(fixed.DeepWhite-alpha)
		q[i], rest[i] = splitDeep((sum + fixed.DeepWhite/2) / fixed.DeepWhite)
	}
	q[3], rest[3] = 255, 0
}

// deepPlaces are the places of 16-bit lightness that a histogram of 256 bins can't tell apart.
const deepPlaces = 256 * fixed.PlacesPerBin

// deepCounts count pixels of 16 bits by the places of their lightness. One worker's.
type deepCounts [deepPlaces]uint32

// add adds the others' counts, and clears them.
func (d *deepCounts) add(others []deepCounts) {
	for i := range others {
		for place, n := range others[i] {
			d[place] += n
		}
	}
	clear(others)
}

// deepSpan is binSpan for part of row y, from column x on, of a picture of 16 bits. places is nil
// for what is left out.
func deepSpan(p *Pixels, n *tally, places *deepCounts, dst []uint8, x, y int) {
	tables := fixed.CodesOf(p.Space).Deep()
	row := p.Row(y)[PixelBytes*x:]
	last := p.deepAt(x, y)
	bin, place := tables.PlaceOf(last)
	for i := range dst {
		if c := p.deepAt(x+i, y); c != last {
			last = c
			bin, place = tables.PlaceOf(c)
		}
		dst[i] = bin
		switch {
		case row[PixelBytes*i+3] == 0:
			n.even[256+int(bin)]++
		case places == nil:
			n.even[bin]++
		default:
			n.even[bin]++
			places[place+fixed.PlacesPerBin/2]++
		}
	}
}

// binPart writes the bins of part of a row to dst and counts them, counted or not.
func (r *Reader) binPart(worker int, counted bool, dst []uint8, x, y int) {
	p, n := &r.pixels, &r.ignored[worker]
	if counted {
		n = &r.tallies[worker]
	}
	switch {
	case p.Rest == nil:
		binSpan(r.bins, n, dst, p.Row(y)[PixelBytes*x:][:PixelBytes*len(dst)], p.Layout)
	case counted:
		deepSpan(p, n, &r.deep[worker], dst, x, y)
	default:
		deepSpan(p, n, nil, dst, x, y)
	}
}

// gatherDeep takes over what was counted of a picture of 16 bits, without the lightness that is left
// out; nothing of another.
func (r *Reader) gatherDeep(deep bool, out *Mask) {
	now := &r.reading
	if now.deep = deep; !deep {
		return
	}
	all := &r.deep[0]
	all.add(r.deep[1:])
	for bin := range now.places {
		part := all[bin*fixed.PlacesPerBin:][:fixed.PlacesPerBin]
		if out.LeavesOut(uint8(bin)) {
			clear(part)
		}
		now.places[bin] = 0
		for i, n := range part {
			now.places[bin] += int(n) * (bin*fixed.PlacesPerBin + i - fixed.PlacesPerBin/2)
		}
	}
	now.P1, now.P50, now.P99 = all.percentile(1, now.Counted), all.percentile(50, now.Counted), all.percentile(99, now.Counted)
	clear(r.deep)
}

// percentile returns the lightness of the lowest place at which percent of so many pixels is reached.
func (d *deepCounts) percentile(percent, counted int) float64 {
	below := 0
	for place, n := range d {
		if below += int(n); n > 0 && 100*below >= percent*counted {
			return lightnessOfPlaces(place-fixed.PlacesPerBin/2, 1)
		}
	}
	return math.NaN()
}

// lightnessOfPlaces returns the mean lightness of count pixels whose places add up to sum; NaN if
// there are none.
func lightnessOfPlaces(sum, count int) float64 {
	return colour.LightnessOfBins(sum, fixed.PlacesPerBin*count)
}

// meanOfPlaces returns the mean lightness of count pixels whose places add up to that in each bin.
func meanOfPlaces(places *[256]int, count int) float64 {
	sum := 0
	for _, places := range places {
		sum += places
	}
	return lightnessOfPlaces(sum, count)
}
