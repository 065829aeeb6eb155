package live

import (
	"slices"

	"app.tonedesk/analysis/families"
)

// clearlyLarger is by how much a family has to be larger than the one above it to take its
// place: rows that change places at every brush stroke can't be read.
const clearlyLarger = 1.3

// OrderFamilies returns the order in which new families are listed, as indices into their
// list: those that were there before in their old order, unless one has become clearly
// larger than the one above it, and new ones by their size.
func OrderFamilies(before, now Found) []int {
	order := make([]int, 0, len(now.List))
	if before.Found != nil && before.Source == now.Source {
		for _, old := range before.Order {
			if i := slices.IndexFunc(now.List, func(f families.Family) bool { return before.at(f, now) == old }); i >= 0 && !slices.Contains(order, i) {
				order = append(order, i)
			}
		}
	}
	for i := range now.List {
		if !slices.Contains(order, i) {
			order = append(order, i)
		}
	}
	for sorted := false; !sorted; {
		sorted = true
		for i := 1; i < len(order); i++ {
			if share(now.List[order[i]]) > clearlyLarger*share(now.List[order[i-1]]) {
				order[i-1], order[i] = order[i], order[i-1]
				sorted = false
			}
		}
	}
	return order
}

// share is how much of the picture a family covers; 0 where that is unknown.
func share(f families.Family) float64 {
	if f.Share == nil {
		return 0
	}
	return *f.Share
}

// at returns the place in f's list of the family that lay where one of now's light side
// lies, -1 if there was none.
func (f Found) at(family families.Family, now Found) int {
	if family.Light.X == nil || family.Light.Y == nil || f.Width != now.Width || f.Height != now.Height || now.Size.X == 0 || now.Size.Y == 0 {
		return -1
	}
	x, y := *family.Light.X*f.Width/now.Size.X, *family.Light.Y*f.Height/now.Size.Y
	if x >= f.Width || y >= f.Height {
		return -1
	}
	part := int(f.Map[y*f.Width+x])
	if part == 0 || (part-1)%4 > 1 {
		return -1
	}
	return (part - 1) / 4
}
