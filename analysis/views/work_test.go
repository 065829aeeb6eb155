package views

import (
	"bytes"
	"fmt"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/reduce"
)

// A view is the same whoever paints it, a Reducer's workers or its caller after they are
// gone; and it is the same again after others.
func TestViewsByAnyWorkers(t *testing.T) {
	p := analysistest.Painting(201, 117, analysis.BGRX)
	look := Look{Reading: analysis.Read(p, analysis.Options{})}
	r := reduce.New()
	src := r.Reduce(p, 150, 90, nil)
	paint := func(v View) []byte {
		dst := make([]byte, 4*150*90)
		v.Paint(dst, src, look)
		return dst
	}
	painted := map[string][]byte{}
	for _, v := range All() {
		painted[v.Key] = paint(v)
	}
	for round := range 2 {
		for _, v := range All() {
			if !bytes.Equal(paint(v), painted[v.Key]) {
				t.Errorf("round %d: %s is another picture", round, v.Key)
			}
		}
		r.Close()
	}
}

// Pictures of a pixel or a line, and none, can be painted in every view.
func TestViewsOfLittle(t *testing.T) {
	r := reduce.New()
	defer r.Close()
	for _, size := range [][2]int{{0, 0}, {1, 1}, {1, 9}, {9, 1}, {2, 3}} {
		t.Run(fmt.Sprint(size), func(t *testing.T) {
			p := analysistest.Noise(size[0], size[1], analysis.RGBA)
			dst := make([]byte, 4*size[0]*size[1])
			for _, v := range All() {
				v.Paint(dst, r.Reduce(p, size[0], size[1], nil), Look{Reading: analysis.Read(p, analysis.Options{})})
				for i := 3; i < len(dst); i += 4 {
					if dst[i] != 255 {
						t.Errorf("%s: alpha %d", v.Key, dst[i])
					}
				}
			}
		})
	}
}
