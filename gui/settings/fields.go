package settings

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strings"

	"app.tonedesk/analysis/growth"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/language"
)

// settingsVersion is the layout of the settings file that this program writes. A file with
// a higher one comes from a newer program and is never touched.
const settingsVersion = 1

// field is one setting by its name in the file.
type field struct {
	name    string
	to      func(json.RawMessage) error // reads it; leaves it alone on an error
	from    func() any
	confine func() (changed bool) // brings it into range
}

// fields lists all settings, each under its name in the file and with what it is confined to. A name
// in the file never changes, also where the window has another word by now (ground, dots, mirrored):
// nobody loses a setting.
func (s *Settings) fields() []field {
	d, r := Defaults(), &s.Rules
	mostTones := func(v float64) float64 { // least_tones is in range by then
		return between(r.LeastTones, 8, max(d.Rules.MostTones, r.LeastTones))(v)
	}
	return slices.Concat(s.measuring(), []field{
		fieldOf("ground", &s.Theme, oneOf(Themes(), d.Theme)),
		fieldOf("language", &s.Language, oneOf(append(language.All(), ""), "")),
		fieldOf("text_percent", &s.TextPercent, between(100, 200, d.TextPercent)),
		fieldOf("per_second", &s.PerSecond, orNone(between(1, 60, d.PerSecond))),
		fieldOf("tolerance", &s.Tolerance, between(0.5, 5, d.Tolerance)),
		fieldOf("like_within", &s.LikeWithin, between(0.5, 20, d.LikeWithin)),
		fieldOf("spot_size", &s.SpotSize, oneOf([]int{1, 3, 5, 11}, d.SpotSize)),
		fieldOf("groups", &s.Groups, oneOf([]int{0, 2, 3, 4}, d.Groups)),
		fieldOf("groups_without_ground", &s.NoGround, nil),
		fieldOf("too_dark", &s.TooDark, between(0, middleLightness, d.TooDark)),
		fieldOf("too_light", &s.TooLight, between(middleLightness, 100, d.TooLight)),
		fieldOf("least_tones", &r.LeastTones, between(0.5, 5, d.Rules.LeastTones)),
		fieldOf("most_tones", &r.MostTones, mostTones),
		fieldOf("least_chroma", &r.LeastChroma, between(0, 30, d.Rules.LeastChroma)), // C*ab
		fieldOf("least_turn", &r.LeastTurn, between(0, 60, d.Rules.LeastTurn)),       // degrees
		fieldOf("most_gain", &r.MostGain, between(0, 1, d.Rules.MostGain)),
		fieldOf("keeps_within", &r.KeepsWithin, between(0, 20, d.Rules.KeepsWithin)), // L*
		fieldOf("vanish_above", &r.VanishAbove, between(5, 10, d.Rules.VanishAbove)), // value
		fieldOf("dots", &s.Hatch, oneOf(AllHatch, d.Hatch)),
		fieldOf("stills_limit_mib", &s.StillsLimit, between(0, maxStillsLimit, d.StillsLimit)),
		fieldOf("keep_every_minutes", &s.KeepEvery, oneOf(KeepEvery(), d.KeepEvery)),
		fieldOf("keep_limit_mib", &s.KeepLimit, between(minKeepLimit, maxStillsLimit, d.KeepLimit)),
		fieldOf("turn_from_tones", &s.TurnFrom, between(growth.LeastTones, growth.MostTones, d.TurnFrom)),
		fieldOf("shade", &s.Shade, propose.Options.Valid),
		fieldOf("view", &s.View, knownView),
		fieldOf("knobs", &s.Knobs, confineKnobs),
		fieldOf("mirrored", &s.Flipped, nil),
		fieldOf("page", &s.Page, oneOf(pageNames, d.Page)),
		fieldOf("value_from_white", &s.FromWhite, nil),
		fieldOf("keep_above", &s.KeepAbove, nil),
		fieldOf("left_out_of_captures", &s.LeaveOut, nil),
		fieldOf("tray", &s.Tray, nil),
		fieldOf("under_pointer", &s.UnderPointer, nil),
		fieldOf("pointer_chip", &s.PointerChip, nil),
		fieldOf("region", &s.Region, sensible),
		fieldOf("window", &s.Window, confineFollowed),
		fieldOf("place", &s.Place, sensible),
		fieldOf("places", &s.Places, confinePlaces),
		fieldOf("picture", &s.Picture, plainText(maxPath, "")),
		fieldOf("before", &s.Before, confineBefore),
		fieldOf(picturesName, &s.Pictures, confinePictures),
		fieldOf("stills_in_greys", &s.GreyStills, nil),
		fieldOf("turn_seconds", &s.TurnEvery, between(LeastTurn, MostTurn, d.TurnEvery)),
		fieldOf("target_still", &s.TargetStill, plainText(maxNote, "")),
		fieldOf("target", &s.Target, plainText(maxPath, "")),
		fieldOf("keys_everywhere", &s.Everywhere, nil),
		fieldOf("keys", &s.EveryKeys, confineKeys),
		fieldOf("display", &s.Display, plainText(maxNote, d.Display)),
		fieldOf("display_colours", &s.ShownIn, confineShownIn),
		fieldOf("width", &s.Width, between(MinWidth, maxSide, d.Width)),
		fieldOf("height", &s.Height, between(MinHeight, maxSide, d.Height)),
	})
}

// fieldOf makes a field; confined returns a value in range, and is nil where all are.
func fieldOf[T any](name string, at *T, confined func(T) T) field {
	return field{
		name: name,
		to: func(raw json.RawMessage) error {
			v := *at // null leaves what isn't a pointer as it is
			if err := json.Unmarshal(raw, &v); err != nil {
				return err
			}
			*at = v
			return nil
		},
		from: func() any { return *at },
		confine: func() bool {
			if confined == nil {
				return false
			}
			was := *at
			*at = confined(was)
			return !reflect.DeepEqual(was, *at)
		},
	}
}

// between confines a number, and puts instead in the place of NaN.
func between[T int | float32 | float64](low, high, instead T) func(T) T {
	return func(v T) T {
		if math.IsNaN(float64(v)) {
			return instead
		}
		return min(max(v, low), high)
	}
}

// orNone leaves 0 as it is, beside what a range allows.
func orNone(within func(float64) float64) func(float64) float64 {
	return func(v float64) float64 {
		if v == 0 {
			return 0
		}
		return within(v)
	}
}

// oneOf puts instead in the place of what is not on offer.
func oneOf[T comparable](offered []T, instead T) func(T) T {
	return func(v T) T {
		if slices.Contains(offered, v) {
			return v
		}
		return instead
	}
}

// plainText puts instead in the place of a text that has more than limit bytes, or may not
// stand in a file's name.
func plainText(limit int, instead string) func(string) string {
	return func(text string) string {
		if len(text) > limit || strings.ContainsRune(text, 0) {
			return instead
		}
		return text
	}
}

func knownView(key string) string {
	if _, known := views.ByKey(key); known {
		return key
	}
	return Defaults().View
}

// sensible returns r, nil if it has no area that a desktop could hold.
func sensible(r *files.Rect) *files.Rect {
	if r == nil || r.Width <= 0 || r.Height <= 0 || max(r.X, r.Y, r.Width, r.Height) > maxSide || min(r.X, r.Y) < -maxSide {
		return nil
	}
	return r
}

// confineKnobs returns the knobs with those of known views within their ranges. Knobs of
// views that this program doesn't know stay, unless they are no numbers.
func confineKnobs(knobs map[string]float64) map[string]float64 {
	kept := maps.Clone(knobs)
	for key, at := range knobs {
		view, ok := views.ByKey(key)
		switch {
		case math.IsNaN(at) || math.IsInf(at, 0):
			delete(kept, key)
		case ok && view.Knob != nil:
			kept[key] = view.Knob.At(at)
		}
	}
	return kept
}

// mostDeeds and longestKey bound what is kept of keys. Our choice: a few times what there is.
const mostDeeds, longestKey = 64, 64

// confineKeys returns the keys without what can't be one. What they mean others say.
func confineKeys(keys map[string]string) map[string]string {
	if len(keys) > mostDeeds {
		return nil
	}
	kept := maps.Clone(keys)
	maps.DeleteFunc(kept, func(deed, key string) bool { return len(deed) > longestKey || len(key) > longestKey })
	return kept
}

// encode returns the bytes of the settings file, the same for the same settings.
func (s Settings) encode() ([]byte, error) {
	all := make(map[string]any, len(s.unknown)+20)
	for name, raw := range s.unknown {
		all[name] = raw
	}
	all["version"], all[editionName] = settingsVersion, defaultsEdition
	for _, f := range s.fields() {
		all[f.name] = f.from()
	}
	b, err := json.MarshalIndent(all, "", "\t") // sorts by name
	if err != nil {
		return nil, fmt.Errorf("write settings as JSON: %w", err)
	}
	return append(b, '\n'), nil
}
