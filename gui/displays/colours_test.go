package displays

import (
	"context"
	"errors"
	"image"
	"os"
	"path/filepath"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
	_ "app.tonedesk/analysis/lawtest"
	"app.tonedesk/analysis/profile"
	"app.tonedesk/capture"
	"app.tonedesk/capture/monitors"
	"app.tonedesk/capture/xconn"
	"app.tonedesk/gui/settings"
)

// desktop is a system of two monitors, with the profiles that it keeps by their names.
type desktop struct {
	profiles map[string][]byte
	err      error
	asked    int
}

func (d *desktop) colours() *Colours {
	return New(System{
		List: func(context.Context) ([]monitors.Monitor, error) {
			d.asked++
			return []monitors.Monitor{
				{Name: "left", Rect: image.Rect(0, 0, 100, 100)}, {Name: "right", Rect: image.Rect(100, 0, 200, 100)},
			}, d.err
		},
		Profile: func(_ context.Context, m monitors.Monitor) ([]byte, error) {
			if data, ok := d.profiles[m.Name]; ok {
				return data, d.err
			}
			return nil, monitors.ErrNone
		},
	})
}

func chosen(display string, c settings.Colours) settings.Settings {
	return settings.Defaults().WithColours(display, c)
}

// What counts is the monitor that most of a region lies on, and what was chosen for that.
func TestColoursOfTheMonitor(t *testing.T) {
	file := filepath.Join(t.TempDir(), "a98.icc")
	if err := os.WriteFile(file, profile.Write(colour.AdobeRGB), 0o600); err != nil {
		t.Fatal(err)
	}
	inks := profile.Write(colour.DisplayP3)
	copy(inks[16:], "CMYK")
	onLeft, onRight := image.Rect(0, 0, 110, 10), image.Rect(90, 0, 150, 10)
	own := settings.Colours{In: settings.ColoursOwn}
	for _, tt := range []struct {
		name string
		s    settings.Settings
		part image.Rectangle
		want *colour.Space
		err  error
	}{
		{"nothing chosen", settings.Defaults(), onLeft, nil, nil},
		{"another monitor's choice", chosen("right", settings.Colours{In: "Rec. 2020"}), onLeft, nil, nil},
		{"its own choice", chosen("right", settings.Colours{In: "Rec. 2020"}), onRight, colour.Rec2020, nil},
		{"one for all", chosen("", settings.Colours{In: "gamma 2.2"}), onRight, colour.Gamma22, nil},
		{"sRGB by its name", chosen("left", settings.Colours{In: "sRGB"}), onLeft, nil, nil},
		{"its own profile", chosen("left", own), onLeft, colour.DisplayP3, nil},
		{"its own profile, of inks", chosen("right", own), onRight, nil, profile.ErrOther},
		{"a profile of what has no place", chosen("", own), image.Rectangle{}, nil, monitors.ErrNone},
		{"a file", chosen("", settings.Colours{In: settings.ColoursFile, File: file}), image.Rectangle{}, colour.AdobeRGB, nil},
		{"no such file", chosen("", settings.Colours{In: settings.ColoursFile, File: file + "s"}), onLeft, nil, os.ErrNotExist},
	} {
		t.Run(tt.name, func(t *testing.T) {
			d := desktop{profiles: map[string][]byte{"left": profile.Write(colour.DisplayP3), "right": inks}}
			c := d.colours()
			c.Choose(tt.s)
			got := c.find(t.Context(), capture.Place{Part: tt.part})
			if got.Space != tt.want || !errors.Is(got.Err, tt.err) || tt.err == nil && got.Err != nil {
				t.Errorf("%s, %v; want %s, %v", got.Space.Title(), got.Err, tt.want.Title(), tt.err)
			}
		})
	}
}

// Of what the desktop shares the monitor counts that the part lies on; where it is measured otherwise
// than the monitors are, as on a desktop that scales, none does.
func TestColoursOfWhatIsShared(t *testing.T) {
	left, right, both := image.Rect(0, 0, 100, 100), image.Rect(100, 0, 200, 100), image.Rect(0, 0, 200, 100)
	for name, tt := range map[string]struct {
		at      capture.Place
		monitor string
		want    *colour.Space
	}{
		"a screen":                   {capture.Place{Whole: right, Part: right}, "right", colour.Rec2020},
		"the other":                  {capture.Place{Whole: left, Part: image.Rect(10, 10, 40, 40)}, "left", colour.DisplayP3},
		"the right of all screens":   {capture.Place{Whole: both, Part: image.Rect(90, 10, 190, 40)}, "right", colour.Rec2020},
		"the left of all screens":    {capture.Place{Whole: both, Part: image.Rect(10, 10, 120, 40)}, "left", colour.DisplayP3},
		"measured otherwise":         {capture.Place{Whole: image.Rect(50, 0, 100, 50), Part: image.Rect(50, 0, 100, 50)}, "", colour.Gamma22},
		"a window, which isn't told": {capture.Place{}, "", colour.Gamma22},
	} {
		d := desktop{}
		c := d.colours()
		s := chosen("left", settings.Colours{In: "Display P3"}).WithColours("right", settings.Colours{In: "Rec. 2020"}).WithColours("", settings.Colours{In: "gamma 2.2"})
		c.Choose(s)
		if got := c.find(t.Context(), tt.at); got.Monitor != tt.monitor || got.Space != tt.want {
			t.Errorf("%s: %q in %s, want %q in %s", name, got.Monitor, got.Space.Title(), tt.monitor, tt.want.Title())
		}
	}
}

// frames is a stream whose every frame is new.
type frames struct{}

func (frames) Grab(_ context.Context, f *capture.Frame) (bool, error) {
	*f = capture.Frame{Size: image.Pt(1, 1), Stride: 4, Pix: make([]byte, 4)}
	return true, nil
}
func (frames) Close() error { return nil }

// All frames of a stream have one space, also when another is chosen meanwhile: then the source is to
// be opened anew, once. Of the same profile the space is the same, with its tables; and a display that
// doesn't answer leaves what was known.
func TestAStreamHasOneSpace(t *testing.T) {
	d := desktop{profiles: map[string][]byte{"left": profile.Write(colour.Rec2020)}}
	c := d.colours()
	anew := 0
	c.Changed = func(_ State, again bool) {
		if again {
			anew++
		}
	}
	c.Choose(chosen("left", settings.Colours{In: "Display P3"}))
	s := c.Of(frames{}, func() capture.Place { return capture.Place{Part: image.Rect(0, 0, 10, 10)} })
	grab := func() any {
		var f capture.Frame
		if _, err := s.Grab(t.Context(), &f); err != nil {
			t.Fatal(err)
		}
		return f.Space
	}
	if got := grab(); got != any(colour.DisplayP3) || anew != 0 {
		t.Fatalf("the first frame is in %v; %d times anew", got, anew)
	}
	asked := d.asked
	for range 3 {
		if got := grab(); got != any(colour.DisplayP3) || d.asked != asked {
			t.Errorf("a later frame is in %v, or asks the system", got)
		}
	}
	c.Choose(chosen("left", settings.Colours{In: settings.ColoursOwn}))
	c.look(t.Context())
	c.look(t.Context())
	if got := grab(); got != any(colour.DisplayP3) || anew != 1 || c.Now().Space != colour.Rec2020 {
		t.Errorf("the stream of before is in %v, now is %s; %d times anew", got, c.Now().Space.Title(), anew)
	}
	d.err = xconn.ErrNotAnswering
	c.until = c.until.Add(-2 * lookEvery)
	c.look(t.Context())
	if c.Now().Space != colour.Rec2020 || c.Now().Err != nil || anew != 1 {
		t.Errorf("while it doesn't answer it is %+v", c.Now())
	}
	d.err = nil
	c.Elsewhere()
	c.look(t.Context())
	if c.Now() != (State{}) || anew != 1 {
		t.Errorf("of a picture file it says %+v", c.Now())
	}
}

// Whatever the desktop keeps as a profile, it is a space or an error, and the same for the same bytes.
func TestAnyBytesAsAProfile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		data := profile.Write(rapid.SampledFrom(colour.Spaces()).Draw(t, "space"))
		for range rapid.IntRange(0, 8).Draw(t, "faults") {
			data[rapid.IntRange(0, len(data)-1).Draw(t, "at")] = rapid.Byte().Draw(t, "byte")
		}
		d := desktop{profiles: map[string][]byte{"left": data[:rapid.IntRange(0, len(data)).Draw(t, "length")]}}
		c := d.colours()
		c.Choose(chosen("left", settings.Colours{In: settings.ColoursOwn}))
		first := c.find(context.Background(), capture.Place{Part: image.Rect(0, 0, 9, 9)})
		again := c.find(context.Background(), capture.Place{Part: image.Rect(0, 0, 9, 9)})
		if first.Space != again.Space || first.Err != again.Err || first.Err != nil && first.Space != nil {
			t.Errorf("%+v, then %+v", first, again)
		}
	})
}
