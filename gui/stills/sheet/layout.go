package sheet

// Size is the size of a page.
type Size struct {
	Name string
	W, H float64 // mm
}

// The sizes on offer.
var (
	A4   = Size{"a4", 210, 297}               // ISO 216
	Wide = Size{"16:9", 25.4 * 40 / 3, 190.5} // 13 1/3 by 7.5 inches
)

// Measures of a page, in mm.
const (
	margin    = 12.0
	gap       = 6.0
	titleText = 5.6
	bodyText  = 3.2
	smallText = 2.7
	caption   = 4.0 // room over a picture for its name
	headRoom  = 15.0
	spreadH   = 34.0
)

// plan is where everything goes on a page.
type plan struct {
	picture, greys, bands, spread Box
	columns                       []Box // of the lists, filled one after another
}

// planPage plans a page for a picture of a shape, width over height: greys and bands stand
// beside the picture, the spread below it.
func planPage(size Size, shape float64) plan {
	all := Box{margin, margin + headRoom, size.W - 2*margin, size.H - 2*margin - headRoom - 5}
	if size.W > size.H {
		return planAcross(all, shape)
	}
	return planDown(all, shape)
}

// planDown plans an upright page, with the lists below everything.
func planDown(all Box, shape float64) plan {
	const beside, mostHigh = 58.0, 118.0
	y := all.Y + caption
	high := min((all.W-beside-gap)/shape, mostHigh)
	var p plan
	p.picture = Box{all.X, y, min(all.W-beside-gap, high*shape), high}
	each := max((high-gap-caption)/2, 20)
	x := p.picture.right() + gap
	p.greys = Box{x, y, all.right() - x, each}
	p.bands = Box{x, p.greys.bottom() + gap + caption, all.right() - x, each}
	y = max(p.picture.bottom(), p.bands.bottom()) + gap + caption
	p.spread = Box{all.X, y, all.W, spreadH}
	y = p.spread.bottom() + gap
	p.columns = columns(Box{all.X, y, all.W, all.bottom() - y}, 2)
	return p
}

// planAcross plans a page that is wider than high, with the lists at its right.
func planAcross(all Box, shape float64) plan {
	const leastBeside, twoColumns = 112.0, 160.0
	y := all.Y + caption
	high := all.H - 2*caption - gap - spreadH
	var p plan
	p.picture = Box{all.X, y, min(all.W-gap-leastBeside, high*shape), high}
	left := max(p.picture.W, all.W-gap-1.6*leastBeside)
	p.spread = Box{all.X, p.picture.bottom() + gap + caption, left, spreadH}
	x := all.X + left + gap
	half := (all.right() - x - gap) / 2
	p.greys = Box{x, y, half, min(half/shape, 52)}
	p.bands = Box{x + half + gap, y, half, p.greys.H}
	top, n := p.greys.bottom()+gap, 1
	if all.right()-x >= twoColumns {
		n = 2
	}
	p.columns = columns(Box{x, top, all.right() - x, all.bottom() - top}, n)
	return p
}

// columns cuts a box into n columns.
func columns(b Box, n int) []Box {
	wide := (b.W - float64(n-1)*gap) / float64(n)
	var all []Box
	for i := range n {
		all = append(all, Box{b.X + float64(i)*(wide+gap), b.Y, wide, b.H})
	}
	return all
}
