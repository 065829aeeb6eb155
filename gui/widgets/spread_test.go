package widgets

import (
	"image"
	"image/color"
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/wording"
)

func TestSpreadX(t *testing.T) {
	for _, tt := range []struct {
		lightness float64
		width     float32
		want      float32
	}{
		{0, 364, 16}, {100, 364, 348}, {50, 364, 182}, {-5, 364, 16}, {140, 304, 288},
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
	h[105] = 400
	h[200] = 1 << 20
	heights, cut := spreadHeights(&h)
	if !cut[200] || cut[105] || heights[200] != 1 || heights[0] != 0 {
		t.Errorf("cut %v, %v; heights %v, %v", cut[200], cut[105], heights[200], heights[0])
	}
	if got, want := heights[105], 2*heights[100]; got < want*0.999 || got > want*1.001 {
		t.Errorf("four times the count is %g high, want twice %g", got, heights[100])
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

// sixWide measures words as a font of even letters, six units wide, would.
func sixWide(words string) float32 { return 6 * float32(len([]rune(words))) }

func TestShareLabels(t *testing.T) {
	four := []analysis.Group{
		{Name: "dark", From: 0, To: 10, Share: 0.04}, {Name: "dark middle", From: 10, To: 40, Share: 0.41},
		{Name: "light middle", From: 40, To: 80, Share: 0.3}, {Name: "light", From: 80, To: 100, Share: 0.25},
	}
	thin := []analysis.Group{
		{Name: "dark", From: 0, To: 80, Share: 0.7}, {Name: "dark middle", From: 80, To: 82, Share: 0.1},
		{Name: "light middle", From: 82, To: 84, Share: 0.1}, {Name: "light", From: 84, To: 100, Share: 0.1},
	}
	for _, tt := range []struct {
		name   string
		groups []analysis.Group
		width  float32
		want   string
	}{
		{"words over another group", thin, 400, "dark 70 %|10 %|10 %|light 10 %"},
		{"none", nil, 364, ""},
		{"room for all", four, 400, "dark 4 %|dark middle 41 %|light middle 30 %|light 25 %"},
		{"the narrowest gives way", four, 330, "4 %|dark middle 41 %|light middle 30 %|light 25 %"},
		{"then the next", four, 296, "4 %|dark middle 41 %|light middle 30 %|25 %"},
		{"shares only", four, 120, "4 %|41 %|30 %|25 %"},
		{"one group", []analysis.Group{{Name: "middle", To: 100, Share: 1}}, 364, "middle 100 %"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			labels := shareLabels(tt.groups, tt.width, sixWide)
			var words []string
			end := float32(0)
			for _, l := range labels {
				words = append(words, strings.ReplaceAll(l.words, wording.Nbsp, " "))
				if l.x < end {
					t.Errorf("%q begins at %g, before %g", l.words, l.x, end)
				}
				end = l.x + sixWide(l.words) + Step
			}
			if got := strings.Join(words, "|"); got != tt.want {
				t.Errorf("labels %s, want %s", got, tt.want)
			}
			if end > tt.width+Step/2 {
				t.Errorf("the last ends at %g of %g", end-Step, tt.width)
			}
		})
	}
}

// A label with room stands over the middle of its group.
func TestShareLabelsAreCentred(t *testing.T) {
	groups := []analysis.Group{{Name: "dark", From: 0, To: 50, Share: 0.5}, {Name: "light", From: 50, To: 100, Share: 0.5}}
	labels := shareLabels(groups, 332, sixWide)
	for i, middle := range []float32{(16 + 166) / 2.0, (166 + 316) / 2.0} {
		if got := labels[i].x + sixWide(labels[i].words)/2; got != middle {
			t.Errorf("%q stands over %g, want %g", labels[i].words, got, middle)
		}
	}
}

func TestMarkHeights(t *testing.T) {
	const plot = 80
	tests := []struct {
		name string
		xs   []float32
		want []float32
	}{
		{"none", nil, []float32{}},
		{"far apart", []float32{100, 20, 300}, []float32{24, 24, 24}},
		{"two near: the left one is higher", []float32{105, 100}, []float32{24, 36}},
		{"in one place: the first is higher", []float32{50, 50}, []float32{36, 24}},
		{"a row", []float32{10, 20, 30}, []float32{48, 36, 24}},
	}
	for _, tt := range tests {
		if got := markHeights(tt.xs, plot); !slices.Equal(got, tt.want) {
			t.Errorf("%s: heights %v, want %v", tt.name, got, tt.want)
		}
	}
	eight := markHeights(make([]float32, 8), plot)
	for i := 1; i < len(eight); i++ {
		if eight[i-1]-eight[i] < 8 { // bold letters of the small size are 8 high
			t.Errorf("letters of eight spots in one place lie on each other: %v", eight)
		}
	}
	if slices.Max(eight) > plot || slices.Min(eight) < 8 {
		t.Errorf("marks of eight spots in one place leave the plot: %v", eight)
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
	if got := img.At(20, 1); got != p.sign {
		t.Errorf("over the cut bar is %v, want an arrowhead %v", got, p.sign)
	}
	if got := img.At(20, 10); got != (color.RGBA{}) {
		t.Errorf("below the arrowhead is %v, want a gap", got)
	}
	if got, want := columnHeight(img, 20), 160-2*spikeHeight; got < want || got > want+spikeHeight+1 {
		t.Errorf("the cut bar is %g high with its arrowhead, want %g to %g", got, want, want+spikeHeight+1)
	}
	if got, want := columnHeight(img, 130), (160-2*spikeHeight)/4; math.Abs(got-want) > 0.1 {
		t.Errorf("a bar a quarter as high as the limit is %g high, want %g", got, want)
	}
}

// No size makes the drawing fail, and spikes at the borders have whole arrowheads.
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
	if left, right := img.At(3, 0), img.At(296, 0); left != p.sign || right != p.sign {
		t.Errorf("arrowheads' tips are %v and %v", left, right)
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
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.GroundDark))
	s := NewSpread(SpreadActs{})
	test.NewTempWindow(t, s).Resize(fyne.NewSize(364, spreadHeight))
	state := scene()
	s.Set(state)
	edge := s.edges[0].Position()
	state.Groups = slices.Clone(state.Groups)
	state.Groups[0].To, state.Groups[1].From = 40, 40
	state.Marks = []SpreadMark{{"A", 10}}
	s.Set(state)
	if s.edges[0].Position() == edge {
		t.Error("the edge did not move")
	}
	if s.marks[1].Visible() || s.letters[1].Text != "" || !s.marks[0].Visible() {
		t.Error("marks of spots that are gone stay")
	}
	if x, want := s.marks[0].Position().X+1, spreadX(10, s.Size().Width); x != want {
		t.Errorf("mark A at %g, want %g", x, want)
	}
}

func TestSpreadCountsFromEitherEnd(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.GroundDark))
	s := NewSpread(SpreadActs{})
	test.NewTempWindow(t, s).Resize(fyne.NewSize(364, spreadHeight))
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
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.GroundDark))
	s := NewSpread(SpreadActs{})
	test.NewTempWindow(t, s).Resize(fyne.NewSize(364, spreadHeight))
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
