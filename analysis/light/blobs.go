package light

import "app.tonedesk/analysis/families"

// Sides of a local colour in families.Found.Map, in its order, and what else lies there.
const (
	lightSide = iota
	shadowSide
	accentBand
	lineAround // it ends a form
	nothing    // nothing, or of a family that doesn't count
)

// part is what a mark of families.Found.Map stands for.
type part struct {
	family int8
	side   uint8
}

// blobs join the cells of a local colour that hang together.
type blobs struct {
	parts  [256]part // by mark
	parent []int32
}

// blobsOf joins cells of one family that lie in a row or a column, no further apart than a
// half-tone is wide and with no line and nothing of another family between them.
func blobsOf(found *families.Found, counts func(family int) bool) *blobs {
	b := &blobs{parent: make([]int32, found.Width*found.Height)}
	for mark := range b.parts {
		b.parts[mark] = part{side: nothing}
		if k := (mark - 1) / 4; mark > 0 && k < len(found.List) {
			if side := uint8((mark - 1) % 4); side == lineAround || counts(k) {
				b.parts[mark] = part{int8(k), side}
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
			switch part := b.parts[found.Map[i]]; part.side {
			case lineAround:
				left.at, above[x].at = -1, -1
			case lightSide, shadowSide, accentBand:
				if left.near(x, part.family, reach) {
					b.parent[i] = b.root(i - int32(x-left.at))
				}
				if above[x].near(y, part.family, reach) {
					b.join(i, i-int32((y-above[x].at)*found.Width))
				}
				left, above[x] = latest{x, part.family}, latest{y, part.family}
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

// root returns the cell that stands for all that hang together with a cell.
func (b *blobs) root(i int32) int32 {
	for b.parent[i] != i {
		b.parent[i] = b.parent[b.parent[i]]
		i = b.parent[i]
	}
	return i
}

func (b *blobs) join(i, k int32) {
	x, y := b.root(i), b.root(k)
	b.parent[max(x, y)] = min(x, y)
}
