package widgets

import (
	"image"
	"math"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"
)

// In a line the last give way first, and what is left over goes where it is to go.
func TestLineWidths(t *testing.T) {
	for name, tt := range map[string]struct {
		stretch           int
		width             float32
		wish, least, want []float32
	}{
		"room for all, the first grows":   {0, 364, []float32{146, 96}, []float32{100, 36}, []float32{260, 96}},
		"all grow by their widths":        {All, 384, []float32{80, 80, 40, 40}, []float32{36, 36, 36, 36}, []float32{120, 120, 60, 60}},
		"the last gives way":              {0, 250, []float32{150, 100}, []float32{100, 36}, []float32{206, 36}},
		"then the one before":             {0, 160, []float32{150, 100}, []float32{100, 36}, []float32{116, 36}},
		"less than that is less than all": {0, 100, []float32{150, 100}, []float32{100, 36}, []float32{100, 36}},
	} {
		if got := (Abreast{Stretch: tt.stretch}).widths(tt.wish, tt.least, tt.width); !slices.Equal(got, tt.want) {
			t.Errorf("%s: %v, want %v", name, got, tt.want)
		}
	}
}

// At the plain width all tools stand in one row; each is as large as a pen needs in every width,
// none lies over another, and all are inside (32 is our least target; WCAG 2.2, 2.5.8, asks for 24).
func TestToolCells(t *testing.T) {
	for _, tt := range []struct {
		width, side, high float32
		acts              bool // stand there too
	}{
		{364, 32, 40, true},      // 380 px wide
		{304, 32, 40, false},     // 320 px wide
		{304, 38.4, 46.4, false}, // text 120 %
		{364, 41.6, 91.2, true},  // text 130 %
		{304, 41.6, 91.2, true},
		{364, 48, 104, true}, // text 150 %
	} {
		cells, rule := toolCells(9, 2, tt.width, tt.side)
		high, acts := float32(0), cells[9].w > 0 && cells[10].w > 0
		for _, c := range cells {
			high = max(high, c.bottom()+4)
		}
		if math.Abs(float64(high-tt.high)) > 0.01 || acts != tt.acts {
			t.Errorf("at %g wide, tools of %g: %g high, want %g; undo stands there %v", tt.width, tt.side, high, tt.high, acts)
		}
		if whole := tt.high < 2*tt.side && tt.acts; whole != (rule.h > 0) {
			t.Errorf("at %g wide there is a rule of %g", tt.width, rule.h)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.Float32Range(32, 64).Draw(t, "side")
		width := rapid.Float32Range(6*side+8, 1200).Draw(t, "width")
		cells, _ := toolCells(9, 2, width, side)
		for i, c := range cells {
			if i >= 9 && c.w == 0 && cells[8].y == cells[0].y {
				continue // left to the menu
			}
			if c.w < 32 || c.w < side && side >= 1.3*32 || c.h < side || c.x < 0 || c.x+c.w > width+0.5 {
				t.Fatalf("cell %d is %+v", i, c)
			}
			for _, o := range cells[:i] {
				if c.y == o.y && math.Abs(float64(c.x-o.x)) < float64(min(c.w, o.w))-1 {
					t.Fatalf("%+v lies over %+v", c, o)
				}
			}
		}
	})
}

// Three small pictures stand beside each other at the window's plain width, two at its least.
func TestStillsInARow(t *testing.T) {
	test.NewTempApp(t)
	for width, want := range map[float32]int{364: 3, 304: 2} {
		g := NewStillGrid(&heardKeys{}, func() int { return 9 }, func(int, *StillItem) {}, func(int) {})
		w := test.NewTempWindow(t, g)
		w.Resize(fyne.NewSize(width, 300))
		g.Resize(fyne.NewSize(width, 300))
		if got := g.ColumnCount(); got != want {
			t.Errorf("at %g wide there are %d columns, want %d", width, got, want)
		}
	}
}

// Words of a note stand between its pictogram and its reading, whatever the width, the text's size
// and the reading.
func TestNoteColumns(t *testing.T) {
	for _, tt := range []struct {
		width, digits, reading, icon float32
		want                         notePlan
	}{
		{356, 16, 56, 16, notePlan{8, 30, 52, 296, 236}}, // 380 px wide
		{356, 16, 0, 16, notePlan{8, 30, 52, 352, 300}},
		{296, 16, 56, 16, notePlan{8, 30, 52, 236, 176}}, // 320 px wide
		{296, 32, 112, 32, notePlan{8, 46, 84, 180, 88}}, // text 200 %
		{100, 32, 112, 32, notePlan{8, 46, 84, -16, 0}},
	} {
		if got := planNote(tt.width, tt.digits, tt.reading, tt.icon); got != tt.want {
			t.Errorf("at %g wide: %+v, want %+v", tt.width, got, tt.want)
		}
	}
}

// The table's figures stay in the table and left of each other, with room for the names.
func TestChangeColumns(t *testing.T) {
	need := [changeColumns]float32{76, 36, 36, 70}
	for width, want := range map[float32][changeColumns]float32{
		348: {0, 162, 238, 348},                                  // the gaps are 40 at most
		288: {0, 288 - 70 - 36 - 140.0/3, 288 - 70 - 70./3, 288}, // what is left is shared
	} {
		got := changeRights(width, need)
		for k := range got {
			if math.Abs(float64(got[k]-want[k])) > 0.01 {
				t.Errorf("at %g wide the columns end at %v, want %v", width, got, want)
				break
			}
		}
	}
}

// The line that divides the picture is moved by its grip alone, within a target of 44; elsewhere a
// tap is a tap.
func TestGripOnly(t *testing.T) {
	test.NewTempApp(t)
	m := silentMirror()
	clicks, moved := 0, float32(-1)
	m.acts.Click = func(image.Point, bool) { clicks++ }
	m.Resize(fyne.NewSize(404, 304))
	picture := image.NewRGBA(image.Rect(0, 0, 400, 300))
	m.SetPicture(picture, nil, picture.Rect, picture.Rect, false)
	m.SetDivider(0.5, func(share float32) { moved = share })
	f := m.Fit()
	grip := fyne.NewPos(f.Pos.X+0.5*f.Size.Width, f.Pos.Y+GripAt*f.Size.Height)
	drag := func(from, to fyne.Position) {
		e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
		e.Position = from
		m.MouseDown(e)
		if to != from {
			m.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: to}})
		}
		m.MouseUp(e)
	}
	for name, tt := range map[string]struct {
		from  fyne.Position
		by    float32
		moves bool
	}{
		"the middle":             {grip, 40, true},
		"a corner of the target": {grip.AddXY(-21, 21), 40, true},
		"beside it":              {grip.AddXY(24, 0), 0, false},
		"the line itself":        {grip.AddXY(0, -60), 0, false},
	} {
		clicks, moved = 0, -1
		drag(tt.from, tt.from.AddXY(tt.by, 0))
		want := 0.5 + tt.by/f.Size.Width
		if tt.moves && (math.Abs(float64(moved-want)) > 1e-3 || clicks > 0) || !tt.moves && (moved >= 0 || clicks != 1) {
			t.Errorf("%s: the line moved to %g, want %g, and %d clicks", name, moved, want, clicks)
		}
	}
	m.SetDivider(0, nil)
	clicks = 0
	if drag(grip, grip); clicks != 1 {
		t.Error("where nothing is divided, a tap at the grip's place is none")
	}
}
