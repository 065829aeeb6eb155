package settings

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"app.tonedesk/analysis/edges"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/focus"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/gui/files"
)

func TestDefaultsAreValid(t *testing.T) {
	d := Defaults()
	if changed := d.confine(); len(changed) != 0 {
		t.Errorf("the defaults are out of range: %v", changed)
	}
}

func TestSettingsValid(t *testing.T) {
	nan := math.NaN()
	tests := []struct {
		name  string
		spoil func(*Settings)
		field func(Settings) any
		want  any
	}{
		{"unknown ground", func(s *Settings) { s.Theme = "pink" }, func(s Settings) any { return s.Theme }, ThemeDark},
		{"ground kept", func(s *Settings) { s.Theme = ThemeLight }, func(s Settings) any { return s.Theme }, ThemeLight},
		{"too slow", func(s *Settings) { s.PerSecond = 0.2 }, func(s Settings) any { return s.PerSecond }, 1.0},
		{"automatic", func(s *Settings) { s.PerSecond = 0 }, func(s Settings) any { return s.PerSecond }, 0.0},
		{"too fast", func(s *Settings) { s.PerSecond = math.Inf(1) }, func(s Settings) any { return s.PerSecond }, 60.0},
		{"no rate", func(s *Settings) { s.PerSecond = nan }, func(s Settings) any { return s.PerSecond }, 10.0},
		{"strict", func(s *Settings) { s.Tolerance = 0.1 }, func(s Settings) any { return s.Tolerance }, 0.5},
		{"lax", func(s *Settings) { s.Tolerance = 9 }, func(s Settings) any { return s.Tolerance }, 5.0},
		{"no tolerance", func(s *Settings) { s.Tolerance = nan }, func(s Settings) any { return s.Tolerance }, 2.0},
		{"nothing is like it", func(s *Settings) { s.LikeWithin = 0 }, func(s Settings) any { return s.LikeWithin }, 0.5},
		{"no likeness", func(s *Settings) { s.LikeWithin = nan }, func(s Settings) any { return s.LikeWithin }, 3.0},
		{"even spot", func(s *Settings) { s.SpotSize = 4 }, func(s Settings) any { return s.SpotSize }, 3},
		{"largest spot", func(s *Settings) { s.SpotSize = 11 }, func(s Settings) any { return s.SpotSize }, 11},
		{"one band", func(s *Settings) { *s = s.WithKnob("bands", 1) }, func(s Settings) any { return s.Knobs["bands"] }, 2.0},
		{"many bands", func(s *Settings) { *s = s.WithKnob("bands", 99) }, func(s Settings) any { return s.Knobs["bands"] }, 10.0},
		{"one group", func(s *Settings) { s.Groups = 1 }, func(s Settings) any { return s.Groups }, 0},
		{"four groups", func(s *Settings) { s.Groups = 4 }, func(s Settings) any { return s.Groups }, 4},
		{"unknown view", func(s *Settings) { s.View = "x" }, func(s Settings) any { return s.View }, "grey"},
		{"flat region", func(s *Settings) { s.Region = &files.Rect{X: 1, Y: 1, Width: 5, Height: 0} }, func(s Settings) any { return s.Region }, (*files.Rect)(nil)},
		{"far region", func(s *Settings) { s.Region = &files.Rect{X: math.MinInt, Y: 1, Width: 5, Height: 5} }, func(s Settings) any { return s.Region }, (*files.Rect)(nil)},
		{"region left of the main screen", func(s *Settings) { s.Region = &files.Rect{X: -800, Y: -20, Width: 5, Height: 5} }, func(s Settings) any { return *s.Region }, files.Rect{X: -800, Y: -20, Width: 5, Height: 5}},
		{"place without area", func(s *Settings) { s.Place = &files.Rect{} }, func(s Settings) any { return s.Place }, (*files.Rect)(nil)},
		{"path with a nought", func(s *Settings) { s.Picture = "a\x00b" }, func(s Settings) any { return s.Picture }, ""},
		{"long note", func(s *Settings) { s.Display = strings.Repeat("x", 2000) }, func(s Settings) any { return s.Display }, "sRGB"},
		{"too many before", func(s *Settings) {
			s.Before = []Watched{{Picture: "a"}, {}, {Picture: "b\x00"}, {Picture: "c"}, {Picture: "d"}, {Picture: "e"}}
		}, func(s Settings) any { return fmt.Sprint(s.Before) }, "[{a <nil> <nil>} {c <nil> <nil>} {d <nil> <nil>}]"},
		{"a window without a name", func(s *Settings) { s.Window = &Followed{Part: &files.Rect{Width: 5, Height: 5}} }, func(s Settings) any { return s.Window == nil }, true},
		{"a part above its window", func(s *Settings) {
			s.Window = &Followed{Title: "a", Part: &files.Rect{Y: -1, Width: 5, Height: 5}}
		}, func(s Settings) any { return fmt.Sprint(*s.Window) }, "{a  false <nil>}"},
		{"before as region and window", func(s *Settings) {
			s.Before = []Watched{{Region: &files.Rect{Width: 5, Height: 5}, Window: &Followed{Title: "a"}}, {Window: &Followed{}}}
		}, func(s Settings) any { return len(s.Before) }, 0},
		{"before as both", func(s *Settings) { s.Before = []Watched{{Picture: "a", Region: &files.Rect{Width: 5, Height: 5}}} }, func(s Settings) any { return len(s.Before) }, 0},
		{"places that can't be", func(s *Settings) {
			one, here := []files.Rect{{Width: 9, Height: 9}}, files.Rect{Width: 5, Height: 5}
			s.Places = []Placed{{Inside: here}, {Screens: one}, {Screens: []files.Rect{{}}, Inside: here}, {Screens: one, Inside: here, Width: float32(nan)}}
		}, func(s Settings) any { return fmt.Sprint(s.Places) }, "[{[{0 0 9 9}] {0 0 5 5} 380 480}]"},
		{"a language that is not spoken", func(s *Settings) { s.Language = "xx" }, func(s Settings) any { return string(s.Language) }, ""},
		{"turns that flash", func(s *Settings) { s.TurnEvery = 0.1 }, func(s Settings) any { return s.TurnEvery }, 0.4},
		{"narrow", func(s *Settings) { s.Width = 12 }, func(s Settings) any { return s.Width }, float32(320)},
		{"no height", func(s *Settings) { s.Height = float32(nan) }, func(s Settings) any { return s.Height }, float32(760)},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := Defaults()
			tt.spoil(&s)
			s = s.Valid()
			if got := tt.field(s); got != tt.want {
				t.Errorf("got %v, want %v", got, tt.want)
			}
			if changed := s.confine(); len(changed) != 0 {
				t.Errorf("valid settings change again: %v", changed)
			}
		})
	}
}

func TestSettingsGoThroughTheFile(t *testing.T) {
	s := Settings{
		Theme: ThemeMiddle, Language: "ja", TextPercent: 150, Pictures: Pictures{{Watched: Watched{Picture: "/tmp/b.png"}, Borders: []float64{40}}}, Before: []Watched{{Picture: "/tmp/b.png"}, {Region: &files.Rect{X: 3, Width: 40, Height: 50}}, {Window: &Followed{Title: "Leaf", Class: "Painter"}}}, GreyStills: true, TurnEvery: 1.5, PerSecond: 24, Tolerance: 1.5, LikeWithin: 4, SpotSize: 5, Groups: 3, NoGround: true, StillsLimit: 500, KeepEvery: 15, KeepLimit: 300, TurnFrom: 0.8,
		Light:   light.Options{MostTonesOff: 0.7, MostHueOff: 15, MostColourOff: 4, OneLightFrom: 0.6, MostDegreesOff: 45},
		Edges:   edges.Options{MostTones: edges.DefaultOptions().MostTones, LeastCIEDE2000: 12, LeastLength: 0.05, LeastTones: 1.5, MostColourOff: 4, LineLightness: 8},
		Focus:   focus.Options{Radius: 0.1, LeastContrast: 0.02, AsStrong: 0.9, ChromaWeight: 0.7, ExtremeWithin: 8, AloneShare: 0.7},
		Shade:   propose.Options{ShadowHue: 35, Turn: 0.5, Gain: 0.1, AccentChroma: 0.2, EqualBy: propose.ByLayerGrey},
		TooDark: 6, TooLight: 95, Hatch: HatchNever, Rules: families.Rules{LeastTones: 1.5, MostTones: 4, LeastChroma: 6, LeastTurn: 10, MostGain: 0.1, KeepsWithin: 2, VanishAbove: 8.5},
		Knobs: map[string]float64{"bands": 7, "of another program": 0.5},
		View:  "bands", Flipped: true, Page: "Structure", FromWhite: true, KeepAbove: true, LeaveOut: true, Tray: true, UnderPointer: true, PointerChip: true, Everywhere: true, EveryKeys: map[string]string{"keep": "Alt+F2", "view": ""},
		Region: &files.Rect{X: -5, Y: 6, Width: 700, Height: 800}, Picture: "/tmp/a b “é”.png", Window: &Followed{Title: "Heron “2”", Class: "Painter", Part: &files.Rect{X: 4, Y: 5, Width: 60, Height: 70}}, Target: "/tmp/plan.png", TargetStill: "20260102-030405-abcdefghij", Place: &files.Rect{X: 1, Y: 2, Width: 380, Height: 760},
		Places: []Placed{{Screens: []files.Rect{{Width: 1920, Height: 1080}}, Inside: files.Rect{X: 1, Y: 2, Width: 380, Height: 760}, Width: 380, Height: 760}},
		Width:  381.5, Height: 777, Display: "a wide one", ShownIn: map[string]Colours{"": {In: "Display P3"}, "Pen display": {In: ColoursFile, File: "/tmp/a.icc"}},
	}
	v := reflect.ValueOf(s)
	for i := range v.NumField() {
		if v.Type().Field(i).IsExported() && v.Field(i).IsZero() {
			t.Fatalf("%s has no value of its own in this test", v.Type().Field(i).Name)
		}
	}
	data, err := s.encode()
	if err != nil {
		t.Fatal(err)
	}
	got, problems, err := decodeSettings(data)
	if err != nil || len(problems) > 0 {
		t.Fatalf("read back: %v, %v", problems, err)
	}
	if !reflect.DeepEqual(got, s) {
		t.Errorf("read back %+v, want %+v", got, s)
	}
}

func TestDecodeSettings(t *testing.T) {
	tests := []struct {
		name, file string
		ground     Theme
		problem    string // words that the problem holds; "" for no problem
		err        error
	}{
		{"empty object", `{}`, ThemeDark, "", nil},
		{"ours", `{"version": 1, "ground": "light"}`, ThemeLight, "", nil},
		{"an older one", `{"version": 0, "ground": "light"}`, ThemeLight, "", nil},
		{"one field bad", `{"ground": "light", "spot_size": "x"}`, ThemeLight, "spot_size", nil},
		{"out of range", `{"ground": "light", "per_second": 1000}`, ThemeLight, "per_second", nil},
		{"a number too large to hold", `{"ground": "light", "tolerance": 1e999}`, ThemeLight, "tolerance", nil},
		{"null means as at first", `{"ground": null, "region": null}`, ThemeDark, "", nil},
		{"newer", `{"version": 2, "ground": "light"}`, ThemeDark, "", ErrNewer},
		{"nothing", ``, ThemeDark, "", errDamaged},
		{"null", `null`, ThemeDark, "", errDamaged},
		{"cut off", `{"ground": "li`, ThemeDark, "", errDamaged},
		{"two objects", `{} {}`, ThemeDark, "", errDamaged},
		{"a list", `[1]`, ThemeDark, "", errDamaged},
		{"version in words", `{"version": "one"}`, ThemeDark, "", errDamaged},
		{"version null", `{"version": null}`, ThemeDark, "", errDamaged},
		{"zeros, as after a power cut", strings.Repeat("\x00", 512), ThemeDark, "", errDamaged},
		{"too large", `{"x":"` + strings.Repeat("x", maxSettingsFile) + `"}`, ThemeDark, "", errDamaged},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s, problems, err := decodeSettings([]byte(tt.file))
			if s.Theme != tt.ground {
				t.Errorf("ground %q, want %q", s.Theme, tt.ground)
			}
			if all := strings.Join(problems, " "); !strings.Contains(all, tt.problem) || (tt.problem == "") != (all == "") {
				t.Errorf("problems %q, want one on %q", problems, tt.problem)
			}
			if !isErr(err, tt.err) {
				t.Errorf("error %v, want %v", err, tt.err)
			}
		})
	}
}

func TestUnknownFieldsAreKept(t *testing.T) {
	s, _, err := decodeSettings([]byte(`{"version": 1, "of_tomorrow": {"a": [1, 2]}, "bands": 4}`))
	if err != nil {
		t.Fatal(err)
	}
	data, err := s.Clone().encode()
	if err != nil {
		t.Fatal(err)
	}
	var all map[string]any
	if err := json.Unmarshal(data, &all); err != nil {
		t.Fatal(err)
	}
	want := map[string]any{"a": []any{1.0, 2.0}}
	if !reflect.DeepEqual(all["of_tomorrow"], want) || all["bands"] != 4.0 {
		t.Errorf("written back: %s", data)
	}
}

// Words of the window may change; what is kept under the names that files have had is read.
func TestNamesInTheFileStay(t *testing.T) {
	s, problems, err := decodeSettings([]byte(`{"version": 1, "ground": "middle", "dots": "always", "mirrored": true, "page": "Stills", "keep_above": true}`))
	if err != nil || len(problems) > 0 || s.Theme != ThemeMiddle || s.Hatch != HatchAlways || !s.Flipped || s.Page != PageStills || !s.KeepAbove {
		t.Errorf("%v, %q: theme %s, hatch %s, flipped %v, page %s, on top %v", err, problems, s.Theme, s.Hatch, s.Flipped, s.Page, s.KeepAbove)
	}
}
