package light

import (
	"cmp"
	"slices"
)

// weighed is a number with a weight above 0.
type weighed struct{ value, weight float64 }

// median returns the weighted median, halfway between two where the weights are even; 0 for
// none. It doesn't depend on the order, not even in the last digit.
func median(of []weighed) float64 {
	of = slices.SortedFunc(slices.Values(of), func(a, b weighed) int {
		return cmp.Or(cmp.Compare(a.value, b.value), cmp.Compare(a.weight, b.weight))
	})
	sum := 0.0
	for _, w := range of {
		sum += w.weight
	}
	const even = 1e-9 // of all: what rounding may make of equal halves
	below := 0.0
	for i, w := range of {
		below += w.weight
		switch over := below/sum - 0.5; {
		case over > even || i == len(of)-1:
			return w.value
		case over >= -even:
			return (w.value + of[i+1].value) / 2
		}
	}
	return 0
}

// sumOf adds up numbers, the same in any order.
func sumOf(numbers []float64) (sum float64) {
	for _, v := range slices.Sorted(slices.Values(numbers)) {
		sum += v
	}
	return sum
}
