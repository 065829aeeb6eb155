package settings

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/files"
)

// settingsVersion is the layout of the settings file that this program writes. A file with
// a higher one comes from a newer program and is never touched.
const settingsVersion = 1

// Settings are what the window remembers. The zero value is not valid; begin with Defaults.
type Settings struct {
	Ground      Ground
	PerSecond   float64            // frames asked for a second, 1 to 60
	Tolerance   float64            // difference in lightness (L*) that still counts as the same, 0.5 to 5
	SpotSize    int                // side of a spot's square in pixels: 1, 3, 5 or 11
	Groups      int                // 0 automatic, else 2, 3 or 4
	TooDark     float64            // lightness (L*) under which a pixel is too dark, 0 to 50
	TooLight    float64            // and over which it is too light, 50 to 100
	Dots        Dots               // where pixels beyond these are dotted
	Rules       families.Rules     // the trade's limits for families, as the painter set them
	StillsLimit int                // most that stills may take on the disk, MiB; 0 for no limit
	Shade       propose.Options    // how colours to paint next are made
	View        string             // key of a view
	Knobs       map[string]float64 // where the views' knobs stand, by key; never written to once set
	Mirrored    bool               // left and right exchanged
	Page        string             // name of the page that is open
	FromWhite   bool               // values count from white: 0 is white, 10 is black
	KeepAbove   bool               // above other windows
	Region      *files.Rect        // watched part of the desktop in its pixels; nil if none was chosen
	Picture     string             // path of the picture file shown instead of a region; "" if none
	Target      string             // path of the target's file; "" if none
	TargetStill string             // ID of the still that is the target; "" if none
	Place       *files.Rect        // the window's inside on the desktop, in its pixels; nil if unknown
	Width       float32            // the window's inside in Fyne units
	Height      float32
	Display     string // note on the colour space the display is taken to have

	unknown map[string]json.RawMessage // fields of others, written back as they were
}

// Limits of the settings.
const (
	minPerSecond, maxPerSecond = 1.0, 60.0
	minTolerance, maxTolerance = 0.5, 5.0
	MinWidth, MinHeight        = 320, 480 // the least window that shows everything
	maxSide                    = 1 << 16  // no desktop or window is wider or higher, in any unit
	maxPath                    = 1 << 15  // bytes of a path: Windows' limit, the longest there is
	maxStillsLimit             = 1 << 20  // MiB: a terabyte
	maxNote                    = 1 << 10  // bytes of the note on the display
)

// The names of the window's pages.
const (
	PageWatch     = "Watch"
	PageStructure = "Structure"
	PageColours   = "Colours"
	PageStills    = "Stills"
)

// PageNames returns them in the order of their tabs.
func PageNames() []string { return []string{PageWatch, PageStructure, PageColours, PageStills} }

// ViewGrey is the key of the view shown first.
const ViewGrey = "grey"

// Defaults returns the settings of the first start.
func Defaults() Settings {
	return Settings{
		Ground:      GroundDark,
		PerSecond:   10,
		Tolerance:   2,
		SpotSize:    3,
		TooDark:     analysis.DefaultLimits.Dark,
		TooLight:    analysis.DefaultLimits.Light,
		Dots:        DotsStructure,
		Rules:       families.DefaultRules(),
		StillsLimit: 2048,
		Shade:       propose.DefaultOptions(),
		View:        ViewGrey,
		Page:        PageWatch,
		Width:       380,
		Height:      760,
		Display:     "sRGB",
	}
}

// Valid returns s with everything that is out of range brought back into it.
func (s Settings) Valid() Settings {
	s.confine()
	return s
}

// confine brings everything into range and returns the names of the fields it changed.
func (s *Settings) confine() []string {
	var changed []string
	d := Defaults()
	mend := func(name string, ok bool, repair func()) {
		if !ok {
			repair()
			changed = append(changed, name)
		}
	}
	mend("ground", slices.Contains(Grounds(), s.Ground), func() { s.Ground = d.Ground })
	mend("per_second", within(s.PerSecond, minPerSecond, maxPerSecond),
		func() { s.PerSecond = confined(s.PerSecond, minPerSecond, maxPerSecond, d.PerSecond) })
	mend("tolerance", within(s.Tolerance, minTolerance, maxTolerance),
		func() { s.Tolerance = confined(s.Tolerance, minTolerance, maxTolerance, d.Tolerance) })
	mend("spot_size", slices.Contains([]int{1, 3, 5, 11}, s.SpotSize), func() { s.SpotSize = d.SpotSize })
	mend("groups", slices.Contains([]int{0, 2, 3, 4}, s.Groups), func() { s.Groups = d.Groups })
	s.confineTrade(mend)
	mend("stills_limit", s.StillsLimit >= 0 && s.StillsLimit <= maxStillsLimit,
		func() { s.StillsLimit = min(max(s.StillsLimit, 0), maxStillsLimit) })
	shade := s.Shade.Valid()
	mend("shade", shade == s.Shade, func() { s.Shade = shade })
	_, known := views.ByKey(s.View)
	mend("view", known, func() { s.View = d.View })
	knobs := confineKnobs(s.Knobs)
	mend("knobs", maps.Equal(knobs, s.Knobs), func() { s.Knobs = knobs })
	mend("page", slices.Contains(PageNames(), s.Page), func() { s.Page = d.Page })
	mend("region", sensible(s.Region), func() { s.Region = nil })
	mend("place", sensible(s.Place), func() { s.Place = nil })
	mend("picture", plainText(s.Picture, maxPath), func() { s.Picture = "" })
	mend("target_still", plainText(s.TargetStill, maxNote), func() { s.TargetStill = "" })
	mend("target", plainText(s.Target, maxPath), func() { s.Target = "" })
	mend("display", plainText(s.Display, maxNote), func() { s.Display = d.Display })
	mend("width", within(float64(s.Width), MinWidth, maxSide),
		func() { s.Width = float32(confined(float64(s.Width), MinWidth, maxSide, float64(d.Width))) })
	mend("height", within(float64(s.Height), MinHeight, maxSide),
		func() { s.Height = float32(confined(float64(s.Height), MinHeight, maxSide, float64(d.Height))) })
	return changed
}

// sensible reports whether r is absent or has an area that a desktop could hold.
func sensible(r *files.Rect) bool {
	if r == nil {
		return true
	}
	for _, n := range []int{r.X, r.Y, r.Width, r.Height} {
		if n < -maxSide || n > maxSide {
			return false
		}
	}
	return r.Width > 0 && r.Height > 0
}

// within reports whether low <= v <= high; NaN isn't.
func within(v, low, high float64) bool { return low <= v && v <= high }

// confined returns v within low and high, and instead for NaN.
func confined(v, low, high, instead float64) float64 {
	if math.IsNaN(v) {
		return instead
	}
	return min(max(v, low), high)
}

// plainText reports whether s is at most limit bytes long and may stand in a file's name.
func plainText(s string, limit int) bool { return len(s) <= limit && !strings.ContainsRune(s, 0) }

// Clone returns a copy that shares nothing that may change.
func (s Settings) Clone() Settings {
	if s.Region != nil {
		r := *s.Region
		s.Region = &r
	}
	if s.Place != nil {
		p := *s.Place
		s.Place = &p
	}
	return s // unknown is never written to after loading
}

// field is one setting by its name in the file.
type field struct {
	name string
	to   func(json.RawMessage) error // reads it; leaves it alone on an error
	from func() any
}

// fields lists all settings, each under its name in the file.
func (s *Settings) fields() []field {
	return []field{
		fieldOf("ground", &s.Ground),
		fieldOf("per_second", &s.PerSecond),
		fieldOf("tolerance", &s.Tolerance),
		fieldOf("spot_size", &s.SpotSize),
		fieldOf("groups", &s.Groups),
		fieldOf("stills_limit_mib", &s.StillsLimit),
		fieldOf("shade", &s.Shade),
		fieldOf("too_dark", &s.TooDark),
		fieldOf("too_light", &s.TooLight),
		fieldOf("dots", &s.Dots),
		fieldOf("least_tones", &s.Rules.LeastTones),
		fieldOf("most_tones", &s.Rules.MostTones),
		fieldOf("least_chroma", &s.Rules.LeastChroma),
		fieldOf("least_turn", &s.Rules.LeastTurn),
		fieldOf("most_gain", &s.Rules.MostGain),
		fieldOf("keeps_within", &s.Rules.KeepsWithin),
		fieldOf("vanish_above", &s.Rules.VanishAbove),
		fieldOf("view", &s.View),
		fieldOf("knobs", &s.Knobs),
		fieldOf("mirrored", &s.Mirrored),
		fieldOf("page", &s.Page),
		fieldOf("value_from_white", &s.FromWhite),
		fieldOf("keep_above", &s.KeepAbove),
		fieldOf("region", &s.Region),
		fieldOf("picture", &s.Picture),
		fieldOf("target", &s.Target),
		fieldOf("target_still", &s.TargetStill),
		fieldOf("place", &s.Place),
		fieldOf("width", &s.Width),
		fieldOf("height", &s.Height),
		fieldOf("display", &s.Display),
	}
}

func fieldOf[T any](name string, at *T) field {
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
	}
}

// encode returns the bytes of the settings file, the same for the same settings.
func (s Settings) encode() ([]byte, error) {
	all := make(map[string]any, len(s.unknown)+20)
	for name, raw := range s.unknown {
		all[name] = raw
	}
	all["version"] = settingsVersion
	for _, f := range s.fields() {
		all[f.name] = f.from()
	}
	b, err := json.MarshalIndent(all, "", "\t") // sorts by name
	if err != nil {
		return nil, fmt.Errorf("write settings as JSON: %w", err)
	}
	return append(b, '\n'), nil
}
