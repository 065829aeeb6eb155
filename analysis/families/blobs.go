package families

// Place is where in a local colour a cell of Found.Map lies.
type Place uint8

const (
	InLight Place = iota
	InShadow
	InAccent
	InLine // it ends a form
	InNone // in no local colour, or in one that doesn't count
)

// Part is what a mark of Found.Map stands for.
type Part struct {
	Family int8 // its index in Found.List
	Place  Place
}

// Blobs are the forms of a picture: the cells of one local colour that hang together.
type Blobs struct {
	parts  [256]Part // by mark
	marks  []uint8
	parent []int32
}

// reachPart is how far apart two places of one local colour lie at most to hang together, over the
// longer side of the picture: as wide as a half-tone, which is on neither side (our choice).
const reachPart = 1.0 / 60

// BlobsOf joins cells of one family, of those that count (nil: of all), that lie in a row or a
// column, no further apart than a half-tone is wide and with no line and nothing of another family
// between them.
func BlobsOf(found *Found, counts func(family int) bool) *Blobs {
	b := &Blobs{marks: found.Map, parent: make([]int32, found.Width*found.Height)}
	for mark := range b.parts {
		b.parts[mark] = Part{Place: InNone}
		if k := (mark - 1) / roles; mark > 0 && k < len(found.List) {
			if place := Place((mark - 1) % roles); place == InLine || counts == nil || counts(k) {
				b.parts[mark] = Part{int8(k), place}
			}
		}
	}
	reach := max(1, int(reachPart*float64(max(found.Width, found.Height))))
	above := make([]latest, found.Width) // of each column
	for x := range above {
		above[x].at = -1
	}
	for y := range found.Height {
		left := latest{at: -1}
		for x := range found.Width {
			i := int32(y*found.Width + x)
			b.parent[i] = i
			switch part := b.parts[found.Map[i]]; part.Place {
			case InLine:
				left.at, above[x].at = -1, -1
			case InLight, InShadow, InAccent:
				if left.near(x, part.Family, reach) {
					b.parent[i] = b.Form(i - int32(x-left.at))
				}
				if above[x].near(y, part.Family, reach) {
					b.join(i, i-int32((y-above[x].at)*found.Width))
				}
				left, above[x] = latest{x, part.Family}, latest{y, part.Family}
			}
		}
	}
	return b
}

// latest is where the latest cell of a row or a column lies, of which family; at -1 for none.
type latest struct {
	at     int
	family int8
}

func (l latest) near(at int, family int8, reach int) bool {
	return l.at >= 0 && l.family == family && at-l.at <= reach
}

// At returns what a cell of Found.Map is.
func (b *Blobs) At(cell int) Part { return b.parts[b.marks[cell]] }

// Form returns the cell that stands for all that hang together with a cell of a local colour.
func (b *Blobs) Form(i int32) int32 {
	for b.parent[i] != i {
		b.parent[i] = b.parent[b.parent[i]]
		i = b.parent[i]
	}
	return i
}

func (b *Blobs) join(i, k int32) {
	x, y := b.Form(i), b.Form(k)
	b.parent[max(x, y)] = min(x, y)
}
