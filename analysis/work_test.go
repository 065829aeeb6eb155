package analysis

import (
	"bytes"
	"fmt"
	"testing"
)

// A view is the same whoever paints it: a Reducer's workers, its caller after they are gone,
// or the caller alone for a reduced picture that no Reducer made; and it is the same again
// after others.
func TestViewsByAnyWorkers(t *testing.T) {
	p := painting(201, 117, BGRX)
	look := Look{Reading: Read(p, Options{})}
	r := NewReducer()
	src := r.Reduce(p, 150, 90, nil)
	paint := func(v View, src *Reduced) []byte {
		dst := make([]byte, 4*150*90)
		v.Paint(dst, src, look)
		return dst
	}
	painted := map[string][]byte{}
	for _, v := range Views() {
		painted[v.Key] = paint(v, src)
	}
	own := &Reduced{Width: src.Width, Height: src.Height, Linear: src.Linear, Left: src.Left}
	for round := range 2 {
		for _, v := range Views() {
			for who, src := range map[string]*Reduced{"workers": src, "alone": own} {
				if !bytes.Equal(paint(v, src), painted[v.Key]) {
					t.Errorf("round %d, %s: %s is another picture", round, who, v.Key)
				}
			}
		}
		r.Close()
	}
}

// Pictures of a pixel or a line, and none, can be painted in every view.
func TestViewsOfLittle(t *testing.T) {
	r := NewReducer()
	defer r.Close()
	for _, size := range [][2]int{{0, 0}, {1, 1}, {1, 9}, {9, 1}, {2, 3}} {
		t.Run(fmt.Sprint(size), func(t *testing.T) {
			p := noise(size[0], size[1], RGBA)
			dst := make([]byte, 4*size[0]*size[1])
			for _, v := range Views() {
				v.Paint(dst, r.Reduce(p, size[0], size[1], nil), Look{Reading: Read(p, Options{})})
				for i := 3; i < len(dst); i += 4 {
					if dst[i] != 255 {
						t.Errorf("%s: alpha %d", v.Key, dst[i])
					}
				}
			}
		})
	}
}
