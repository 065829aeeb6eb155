package families_test

import (
	"bytes"
	"encoding/json"
	"runtime"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/analysis/scenetest"
)

// One picture has one answer: taken again, by a finder that has seen others, on one core or
// more, and whatever the layout of its bytes.
func TestFamiliesAreDeterministic(t *testing.T) {
	if testing.Short() {
		t.Skip("paints scenes")
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	used := families.NewFinder()
	defer used.Close()
	for _, seed := range lawtest.Some([]int{15, 1, 2, 3, 5, 4, 6}, 4) {
		p := scenetest.Random(seed).Pixels()
		swapped := p
		swapped.Pix, swapped.Layout = bytes.Clone(p.Pix), analysis.BGRX
		for i := 0; i < len(swapped.Pix); i += 4 {
			q := swapped.Pix[i:]
			q[0], q[2], q[3] = q[2], q[0], uint8(i)
		}
		want := written(t, families.Find(p, nil, families.DefaultRules()))
		for _, cores := range []int{1, 3, 8} {
			runtime.GOMAXPROCS(cores)
			if written(t, families.Find(p, nil, families.DefaultRules())) != want {
				t.Errorf("seed %d: on %d cores it differs", seed, cores)
			}
		}
		used.Take(p, nil)
		first := used.Find(families.DefaultRules())
		again := used.Find(families.DefaultRules())
		used.Take(swapped, nil)
		third := used.Find(families.DefaultRules())
		for how, found := range map[string]*families.Found{"by a used finder": first, "again": again, "as BGRX": third} {
			if written(t, found) != want {
				t.Errorf("seed %d: %s it differs", seed, how)
			}
		}
	}
}

// written is all of an answer.
func written(t *testing.T, f *families.Found) string {
	t.Helper()
	data, err := json.Marshal(f)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// Whatever the bytes: the map names only what is in the list, sides are what their names say,
// and all of it can be written.
func FuzzFamilies(f *testing.F) {
	f.Add(uint8(9), uint8(7), []byte("any bytes at all, to be painted again and again"))
	f.Fuzz(func(t *testing.T, width, height uint8, data []byte) {
		w, h := int(width)%48, int(height)%48
		p := analysis.Pixels{Pix: make([]byte, 4*w*h), Stride: 4 * w, Width: w, Height: h}
		for i := range p.Pix {
			if len(data) > 0 { // in blocks, so that there are areas
				x, y := i/4%max(w, 1)/6, i/4/max(w, 1)/6
				p.Pix[i] = data[(x*31+y*17+i%4)%len(data)]
			}
		}
		found := families.Find(p, nil, families.DefaultRules())
		written(t, found)
		for _, m := range found.Map {
			if int(m) > 4*len(found.List) {
				t.Fatalf("the map says %d, of %d families", m, len(found.List))
			}
		}
		for _, g := range found.List {
			if g.LightnessApart <= 0 || *g.Share <= 0 || *g.Share > 1 || len(g.Verdict) == 0 ||
				*g.Light.X < 0 || *g.Light.X >= w || *g.Shadow.Y < 0 || *g.Shadow.Y >= h {
				t.Fatalf("%+v", g)
			}
		}
	})
}
