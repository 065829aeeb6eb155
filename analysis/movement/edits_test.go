package movement

import (
	"math"
	"testing"

	"app.tonedesk/analysis"
)

const viewWidth, viewHeight = 1280, 720

// jumped reports whether b, shown after a, has jumped.
func jumped(t *testing.T, a, b *analysis.Reading) bool {
	t.Helper()
	var f Finder
	if f.Next(a).Kind != Still {
		t.Error("the first picture has jumped")
	}
	moved := f.Next(b).Kind != Still
	if f.Next(b).Kind != Still {
		t.Error("the same picture once more has jumped")
	}
	return moved
}

// What a painter does to where the picture lies: every one is a jump, in every scene.
var viewsMoved = []struct {
	name string
	view
}{
	{"panned by 3 across", view{dx: 3}},
	{"panned by 3 down", view{dy: 3}},
	{"panned by 5 and 4", view{dx: -5, dy: 4}},
	{"panned by 8, a whole cell", view{dx: 8}},
	{"panned by 13 and 7", view{dx: 13, dy: 7}},
	{"panned by 40 and 25", view{dx: 40, dy: -25}},
	{"panned by 120", view{dx: 120}},
	{"panned by 200 upwards", view{dy: -200}},
	{"panned by 400 and 100", view{dx: 400, dy: 100}},
	{"zoomed in by 5 %", view{zoom: 1.05}},
	{"zoomed out by 5 %", view{zoom: 0.95}},
	{"zoomed in by 10 % about a corner", view{zoom: 1.1, dx: 60, dy: 35}},
	{"zoomed in by a quarter", view{zoom: 1.25}},
	{"zoomed in to the double", view{zoom: 2}},
	{"zoomed out to the half", view{zoom: 0.5}},
	{"turned by 3 degrees", view{turn: 3}},
	{"turned back by 3 degrees", view{turn: -3}},
	{"turned by 15 degrees", view{turn: 15}},
	{"turned by 45 degrees", view{turn: 45}},
	{"turned upside down", view{turn: 180}},
	{"mirrored", view{mirror: true}},
	{"mirrored and panned", view{mirror: true, dx: 50, dy: 20}},
}

func TestMotionIsSeen(t *testing.T) {
	t.Parallel()
	for scene, c := range scenes() {
		before := c.seen(viewWidth, viewHeight, view{})
		for _, v := range viewsMoved {
			t.Run(scene+" "+v.name, func(t *testing.T) {
				if !jumped(t, before, c.seen(viewWidth, viewHeight, v.view)) {
					t.Error("isn't seen")
				}
			})
		}
		for other, d := range scenes() {
			if other != scene {
				t.Run(scene+" replaced by "+other, func(t *testing.T) {
					if !jumped(t, before, d.seen(viewWidth, viewHeight, view{dx: 33, dy: 10})) {
						t.Error("isn't seen")
					}
				})
			}
		}
	}
}

// disc paints a disc.
func disc(cx, cy, radius, tone float64) func(x, y, v float64) float64 {
	return func(x, y, v float64) float64 {
		if math.Hypot(x-cx, y-cy) < radius {
			return tone
		}
		return v
	}
}

// where paints what is where inside holds.
func where(inside func(x, y float64) bool, paint func(x, y, v float64) float64) func(x, y, v float64) float64 {
	return func(x, y, v float64) float64 {
		if inside(x, y) {
			return paint(x, y, v)
		}
		return v
	}
}

func plain(tone float64) func(x, y, v float64) float64 {
	return func(_, _, _ float64) float64 { return tone }
}

func stroke(width float64) func(x, y float64) bool {
	return func(x, y float64) bool { return math.Abs(y-0.5*x) < width/2 }
}

// noiseAt is from -most to most, whole numbers, from the place alone.
func noiseAt(x, y float64, most int) float64 {
	h := uint32(x)*2654435761 ^ uint32(y)*2246822519
	h = (h ^ h>>15) * 2246822519
	return float64(int(h>>8)%(2*most+1) - most)
}

// What a painter does to the picture where it lies: none is a jump, in no scene, neither
// done nor undone.
var paintings = []struct {
	name   string
	change func(x, y, v float64) float64
}{
	{"a dab", disc(600, 300, 30, 30)},
	{"a large dab", disc(640, 340, 180, 30)},
	{"a huge dab", disc(640, 360, 330, 200)},
	{"a stroke across", where(stroke(12), plain(40))},
	{"a broad stroke across", where(stroke(120), plain(140))},
	{"the lower half filled", where(func(_, y float64) bool { return y > 360 }, plain(90))},
	{"two thirds filled", where(func(x, _ float64) bool { return x < 853 }, plain(150))},
	{"all filled", plain(128)},
	{"an airbrush", func(x, y, v float64) float64 {
		k := math.Exp(-math.Pow(math.Hypot(x-500, y-300)/300, 2))
		return v*(1-k) + 220*k
	}},
	{"lighter", func(_, _, v float64) float64 { return v + 20 }},
	{"more contrast", func(_, _, v float64) float64 { return (v-128)*1.4 + 128 }},
	{"darker middle tones", func(_, _, v float64) float64 { return 255 * math.Pow(v/255, 1.8) }},
	{"its negative", func(_, _, v float64) float64 { return 255 - v }},
	{"two tones", func(_, _, v float64) float64 { return 30 + 200*math.Floor(v/120) }},
	{"a grey layer at half strength", func(_, _, v float64) float64 { return v/2 + 64 }},
	{"a gradient laid over", func(x, _, v float64) float64 { return 0.6*v + 100*x/viewWidth }},
	{"darker toward the corners", func(x, y, v float64) float64 { return v * (1 - 0.6*math.Hypot(x-640, y-360)/734) }},
	{"a little noise", func(x, y, v float64) float64 { return v + noiseAt(x, y, 4) }},
	{"much noise", func(x, y, v float64) float64 { return v + noiseAt(x, y, 20) }},
	{"the edge of a round brush", where(func(x, y float64) bool {
		return math.Abs(math.Hypot(x-500, y-360)-100) < 1.5
	}, func(_, _, v float64) float64 { return 255 - v })},
}

func TestPaintingIsStill(t *testing.T) {
	t.Parallel()
	for scene, c := range scenes() {
		before := c.seen(viewWidth, viewHeight, view{})
		check := func(name string, after *analysis.Reading) {
			t.Run(scene+" "+name, func(t *testing.T) {
				if jumped(t, before, after) {
					t.Error("counts as a jump")
				}
				if jumped(t, after, before) {
					t.Error("undone, it counts as a jump")
				}
			})
		}
		for _, p := range paintings {
			check(p.name, edited(before, p.change))
		}
		for name, d := range scenes() {
			layer := d.seen(viewWidth, viewHeight, view{dx: 33, dy: 10})
			of := func(x, y float64) float64 { return float64(layer.Grey[int(y)*viewWidth+int(x)]) }
			if name == scene {
				continue
			}
			check("with "+name+" shown over the lower 60 %", edited(before, func(x, y, v float64) float64 {
				if y > 288 {
					return of(x, y)
				}
				return v
			}))
			check("with "+name+" shown at a third", edited(before, func(x, y, v float64) float64 { return v*2/3 + of(x, y)/3 }))
		}
	}
}

// Things that move in front of the picture, or a part of it, are no jump.
func TestPartsAreStill(t *testing.T) {
	t.Parallel()
	for _, scene := range []string{"figure", "lines", "flats", "soft", "grain"} {
		plain := scenes()[scene].seen(viewWidth, viewHeight, view{})
		brush := func(cx float64) *analysis.Reading {
			return edited(plain, where(func(x, y float64) bool { return math.Abs(math.Hypot(x-cx, y-360)-100) < 1.5 },
				func(_, _, v float64) float64 { return 255 - v }))
		}
		panel := func(left float64) *analysis.Reading {
			return edited(plain, where(func(x, y float64) bool { return x >= left && x < left+220 && y >= 100 && y < 500 },
				func(_, y, _ float64) float64 { return 200 - 80*math.Mod(math.Floor(y/20), 2) }))
		}
		selection := func(by int) *analysis.Reading {
			return edited(plain, where(func(x, y float64) bool { return x >= float64(500+by) && x < float64(760+by) && y >= 200 && y < 420 },
				func(x, y, _ float64) float64 { return float64(plain.Grey[int(y)*viewWidth+int(x)-by]) }))
		}
		for name, pair := range map[string][2]*analysis.Reading{
			"a brush's edge moved far":    {brush(500), brush(620)},
			"a brush's edge moved a bit":  {brush(500), brush(506)},
			"a panel shown":               {plain, panel(200)},
			"a panel moved far":           {panel(200), panel(500)},
			"a panel moved a bit":         {panel(200), panel(206)},
			"a selected part moved far":   {plain, selection(30)},
			"a selected part moved a bit": {plain, selection(6)},
		} {
			t.Run(scene+" "+name, func(t *testing.T) {
				if jumped(t, pair[0], pair[1]) || jumped(t, pair[1], pair[0]) {
					t.Error("counts as a jump")
				}
			})
		}
	}
}

// Where nothing of a picture is left it is gone, and not moved; once it is back, as it lay or
// elsewhere, that is told of where it lay before. What
// is seen there meanwhile, be it the bar of a window that opens, is another picture.
func TestGoneAndBack(t *testing.T) {
	t.Parallel()
	for name, c := range scenes() {
		before := c.seen(viewWidth, viewHeight, view{})
		bare := edited(before, plain(100))
		for _, tt := range []struct {
			how     string
			between []*analysis.Reading
			to      view
			want    Kind
		}{
			{"as it lay", []*analysis.Reading{bare}, view{}, Still},
			{"as it lay, after two plain ones", []*analysis.Reading{bare, edited(bare, plain(60))}, view{}, Still},
			{"at three quarters", []*analysis.Reading{bare}, view{zoom: 0.75}, Moved},
			{"panned", []*analysis.Reading{bare}, view{dx: 60, dy: 20}, Moved},
		} {
			var f Finder
			f.Next(before)
			for i, r := range tt.between {
				if m := f.Next(r); m.Kind != Still || m.Gone != (i == 0) || m.Back {
					t.Errorf("%s, %s: picture %d between: %+v", name, tt.how, i, m)
				}
			}
			if m := f.Next(c.seen(viewWidth, viewHeight, tt.to)); m.Kind != tt.want || !m.Back || m.Gone {
				t.Errorf("%s, %s: %+v", name, tt.how, m)
			}
			if m := f.Next(c.seen(viewWidth, viewHeight, tt.to)); m.Kind != Still || m.Gone || m.Back {
				t.Errorf("%s, %s, once more: %+v", name, tt.how, m)
			}
		}
		other := scenes()["lines"]
		if name == "lines" {
			other = scenes()["figure"]
		}
		bar := edited(bare, where(func(_, y float64) bool { return y < 24 }, plain(180)))
		for _, next := range []*analysis.Reading{other.seen(viewWidth, viewHeight, view{dx: 33}), bar} {
			var f Finder
			f.Next(before)
			f.Next(bare)
			if m := f.Next(next); m.Kind != Unknown || m.Back {
				t.Errorf("%s, and then another picture: %+v", name, m)
			}
		}
	}
}
