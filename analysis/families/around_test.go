package families

import (
	"slices"
	"testing"
)

// In a map of two halves, with a line of a third between them, the disc says what lies in it.
func TestAround(t *testing.T) {
	f := &Found{Width: 40, Height: 30, Map: make([]uint8, 40*30), List: make([]Family, 3)}
	for i := range f.Map {
		switch x := i % 40; {
		case x == 20:
			f.Map[i] = 4*2 + 1
		case x < 20:
			f.Map[i] = uint8(4*1 + 1 + i/40%2)
		default:
			f.Map[i] = 4*0 + 2
		}
	}
	for _, tt := range []struct {
		x, y, radius float64
		want         []int
	}{
		{0.1, 0.5, 0.05, []int{1}}, {0.9, 0.5, 0.05, []int{0}}, {0.48, 0.5, 0.2, []int{1, 0}}, {0.58, 0.5, 0.2, []int{0, 1}}, {0.5, 0.5, 0.05, []int{1, 2, 0}},
		{-1, 3, 0.1, nil}, {0.0, 0.0, 0, nil},
	} {
		if got := f.Around(tt.x, tt.y, tt.radius); !slices.Equal(got, tt.want) {
			t.Errorf("%+v: %v", tt, got)
		}
	}
	if got := (&Found{}).Around(0.5, 0.5, 0.1); got != nil {
		t.Errorf("of nothing: %v", got)
	}
}

// Most of the places have to lie in one local colour.
func TestUnder(t *testing.T) {
	f := &Found{Width: 4, Height: 1, Map: []uint8{1, 2, 0, 8}, List: make([]Family, 2)}
	for _, tt := range []struct {
		cells []float64
		want  int
		ok    bool
	}{
		{[]float64{0, 1, 3}, 0, true}, {[]float64{3}, 1, true}, {[]float64{0, 3}, 0, false}, {[]float64{0, 2, 2}, 0, false},
		{[]float64{2}, 0, false}, {[]float64{-1, 9}, 0, false}, {nil, 0, false},
	} {
		got, ok := f.Under(func(do func(x, y float64)) {
			for _, c := range tt.cells {
				do((c+0.5)/4, 0.5)
			}
		})
		if ok != tt.ok || ok && got != tt.want {
			t.Errorf("%v: %d, %v", tt.cells, got, ok)
		}
	}
	if _, ok := new(Found).Under(func(do func(x, y float64)) { do(0.5, 0.5) }); ok {
		t.Error("of nothing")
	}
}
