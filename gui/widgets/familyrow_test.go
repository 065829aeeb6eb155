package widgets

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/wording"
)

// soTold is a row with all that it can have.
func soTold(below string) wording.FamilyRowText {
	return wording.FamilyRowText{
		Light: colour.RGB{R: 200}, Shadow: colour.RGB{R: 100}, Tones: "2.5 tones", Says: "a strong step", SaysShort: "strong", Share: "12 %",
		Below: below, BelowShort: "44° toward magenta, 40 % richer", Told: true, Accent: &colour.RGB{G: 9}, Line: &colour.RGB{B: 9},
		Keep: "Keep", KeepTip: "Keep it", Cross: "Not this", Remarks: []string{"a remark"},
	}
}

// The spec's and the mock's geometry: 20 and 20 high, a hairline round, rows of 44.
func TestFamilyPlan(t *testing.T) {
	for _, tt := range []struct {
		percent int
		width   float32
		high    float32 // of a swatch
		height  float32 // of the row
		stacked bool
		brief   bool
	}{
		{100, 348, 20, 44, false, false},
		{100, 288, 20, 44, false, true},
		{150, 348, 30, 96, true, true},
		{200, 468, 40, 128, true, true},
	} {
		inText(t, tt.percent)
		p := planFamily(tt.width)
		if p.high != tt.high || p.height != tt.height || p.stacked != tt.stacked || p.brief != tt.brief {
			t.Errorf("%d %%, %g wide: %+v", tt.percent, tt.width, p)
		}
		if p.swatch.h != 2*p.high+2 || p.swatch.w != 2*familySide+2 {
			t.Errorf("%d %%: the swatches are %+v", tt.percent, p.swatch)
		}
	}
}

// In every width and size of text nothing lies over another thing, pointed at or not; pointing
// moves nothing.
func TestFamilyRowsNeverOverlap(t *testing.T) {
	black := soTold("keeps its hue: straight toward black")
	black.Black, black.BelowShort, black.Kept = true, "straight toward black", true
	hand := soTold("hue shift 44° toward magenta, 40 % richer")
	hand.Share, hand.ShareShort, hand.Keep = "by hand 1", "1", ""
	for _, percent := range []int{100, 125, 150, 175, 200} {
		inText(t, percent)
		for _, text := range []wording.FamilyRowText{soTold("hue shift 144° toward magenta, 140 % richer"), black, hand, {Says: "not shown", SaysShort: "not shown", Keep: "Show"}, {Tones: "Set by hand 2", Says: "outside the picture", SaysShort: "outside", Lost: true, Cross: "x"}} {
			for width := float32(304); width <= 484; width += 4 {
				row := NewFamilyRow(FamilyActs{Keys: &heardKeys{}, Point: func(bool) {}})
				row.Set(text)
				test.WidgetRenderer(row)
				row.Resize(fyne.NewSize(width-2*Step, planFamily(width-2*Step).height))
				wantRowApart(t, row)
				before := row.says.Position()
				row.MouseIn(&desktop.MouseEvent{})
				wantRowApart(t, row)
				if row.says.Position() != before {
					t.Fatalf("%d %%, %g wide: pointing moves the words", percent, width)
				}
				for _, b := range []*Button{row.Keep, row.Cross} {
					if s := b.Size(); b.Visible() && (s.Width < 32 || s.Height < 32) {
						t.Fatalf("a button is %v", s)
					}
				}
			}
		}
	}
}

// wantRowApart is wantApart of a row without its buttons, whose targets are larger than what is
// drawn of them: that is apart.
func wantRowApart(t *testing.T, f *FamilyRow) {
	t.Helper()
	var boxes []namedBox
	for _, o := range f.sizes {
		if o.text.Text != "" {
			boxes = append(boxes, namedBox{o.text.Text, o.text.Position(), o.text.MinSize()})
		}
	}
	for _, b := range []*Button{f.Keep, f.Cross} {
		if b.Visible() {
			boxes = append(boxes, namedBox{string(b.icon), b.Position().Add(b.picture.Position()), b.picture.Size()})
		}
	}
	if f.text.Told {
		for i, m := range f.marks {
			boxes = append(boxes, namedBox{[]string{"accent", "line"}[i], m.frame.Position(), m.frame.Size()})
		}
	}
	for i, a := range boxes {
		if a.pos.X+a.size.Width > f.Size().Width+0.5 || a.pos.Y+a.size.Height > f.Size().Height+2 {
			t.Fatalf("%q at %v, %v is beyond %v", a.name, a.pos, a.size, f.Size())
		}
		for _, b := range boxes[:i] {
			if a.over(b) {
				t.Fatalf("%g wide: %q at %v, %v lies over %q at %v, %v", f.Size().Width, a.name, a.pos, a.size, b.name, b.pos, b.size)
			}
		}
	}
}

// A tap chooses, a tap on a mark copies, a right tap or a press that is held asks for the menu of
// the side under it.
func TestFamilyRowGestures(t *testing.T) {
	inText(t, 100)
	var did []string
	var later func()
	row := NewFamilyRow(FamilyActs{
		Keys: &heardKeys{}, Point: func(bool) {},
		Choose: func() { did = append(did, "choose") }, Copy: func(c colour.RGB) { did = append(did, "copy "+c.Hex()) },
		Menu:  func(_ fyne.Position, c colour.RGB) { did = append(did, "menu "+c.Hex()) },
		Later: func(_ time.Duration, f func()) func() { later = f; return func() { later = nil } },
	})
	row.Set(soTold("hue shift"))
	row.Resize(fyne.NewSize(348, 44))
	p := planFamily(348)
	at := func(x, y float32) *fyne.PointEvent { return &fyne.PointEvent{Position: fyne.NewPos(x, y)} }
	down := func(x, y float32) {
		row.MouseDown(&desktop.MouseEvent{PointEvent: *at(x, y), Button: desktop.MouseButtonPrimary})
	}
	for _, step := range []struct {
		do   func()
		want string
	}{
		{func() { row.Tapped(at(200, 30)) }, "choose"},
		{func() { row.Tapped(at(p.accent.x+2, p.accent.y+2)) }, "copy #000900"},
		{func() { row.Tapped(at(p.line.x+2, p.line.y+2)) }, "copy #000009"},
		{func() { row.TappedSecondary(at(10, 10)) }, "menu #c80000"},
		{func() { row.TappedSecondary(at(45, 30)) }, "menu #640000"},
		{func() { down(45, 30); later(); row.MouseUp(nil); row.Tapped(at(45, 30)) }, "menu #640000"},
		{func() { down(45, 30); row.MouseUp(nil); row.Tapped(at(45, 30)) }, "choose"},
		{func() { row.TypedKey(&fyne.KeyEvent{Name: desktop.KeyMenu}) }, "menu #c80000"},
	} {
		did = nil
		step.do()
		if len(did) != 1 || did[0] != step.want {
			t.Errorf("did %q, want %q", did, step.want)
		}
	}
	if later != nil {
		t.Error("a press that ended is still held")
	}
}

// Scrolled away from under the pointer a row is no longer pointed at, unless it has the focus.
func TestFamilyRowScrolled(t *testing.T) {
	inText(t, 100)
	row := NewFamilyRow(FamilyActs{Keys: &heardKeys{}, Point: func(bool) {}})
	row.Set(soTold("hue shift"))
	row.MouseIn(&desktop.MouseEvent{})
	if row.Scrolled(); row.Pointed() {
		t.Error("it stays pointed at")
	}
	row.MouseMoved(&desktop.MouseEvent{})
	row.FocusGained()
	if row.Scrolled(); !row.Pointed() {
		t.Error("the focus is forgotten")
	}
	row.FocusLost()
	if row.Pointed() {
		t.Error("it stays pointed at without the focus")
	}
}

// The card of a target in every width and size of text.
func TestTargetNeverOverlaps(t *testing.T) {
	for _, percent := range []int{100, 150, 200} {
		inText(t, percent)
		for width := float32(304); width <= 484; width += 10 {
			card := NewTargetCard(&heardKeys{}, nil, nil)
			card.Set(TargetText{"a picture with a long name.png", "0.8 tones from it on average", "9 % less middle, 6 % more light, 3 % more dark"}, nil)
			test.WidgetRenderer(card)
			card.Resize(fyne.NewSize(width-2*Step, 10))
			card.Resize(fyne.NewSize(width-2*Step, card.MinSize().Height))
			wantApart(t, card)
			if s := card.Cross.Size(); s.Width < 32 || s.Height < 32 {
				t.Fatalf("the cross is %v", s)
			}
		}
	}
}
