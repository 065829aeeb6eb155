package widgets

import (
	"image"
	"image/color"
	"math"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/settings"
)

func TestSpreadX(t *testing.T) {
	for _, tt := range []struct {
		lightness float64
		width     float32
		want      float32
	}{
		{0, 364, 12}, {100, 364, 352}, {50, 364, 182}, {-5, 364, 12}, {140, 304, 292},
	} {
		if got := spreadX(tt.lightness, tt.width); got != tt.want {
			t.Errorf("spreadX(%g, %g) = %g, want %g", tt.lightness, tt.width, got, tt.want)
		}
	}
}

func TestSpreadHeights(t *testing.T) {
	var h [256]int
	for i := range 20 {
		h[100+i] = 100
	}
	h[105] = 144
	h[200] = 1 << 20
	heights, cut := spreadHeights(&h)
	if !cut[200] || cut[105] || heights[200] != 1 || heights[0] != 0 {
		t.Errorf("cut %v, %v; heights %v, %v", cut[200], cut[105], heights[200], heights[0])
	}
	if got, want := heights[105], 1.2*heights[100]; got < want*0.999 || got > want*1.001 {
		t.Errorf("1.44 times the count is %g high, want 1.2 times %g", got, heights[100])
	}
	if heights, _ := spreadHeights(new([256]int)); heights != [256]float64{} {
		t.Error("nothing counted, but something is drawn")
	}
}

// Every column shows at least a bin, and every bin is shown, in order.
func TestColumnBins(t *testing.T) {
	for _, width := range []int{1, 7, 100, 255, 256, 257, 284, 332, 664, 2000} {
		var seen [256]bool
		before := 0
		for x := range width {
			first, last := columnBins(x, width)
			if first >= last || first < 0 || last > 256 || first < before {
				t.Fatalf("column %d of %d shows bins %d to %d", x, width, first, last)
			}
			before = first
			for bin := first; bin < last; bin++ {
				seen[bin] = true
			}
		}
		if i := slices.Index(seen[:], false); i >= 0 {
			t.Errorf("%d wide: bin %d is not shown", width, i)
		}
	}
}

// columnHeight returns how much of a column is painted, in pixels.
func columnHeight(img image.Image, x int) float64 {
	sum := 0.0
	for y := range img.Bounds().Dy() {
		_, _, _, a := img.At(x, y).RGBA()
		sum += float64(a) / 0xffff
	}
	return sum
}

func TestSpreadPicture(t *testing.T) {
	p := spreadPicture{ink: color.RGBA{100, 100, 100, 255}, sign: color.RGBA{240, 240, 240, 255}}
	var h [256]int
	h[10], h[20], h[30] = 400, 100, 1
	img := p.draw(&h, nil, 256, 80, 1)
	for _, tt := range []struct {
		bin  int
		want float64
	}{
		{10, 80}, {20, 40}, {30, 4}, {40, 0}, // heights go by the square root
	} {
		if got := columnHeight(img, tt.bin); math.Abs(got-tt.want) > 0.1 {
			t.Errorf("bin %d is %g high, want %g", tt.bin, got, tt.want)
		}
	}
	if again := p.draw(&h, nil, 256, 80, 1); again != img {
		t.Error("the image is made anew for every drawing")
	}
	h[30] = 0
	h[10] = 1 << 30 // a spike among many bins
	for i := range 40 {
		h[60+i] = 100
	}
	img = p.draw(&h, nil, 512, 160, 2)
	if got := img.At(20, 1); got != p.ink {
		t.Errorf("over the cut bar is %v, want a tick %v", got, p.ink)
	}
	if got := img.At(20, 12); got != (color.RGBA{}) {
		t.Errorf("below the tick is %v, want a gap", got)
	}
	if got, want := columnHeight(img, 20), 160-2*spikeGap; got != want {
		t.Errorf("the cut bar is %g high with its tick, want %g", got, want)
	}
	if got, want := columnHeight(img, 130), (160-2*spikeHeight)*math.Sqrt(100.0/150); math.Abs(got-want) > 0.1 {
		t.Errorf("a bar of two thirds of the limit is %g high, want %g", got, want)
	}
}

// No size makes the drawing fail, and spikes at the borders have their ticks.
func TestSpreadPictureSizes(t *testing.T) {
	p := spreadPicture{ink: color.RGBA{A: 255}, sign: color.RGBA{255, 255, 255, 255}}
	var h [256]int
	for i := range h {
		h[i] = 10
	}
	h[0], h[255] = 1<<40, 1<<40
	for _, w := range []int{1, 2, 5, 30, 255, 300, 1000} {
		for _, height := range []int{1, 3, 9, 80} {
			img := p.draw(&h, nil, w, height, 1.3)
			if img.Bounds() != image.Rect(0, 0, w, height) {
				t.Errorf("%d x %d asked, %v drawn", w, height, img.Bounds())
			}
		}
	}
	img := p.draw(&h, nil, 300, 80, 1)
	if left, right := img.At(0, 0), img.At(299, 0); left != p.ink || right != p.ink {
		t.Errorf("over the outermost bars are %v and %v", left, right)
	}
}

// By hand: a bin beyond the limits is painted as even dots, half of its pixels.
func TestSpreadDotsBeyondLimits(t *testing.T) {
	var h [256]int
	h[5], h[120], h[250] = 100, 100, 100 // L* 2, 47 and 98
	p := spreadPicture{ink: color.RGBA{1, 1, 1, 255}, sign: color.RGBA{2, 2, 2, 255}, limits: analysis.Limits{Dark: 8, Light: 97}}
	p.draw(&h, nil, 256, 80, 1)
	for _, tt := range []struct {
		bin    int
		dotted bool
	}{{5, true}, {120, false}, {250, true}} {
		clear := 0
		for y := range 80 {
			if p.img.RGBAAt(tt.bin, y).A == 0 {
				clear++
			}
		}
		if dotted := clear > 30 && clear < 50; dotted != tt.dotted {
			t.Errorf("bin %d: %d of 80 pixels are clear", tt.bin, clear)
		}
	}
}

// scene is a spread with all that can be on it.
func scene() SpreadState {
	var s SpreadState
	hill := func(i int, middle, width, height float64) int {
		d := (float64(i)/colour.BinsPerLightness - middle) / width
		return int(height / (1 + d*d*d*d))
	}
	for i := range s.Histogram {
		s.Histogram[i] = hill(i, 26, 5, 9000) + hill(i, 45, 5, 5000) + hill(i, 60, 4, 6000) + hill(i, 84, 2, 20000)
	}
	s.Histogram[250] = 4000000
	s.Groups = []analysis.Group{
		{Name: "dark", From: 0, To: 35.5, Share: 0.24}, {Name: "middle", From: 35.5, To: 68.5, Share: 0.41},
		{Name: "light", From: 68.5, To: 100, Share: 0.35},
	}
	s.Marks = []SpreadMark{{"A", 74.1}, {"B", 52.3}, {"C", 53.5}}
	return s
}

func TestSpreadMovesWhatMoves(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.ThemeDark, 100))
	s := NewSpread(SpreadActs{})
	test.NewTempWindow(t, s).Resize(fyne.NewSize(364, 131))
	state := scene()
	s.Set(state)
	edge := s.borders[0].Position()
	state.Groups = slices.Clone(state.Groups)
	state.Groups[0].To, state.Groups[1].From = 40, 40
	state.Marks = []SpreadMark{{"A", 10}}
	s.Set(state)
	if s.borders[0].Position() == edge {
		t.Error("the edge did not move")
	}
	if s.marks[1].light.Visible() || s.marks[1].letter[0].Text != "" || !s.marks[0].light.Visible() {
		t.Error("marks of spots that are gone stay")
	}
	if x, want := s.marks[0].light.Position().X+1, spreadX(10, s.Size().Width); x != want {
		t.Errorf("mark A at %g, want %g", x, want)
	}
}

func TestSpreadCountsFromEitherEnd(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.ThemeDark, 100))
	s := NewSpread(SpreadActs{})
	test.NewTempWindow(t, s).Resize(fyne.NewSize(364, 131))
	for fromWhite, want := range map[bool][2]string{false: {"0", "10"}, true: {"10", "0"}} {
		state := scene()
		state.FromWhite = fromWhite
		s.Set(state)
		if s.steps[0].Text != want[0] || s.steps[10].Text != want[1] {
			t.Errorf("from white %v: black is %s, white %s", fromWhite, s.steps[0].Text, s.steps[10].Text)
		}
	}
	// Value 5 is at the lightness of 19.27 percent of the display's white, L* 51.0 (ASTM
	// D1535-08, the quintic; CIE 15:2004, L*), not in the middle.
	middle := s.ticks[5].Position().X + 0.5
	if want := spreadX(51.0, s.Size().Width); math.Abs(float64(middle-want)) > 0.2 {
		t.Errorf("value 5 stands at %g, want %g", middle, want)
	}
}

func TestSpreadOfNothing(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.ThemeDark, 100))
	s := NewSpread(SpreadActs{})
	test.NewTempWindow(t, s).Resize(fyne.NewSize(364, 131))
	if s.nothing.Text != "" {
		t.Errorf("before the first picture it says %q", s.nothing.Text)
	}
	s.Set(SpreadState{})
	if s.nothing.Text != "Nothing is counted" {
		t.Errorf("of a picture of which nothing is counted it says %q", s.nothing.Text)
	}
	s.Set(scene())
	if s.nothing.Text != "" {
		t.Errorf("of a picture it says %q", s.nothing.Text)
	}
}

func BenchmarkSpreadPicture(b *testing.B) { // budget: 1 ms, 10 times a second; 0 allocs/op
	p := spreadPicture{ink: color.RGBA{100, 100, 100, 255}, sign: color.RGBA{240, 240, 240, 255}}
	h := scene().Histogram
	b.ReportAllocs()
	for b.Loop() {
		p.draw(&h, nil, 664, 144, 2)
	}
}
