package widgets

import (
	"testing"

	"fyne.io/fyne/v2"
	"pgregory.net/rapid"

	"app.tonedesk/gui/settings"
)

// Where the window's plan says that everything lies, at the plain size of text and over a picture
// of 4 to 3: numbers of the plan, in units.
func TestPageRowsOfThePlan(t *testing.T) {
	for _, tt := range []struct {
		name          string
		width, height float32
		lines         int
		want          pageRows
	}{
		{"the main window", 380, 760, 2, pageRows{
			bar: rect{0, 0, 380, 48}, mirror: rect{8, 56, 364, 273}, strip: rect{8, 329, 364, 32}, sentence: rect{8, 361, 364, 64},
			lower: rect{8, 433, 364, 279}, tabs: rect{0, 720, 380, 40}}},
		{"on another page", 380, 760, 1, pageRows{
			bar: rect{0, 0, 380, 48}, mirror: rect{8, 56, 364, 273}, strip: rect{8, 329, 364, 32}, sentence: rect{8, 361, 364, 36},
			lower: rect{8, 405, 364, 307}, tabs: rect{0, 720, 380, 40}}},
		{"the least window", 320, 480, 2, pageRows{
			bar: rect{0, 0, 320, 40}, mirror: rect{8, 46, 216, 162}, strip: rect{232, 46, 80, 162}, sentence: rect{8, 214, 304, 36},
			lower: rect{8, 256, 304, 184}, tabs: rect{0, 444, 320, 36}}},
		{"wide", 1100, 760, 2, pageRows{
			bar: rect{0, 0, 1100, 48}, mirror: rect{8, 56, 712, 584}, strip: rect{8, 648, 712, 32}, sentence: rect{8, 688, 712, 64},
			lower: rect{728, 104, 364, 648}, tabs: rect{728, 56, 364, 40}}},
	} {
		if got := pageRowsFor(formOf(fyne.NewSize(tt.width, tt.height), 1), 0.75, tt.lines); got != tt.want {
			t.Errorf("%s:\n%+v, want\n%+v", tt.name, got, tt.want)
		}
	}
}

// The picture is at least 160 high and takes at most 42 % of the window, whatever its shape.
func TestPictureHeight(t *testing.T) {
	for _, tt := range []struct{ proportion, want float32 }{{0.2, 160}, {0.75, 273}, {3, 319}} {
		if got := pageRowsFor(formOf(fyne.NewSize(380, 760), 1), tt.proportion, 2).mirror.h; got != tt.want {
			t.Errorf("a picture of %g is %g high, want %g", tt.proportion, got, tt.want)
		}
	}
}

// In the main window a picture of 4 to 3 is 160 high at every size of text.
func TestPictureHeightInLargeText(t *testing.T) {
	for percent := 100; percent <= 200; percent += 10 {
		m := pageRowsFor(formOf(fyne.NewSize(380, 760), float32(percent)/100), 0.75, 2).mirror
		if high := min(m.h, 0.75*m.w); high < 160 {
			t.Errorf("at %d %% it is %g high", percent, high)
		}
	}
}

// Which form a window has by its size and the size of text.
func TestPageForms(t *testing.T) {
	for _, tt := range []struct {
		width, height, text float32
		wide, low           bool
	}{
		{799, 600, 1, false, false}, {800, 600, 1, true, false}, {380, 599, 1, false, true}, {380, 600, 1, false, false},
		{380, 899, 1.5, false, true}, {380, 900, 1.5, false, false}, {380, 899, 1.49, false, false}, {1100, 760, 2, true, false},
	} {
		if f := formOf(fyne.NewSize(tt.width, tt.height), tt.text); f.wide != tt.wide || f.low != tt.low {
			t.Errorf("%g x %g, text %g: wide %v, low %v", tt.width, tt.height, tt.text, f.wide, f.low)
		}
	}
}

// At every size of window and text, over every picture, all lies in the window, nothing overlaps,
// nothing is without room; and whatever the open page, nothing down to the sentence's upper edge
// lies elsewhere.
func TestPageRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := float32(rapid.IntRange(settings.MinWidth, 2600).Draw(t, "w"))
		h := float32(rapid.IntRange(settings.MinHeight, 1600).Draw(t, "h"))
		text := float32(rapid.IntRange(100, 200).Draw(t, "percent")) / 100
		proportion := float32(rapid.Float64Range(0.01, 20).Draw(t, "proportion"))
		form := formOf(fyne.NewSize(w, h), text)
		fixed := pageRowsFor(form, proportion, 2)
		for lines := range 3 {
			r := pageRowsFor(form, proportion, lines)
			all := []rect{r.bar, r.mirror, r.strip, r.sentence, r.lower, r.tabs}
			for i, a := range all {
				if a.w <= 0 || a.h <= 0 && (i != 3 || lines > 0) || a.x < 0 || a.y < 0 || a.x+a.w > w+0.01 || a.y+a.h > h+0.01 {
					t.Fatalf("part %d lies at %+v in %v x %v", i, a, w, h)
				}
				for j, b := range all[:i] {
					if a.x < b.x+b.w && b.x < a.x+a.w && a.y < b.y+b.h && b.y < a.y+a.h {
						t.Fatalf("parts %d and %d overlap: %+v, %+v", i, j, a, b)
					}
				}
			}
			if r.bar != fixed.bar || r.mirror != fixed.mirror || r.strip != fixed.strip || r.sentence.y != fixed.sentence.y || r.tabs != fixed.tabs {
				t.Fatalf("with %d lines: %+v, with two %+v", lines, r, fixed)
			}
		}
		if fixed.mirror.h < leastMirror-1 || fixed.lower.h < 60 {
			t.Fatalf("mirror %+v, lower %+v are too low to be of use", fixed.mirror, fixed.lower)
		}
	})
}

// Where the parts of the bar lie by the plan, in the main window, the least one and a wide one;
// and at every size they overlap nowhere, and none is narrower than a target.
func TestBarPlan(t *testing.T) {
	for _, tt := range []struct {
		width, height        float32
		wide                 bool
		source, freeze, view [2]float32 // left and width
		more, onTop          [2]float32
	}{
		{380, 48, false, [2]float32{8, 172}, [2]float32{188, 36}, [2]float32{228, 104}, [2]float32{336, 36}, [2]float32{}},
		{320, 40, false, [2]float32{8, 136}, [2]float32{152, 32}, [2]float32{188, 88}, [2]float32{280, 32}, [2]float32{}},
		{1100, 48, true, [2]float32{8, 264}, [2]float32{908, 36}, [2]float32{948, 104}, [2]float32{1056, 36}, [2]float32{868, 36}},
	} {
		p := barPlanFor(fyne.NewSize(tt.width, tt.height), 1, tt.wide)
		for _, part := range []struct {
			got  rect
			want [2]float32
		}{{p.source, tt.source}, {p.freeze, tt.freeze}, {p.view, tt.view}, {p.more, tt.more}, {p.onTop, tt.onTop}} {
			if part.got.x != part.want[0] || part.got.w != part.want[1] {
				t.Errorf("%g wide: at %g, %g wide, want %v", tt.width, part.got.x, part.got.w, part.want)
			}
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		w := float32(rapid.IntRange(settings.MinWidth, 2600).Draw(t, "w"))
		text := float32(rapid.IntRange(100, 200).Draw(t, "percent")) / 100
		form := formOf(fyne.NewSize(w, float32(rapid.SampledFrom([]int{480, 760, 1000}).Draw(t, "h"))), text)
		bar, _, _, _, _, _ := form.heights()
		p := barPlanFor(fyne.NewSize(w, bar), text, form.wide)
		row := []rect{p.source, p.freeze, p.view, p.more}
		if form.wide {
			row = []rect{p.source, p.onTop, p.freeze, p.view, p.more}
		}
		end := float32(0)
		for i, r := range row {
			if r.x < end || r.w < 32 || r.h < 32 || r.y < 0 || r.y+r.h > bar {
				t.Fatalf("part %d of %+v", i, row)
			}
			end = r.x + r.w
		}
		if end > w {
			t.Fatalf("the bar ends at %g of %g", end, w)
		}
	})
}
