package widgets

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/gui/settings"
)

// In every width and size of text names and controls lie within the form and not over each other.
func TestFormFits(t *testing.T) {
	for _, percent := range []int{100, 150, 200} {
		app := test.NewTempApp(t)
		app.Settings().SetTheme(NewTheme(settings.ThemeDark, percent))
		for _, width := range []float32{288, 348, 600} {
			keys := &heardKeys{}
			list := NewPicklist([]string{"3 × 3 pixels", "11 × 11 pixels"}, 0, keys, nil, nil)
			amount := NewAmount(NewSlider(0, 10, 1, keys), 3, func(float64) string { return "3.0 tones" }, nil, false)
			f := NewForm(FormRow{Name: "A shadow reads from", Control: amount, Note: "Common practice of the trade. Style may break it, and often does so on purpose."},
				FormRow{Name: "A spot averages", Control: list}, FormRow{Name: "Stay on top", Control: NewSwitch(true, keys, nil)},
				FormRow{Name: "Set a spot, or an area's corner, at the cursor of the keys", Control: NewSwitch(true, keys, nil)})
			f.For(width)
			f.Resize(fyne.NewSize(width, f.MinSize().Height))
			test.WidgetRenderer(f)
			f.Resize(fyne.NewSize(width, f.MinSize().Height+1))
			foot := float32(0)
			for i, r := range f.Rows() {
				at, size := r.Control.Position(), r.Control.Size()
				for _, name := range f.names[i] {
					if name.Text == "" {
						continue
					}
					end := name.Position().X + name.MinSize().Width
					below := name.Position().Y+name.MinSize().Height <= at.Y+1
					if end > at.X && !below || end > width || at.X < 0 || at.X+size.Width > width || at.Y < foot || size.Height < 32 || size.Width < r.Control.MinSize().Width {
						t.Errorf("%d %%, %g wide: %q of %s at %v, its control at %v, %v", percent, width, name.Text, r.Name, name.Position(), at, size)
					}
				}
				foot = at.Y + size.Height
			}
			if f.MinSize().Height < foot {
				t.Errorf("%d %%, %g wide: it asks for %g, and its parts reach to %g", percent, width, f.MinSize().Height, foot)
			}
		}
	}
}

// Keys below each other begin alike, however long the names beside them are.
func TestFormKeysBeginAlike(t *testing.T) {
	inText(t, 150)
	var rows []FormRow
	for _, name := range []string{"Spot A here", "Keep a still", "Show or hide"} {
		rows = append(rows, FormRow{Name: name, Control: NewKeyChoice("Ctrl+Alt+1", &heardKeys{}, nil, KeyActs{})})
	}
	f := NewForm(rows...)
	f.For(348)
	test.WidgetRenderer(f)
	f.Resize(fyne.NewSize(348, f.MinSize().Height))
	for _, r := range rows[1:] {
		if first, at := rows[0].Control.Position().X, r.Control.Position().X; at != first || at+r.Control.Size().Width != 348 {
			t.Errorf("the key beside %q begins at %g, the first at %g", r.Name, at, first)
		}
	}
}

// A switch tells its state and switches by taps and keys; a list chooses by the arrows, and only
// what there is.
func TestSwitchAndPicklist(t *testing.T) {
	test.NewTempApp(t)
	var told []bool
	s := NewSwitch(false, &heardKeys{}, func(on bool) { told = append(told, on) })
	test.Tap(s)
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	if len(told) != 2 || !told[0] || told[1] || s.On() {
		t.Errorf("it told %v and is %v", told, s.On())
	}
	var chosen []int
	p := NewPicklist([]string{"a", "b"}, 0, &heardKeys{}, nil, func(i int) { chosen = append(chosen, i) })
	for _, k := range []fyne.KeyName{fyne.KeyUp, fyne.KeyDown, fyne.KeyDown} {
		p.TypedKey(&fyne.KeyEvent{Name: k})
	}
	if len(chosen) != 1 || chosen[0] != 1 {
		t.Errorf("chosen %v", chosen)
	}
}
