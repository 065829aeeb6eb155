package settings

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"math"
	"os"
	"reflect"
	"runtime"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	_ "app.tonedesk/analysis/lawtest" // how many cases
	"app.tonedesk/gui/setup"
)

// heron is a setup with everything that can lie on a picture.
func heron(from setup.Source) setup.Setup {
	red, dark := colour.RGB{R: 200, G: 60, B: 50}, colour.RGB{R: 90, G: 20, B: 40}
	return setup.Setup{
		Source: from,
		Places: []setup.Place{{At: image.Pt(3, 4)}, {At: image.Pt(20, 30), Area: image.Rect(10, 20, 30, 40), Moved: true}},
		Out: setup.Out{
			Areas: []image.Rectangle{image.Rect(-5, 0, 9, 7)}, Workspace: []image.Rectangle{image.Rect(0, 0, 4, 90)},
			Seeds: []analysis.Seed{{At: image.Pt(7, 8), Colour: red, Within: 3}},
		},
		Families: []setup.Family{{Light: setup.Place{At: image.Pt(1, 2)}, Shadow: setup.Place{At: image.Pt(5, 6), Moved: true}}},
		Focus:    []setup.Place{{At: image.Pt(11, 12)}, {At: image.Pt(60, 70), Moved: true}},
		Judged:   []setup.Judged{{Kept: true, Light: setup.Side{Colour: red, At: image.Pt(9, 9)}, Shadow: setup.Side{Colour: dark, At: image.Pt(8, 9)}}},
		Borders:  []float64{30, 61.5},
	}
}

var (
	heronRegion  = setup.Source{Kind: setup.SourceRegion, Region: image.Rect(-40, 20, 400, 320)}
	heronWindow  = setup.Source{Kind: setup.SourceWindow, Title: "Heron", Class: "Painter"}
	heronPicture = setup.Source{Kind: setup.SourcePicture, Path: "/tmp/heron.png"}
)

// reloaded is what the file gives back of settings.
func reloaded(t interface{ Fatal(...any) }, s Settings) (Settings, []byte) {
	data, err := s.Valid().encode()
	if err != nil {
		t.Fatal(err)
	}
	back, problems, err := decodeSettings(data)
	if err != nil || len(problems) > 0 {
		t.Fatal(err, problems, string(data))
	}
	return back, data
}

// Everything that lies on a picture comes back from the file, whatever was watched.
func TestRememberedRoundTrip(t *testing.T) {
	part := heronWindow
	part.Region = image.Rect(3, 4, 50, 60)
	for _, from := range []setup.Source{heronRegion, heronWindow, part, heronPicture} {
		was := heron(from)
		was.Target = &setup.Target{Path: "/tmp/plan.png"}
		s := Defaults()
		s.Pictures = s.Pictures.With(RememberedOf(was, was.Judged, image.Pt(440, 300)))
		back, _ := reloaded(t, s)
		r, ok := back.Pictures.Of(from)
		want := was
		want.Target = nil // it is read anew
		if got := r.Setup(setup.Setup{}, 3); !ok || !reflect.DeepEqual(got, want) || r.Target != "/tmp/plan.png" || r.Size() != image.Pt(440, 300) {
			t.Errorf("%+v: back are %+v, %+v", from, got, r)
		}
		for _, other := range []setup.Source{{Kind: setup.SourceDemo}, {Kind: setup.SourceNothing}, {Kind: setup.SourceRegion, Region: image.Rect(0, 0, 9, 9)}, {Kind: setup.SourcePicture, Path: "/tmp/other.png"}, {Kind: setup.SourceWindow, Title: "Heron", Class: "Viewer"}} {
			if _, ok := back.Pictures.Of(other); ok {
				t.Errorf("what lies on %+v is taken for %+v", from, other)
			}
		}
	}
	for _, none := range []setup.Source{{Kind: setup.SourceDemo}, {Kind: setup.SourceNothing}, {Kind: setup.SourceStill, Path: "x"}} {
		if was := heron(none); len(Pictures(nil).With(RememberedOf(was, was.Judged, image.Point{}))) != 0 {
			t.Errorf("%+v is remembered", none)
		}
	}
}

// anySetup draws a setup as full and as far out as it can be, and further.
func anySetup(t *rapid.T) setup.Setup {
	coordinate := rapid.OneOf(rapid.IntRange(-300, 3000), rapid.IntRange(-math.MaxInt32, math.MaxInt32))
	point := rapid.Custom(func(t *rapid.T) image.Point { return image.Pt(coordinate.Draw(t, "x"), coordinate.Draw(t, "y")) })
	area := rapid.Custom(func(t *rapid.T) image.Rectangle {
		return image.Rectangle{Min: point.Draw(t, "min"), Max: point.Draw(t, "max")}.Canon()
	})
	place := rapid.Custom(func(t *rapid.T) setup.Place {
		p := setup.Place{At: point.Draw(t, "at"), Moved: rapid.Bool().Draw(t, "moved")}
		if rapid.Bool().Draw(t, "area") {
			p.Area = area.Draw(t, "measured")
		}
		return p
	})
	code := rapid.Custom(func(t *rapid.T) colour.RGB {
		return colour.RGB{R: rapid.Byte().Draw(t, "r"), B: rapid.Byte().Draw(t, "b")}
	})
	side := rapid.Custom(func(t *rapid.T) setup.Side { return setup.Side{Colour: code.Draw(t, "code"), At: point.Draw(t, "at")} })
	s := setup.Setup{
		Source: setup.Source{Kind: setup.SourceWindow, Title: rapid.StringN(1, -1, 1000).Draw(t, "title"), Class: rapid.StringN(0, -1, 1000).Draw(t, "class")},
		Places: rapid.SliceOfN(place, 0, setup.MaxSpots).Draw(t, "spots"),
		Families: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) setup.Family {
			return setup.Family{Light: place.Draw(t, "light"), Shadow: place.Draw(t, "shadow")}
		}), 0, setup.MaxManualFamilies).Draw(t, "by hand"),
		Judged: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) setup.Judged {
			return setup.Judged{Kept: rapid.Bool().Draw(t, "kept"), Light: side.Draw(t, "light"), Shadow: side.Draw(t, "shadow")}
		}), 0, 2*mostJudged).Draw(t, "judged"),
		Borders: rapid.SliceOfN(rapid.Float64(), 0, 5).Draw(t, "borders"),
	}
	s.Areas = rapid.SliceOfN(area, 0, 2*mostAreas).Draw(t, "areas")
	s.Workspace = rapid.SliceOfN(area, 0, 6).Draw(t, "workspace")
	return s
}

// Whatever lies on a picture: it is remembered without complaint, comes back the same each time, and
// takes no more of the file than it is weighed to.
func TestRememberedLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		was := anySetup(t)
		r := RememberedOf(was, was.Judged, image.Pt(rapid.IntRange(0, 90000).Draw(t, "wide"), 70))
		if r.Empty() || strings.ContainsRune(was.Source.Title+was.Source.Class, 0) { // no window has such a name
			return
		}
		if !r.sound() {
			t.Fatalf("not sound: %+v", r)
		}
		s := Defaults()
		bare, err := s.encode()
		if err != nil {
			t.Fatal(err)
		}
		s.Pictures = s.Pictures.With(r)
		back, data := reloaded(t, s)
		if len(data)-len(bare) > r.weight() {
			t.Errorf("%d bytes are weighed as %d", len(data)-len(bare), r.weight())
		}
		again, ok := back.Pictures.Of(was.Source)
		if !ok && strings.ToValidUTF8(was.Source.Title+was.Source.Class, "") == was.Source.Title+was.Source.Class {
			t.Fatalf("it is not found again: %+v", back.Pictures)
		}
		if ok && !reflect.DeepEqual(again.Setup(setup.Setup{}, 3), r.Setup(setup.Setup{}, 3)) {
			t.Fatalf("back are %+v of %+v", again, r)
		}
	})
}

// The oldest is forgotten for the fifty-first, and earlier where all of them would make the file too
// large to be read; an empty one is forgotten at once.
func TestRememberedIsBounded(t *testing.T) {
	picture := func(i int) setup.Source {
		return setup.Source{Kind: setup.SourcePicture, Path: fmt.Sprintf("/tmp/%d.png", i)}
	}
	var p Pictures
	for i := range MostRemembered + 3 {
		was := heron(picture(i))
		p = p.With(RememberedOf(was, was.Judged, image.Point{}))
	}
	_, newest := p.Of(picture(MostRemembered + 2))
	_, oldest := p.Of(picture(3))
	_, gone := p.Of(picture(2))
	if len(p) != MostRemembered || !newest || !oldest || gone {
		t.Errorf("%d pictures; the newest %v, the oldest %v, one that is too old %v", len(p), newest, oldest, gone)
	}
	if p = p.With(RememberedOf(setup.Setup{Source: picture(20)}, nil, image.Point{})); len(p) != MostRemembered-1 {
		t.Errorf("%d pictures after one was cleared", len(p))
	}
	s := Defaults()
	for i := range MostRemembered {
		was := heron(setup.Source{Kind: setup.SourcePicture, Path: fmt.Sprint(i) + strings.Repeat("\x01", maxPath-9)})
		s.Pictures = s.Pictures.With(RememberedOf(was, was.Judged, image.Point{}))
	}
	if back, data := reloaded(t, s); len(data) > maxSettingsFile || len(back.Pictures) < 2 {
		t.Errorf("%d bytes with %d pictures", len(data), len(back.Pictures))
	}
}

// A damaged picture costs only itself, and that is said; old files have none, and nothing is said.
func TestRememberedDamaged(t *testing.T) {
	const good = `{"picture": "/tmp/a.png", "spots": [{"x": 1, "y": 2}]}`
	for _, tt := range []struct {
		what, list string
		left       int
		told       bool
	}{
		{"whole", good, 1, false},
		{"a number that is none", good + `, {"picture": "/tmp/b.png", "spots": [{"x": "far"}]}`, 1, true},
		{"a word", `"heron", ` + good, 1, true},
		{"null", `null, ` + good, 1, true},
		{"too many spots", good + `, {"picture": "/tmp/b.png", "spots": [{},{},{},{},{},{},{},{},{}]}`, 1, true},
		{"too far", good + `, {"picture": "/tmp/b.png", "spots": [{"x": 99999999, "y": 0}]}`, 1, true},
		{"an area without any", good + `, {"picture": "/tmp/b.png", "left_out": [{"x": 1, "y": 1}]}`, 1, true},
		{"borders that fall", good + `, {"picture": "/tmp/b.png", "borders": [60, 30]}`, 1, true},
		{"of nothing", good + `, {"spots": [{"x": 1, "y": 2}]}`, 1, true},
		{"of two at once", good + `, {"picture": "/tmp/b.png", "region": {"x": 0, "y": 0, "width": 9, "height": 9}, "spots": [{"x": 1, "y": 2}]}`, 1, true},
		{"no colour", good + `, {"picture": "/tmp/b.png", "left_out_colours": [{"x": 1, "y": 1, "colour": "reddish"}]}`, 1, true},
		{"twice the same", good + `, ` + good, 1, true},
		{"empty", good + `, {"picture": "/tmp/b.png"}`, 1, true},
		{"what a newer one may add", `{"picture": "/tmp/a.png", "spots": [{"x": 1, "y": 2, "name": "eye"}], "more": 1}`, 1, false},
	} {
		s, problems, err := decodeSettings([]byte(`{"version": 1, "spot_size": 5, "remembered": [` + tt.list + `]}`))
		if err != nil || len(s.Pictures) != tt.left || (len(problems) > 0) != tt.told || s.SpotSize != 5 {
			t.Errorf("%s: %d pictures, told %q, %v", tt.what, len(s.Pictures), problems, err)
		}
		if tt.told && (len(problems) != 1 || !strings.Contains(problems[0], "place their spots again")) {
			t.Errorf("%s: told %q", tt.what, problems)
		}
	}
	if s, problems, err := decodeSettings([]byte(`{"version": 1, "picture": "/tmp/a.png"}`)); err != nil || len(problems) > 0 || len(s.Pictures) > 0 {
		t.Errorf("of an old file: %+v, %q, %v", s.Pictures, problems, err)
	}
}

// A renamed window takes along what lies on it, in the place of what was remembered under the name.
func TestRememberedGoesWithTheName(t *testing.T) {
	renamed := heronWindow
	renamed.Title = "Heron, changed"
	s, was, other := Defaults(), heron(heronWindow), heron(renamed)
	other.Places = nil
	s.Pictures = s.Pictures.With(RememberedOf(other, nil, image.Point{})).With(RememberedOf(was, was.Judged, image.Pt(9, 8)))
	before := slices.Clone(s.Pictures)
	next := s.Renaming(heronWindow, renamed)
	r, ok := next.Pictures.Of(renamed)
	if _, old := next.Pictures.Of(heronWindow); !ok || old || len(next.Pictures) != 1 || len(r.Spots) != 2 || r.Size() != image.Pt(9, 8) {
		t.Errorf("renamed: %+v", next.Pictures)
	}
	if !reflect.DeepEqual(s.Pictures, before) {
		t.Error("the settings before have changed")
	}
}

// The file is its owner's alone, and has codes and places only.
func TestRememberedIsPrivate(t *testing.T) {
	path := settingsFile(t, []byte(`{}`))
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	s, was := Defaults(), heron(heronRegion)
	s.Pictures = s.Pictures.With(RememberedOf(was, was.Judged, image.Pt(440, 340)))
	k := NewKeeper(path, nil)
	k.Save(s)
	if err := k.Flush(); err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(path)
	if err != nil || info.Mode().Perm() != 0o600 && runtime.GOOS != "windows" {
		t.Errorf("%v, %v", info.Mode(), err)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var kept struct {
		Remembered []map[string]json.RawMessage
	}
	if err := json.Unmarshal(data, &kept); err != nil || len(kept.Remembered) != 1 {
		t.Fatalf("%v: %s", err, data)
	}
	known := []string{"region", "width", "height", "spots", "by_hand", "left_out", "workspace", "left_out_colours", "local_colours", "borders", "focus"}
	for name, raw := range kept.Remembered[0] {
		if !slices.Contains(known, name) || len(raw) > 600 || bytes.Contains(raw, []byte("base64")) {
			t.Errorf("kept are %s: %s", name, raw)
		}
	}
}

// BenchmarkSaveRemembered is what a change in the window costs its own goroutine with fifty full
// pictures: to be under a millisecond (our choice), since it may come with every move of a drag.
func BenchmarkSaveRemembered(b *testing.B) {
	s := Defaults()
	var was setup.Setup
	for i := range MostRemembered {
		was = heron(setup.Source{Kind: setup.SourcePicture, Path: fmt.Sprintf("/tmp/%d.png", i)})
		for range 6 {
			was.Places = append(was.Places, setup.Place{At: image.Pt(i, i)})
			was.Judged = append(was.Judged, was.Judged[0])
		}
		s.Pictures = s.Pictures.With(RememberedOf(was, was.Judged, image.Pt(9, 9)))
	}
	k := NewKeeper(settingsFile(b, nil), nil)
	b.ReportAllocs()
	for b.Loop() {
		s.Pictures = s.Pictures.With(RememberedOf(was, was.Judged, image.Pt(9, 9)))
		k.Save(s)
	}
	b.StopTimer()
	k.take()
}
