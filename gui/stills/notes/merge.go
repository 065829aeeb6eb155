package notes

import (
	"bytes"
	"slices"
)

// Merge joins what two programs made of the same notes: base is what both began with. A
// note that either added or changed is there; where both changed the same one, ours stands
// in its place and theirs is added again above it, unless they are equal. One that either
// removed is gone, unless the other changed it.
func Merge(base, ours, theirs []Note) []Note {
	merged := slices.Clone(theirs)
	for _, was := range base {
		mine, his := find(ours, was.ID), find(merged, was.ID)
		switch {
		case mine >= 0 && Equal(ours[mine], was): // left alone: theirs counts
		case mine < 0 && his >= 0 && Equal(merged[his], was):
			merged = slices.Delete(merged, his, his+1)
		case mine >= 0 && his < 0:
			merged = append(merged, ours[mine])
		case mine >= 0 && !Equal(merged[his], was) && !Equal(merged[his], ours[mine]):
			again := merged[his]
			again.ID = newID()
			merged[his] = ours[mine]
			merged = slices.Insert(merged, his+1, again)
		case mine >= 0:
			merged[his] = ours[mine]
		}
	}
	for _, n := range ours {
		if find(base, n.ID) < 0 && find(merged, n.ID) < 0 {
			merged = append(merged, n)
		}
	}
	return merged
}

func find(list []Note, id string) int {
	return slices.IndexFunc(list, func(n Note) bool { return n.ID == id })
}

// Equal reports whether two notes would be written down alike.
func Equal(a, b Note) bool {
	x, errX := a.MarshalJSON()
	y, errY := b.MarshalJSON()
	return errX == nil && errY == nil && bytes.Equal(x, y)
}
