package settings

import (
	"encoding/json"
	"maps"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/edges"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/focus"
	"app.tonedesk/analysis/growth"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/language"
)

// Settings are what the window remembers. The zero value is not valid; begin with Defaults.
type Settings struct {
	Theme        Theme
	Language     language.Language  // that the window speaks, from the next start on; "" for the system's
	TextPercent  int                // how large the window's text is, 100 to 200
	PerSecond    float64            // frames asked for a second, 1 to 60; 0: as many as a fifth of a core affords
	Tolerance    float64            // difference in lightness (L*) that still counts as the same, 0.5 to 5
	LikeWithin   float64            // distance in L*a*b* up to which a colour is left out with the one clicked, 0.5 to 20
	SpotSize     int                // side of a spot's square in pixels: 1, 3, 5 or 11
	Groups       int                // 0 automatic, else 2, 3 or 4
	NoGround     bool               // groups are of the picture without the ground
	TooDark      float64            // lightness (L*) under which a pixel is too dark, 0 to 50
	TooLight     float64            // and over which it is too light, 50 to 100
	Hatch        Hatch              // where pixels beyond these are hatched
	Rules        families.Rules     // the trade's limits for families, as the painter set them
	Light        light.Options      // by which shadows agree, and forms with the light's direction
	Edges        edges.Options      // by which edges are lost, but for their tones: see Melting
	Focus        focus.Options      // by which places have contrast
	StillsLimit  int                // most that stills may take on the disk, MiB; 0 for no limit
	KeepEvery    int                // minutes after which a changed picture is kept by itself; 0 for never
	KeepLimit    int                // most that stills may take that were kept so, MiB
	TurnFrom     float64            // tones from which a line over stills has turned, 0.2 to 2
	Shade        propose.Options    // how colours to paint next are made
	View         string             // key of a view
	Knobs        map[string]float64 // where the views' knobs stand, by key; never written to once set
	Flipped      bool               // left and right exchanged
	Page         string             // name of the page that is open
	FromWhite    bool               // values count from white: 0 is white, 10 is black
	KeepAbove    bool               // above other windows
	LeaveOut     bool               // pictures of the screen hold what lies beneath the window, where the system offers that
	Tray         bool               // an entry in the desktop's tray, from the next start on
	UnderPointer bool               // what lies under the pointer is read anywhere on the screen
	PointerChip  bool               // and shown beside the pointer too
	Region       *files.Rect        // watched part of the desktop in its pixels; nil if none was chosen
	Window       *Followed          // followed window; nil if none, and else the region stays for another time
	Picture      string             // path of the picture file shown instead of a region; "" if none
	Before       []Watched          // what was watched last, the newest first; never written to
	Pictures     Pictures           // what lies on pictures that were watched
	GreyStills   bool               // small pictures of stills are in greys
	TurnEvery    float64            // seconds for which each of two pictures in turns is shown
	Target       string             // path of the target's file; "" if none
	TargetStill  string             // ID of the still that is the target; "" if none
	Place        *files.Rect        // the window's inside on the desktop, in its pixels; nil if unknown
	Places       []Placed           // the same by arrangement of screens, the newest first; never written to
	Width        float32            // the window's inside in Fyne units
	Height       float32
	Everywhere   bool               // its keys work in every program
	EveryKeys    map[string]string  // which they are, by deed; a deed that isn't there has its own, "" is none; never written to once set
	Display      string             // note on the colour space the display is taken to have, where ShownIn says nothing
	ShownIn      map[string]Colours // in which colours each display shows what it is given, by its name, "" for those without one; never written to once set

	unknown map[string]json.RawMessage // fields of others, written back as they were
}

// Limits of the settings.
const (
	MinWidth, MinHeight = 320, 480 // the least window that shows everything
	maxSide             = 1 << 16  // no desktop or window is wider or higher, in any unit
	maxPath             = 1 << 15  // bytes of a path: Windows' limit, the longest there is
	maxStillsLimit      = 1 << 20  // MiB: a terabyte
	minKeepLimit        = 64       // MiB: a few stills of a large screen
	maxNote             = 1 << 10  // bytes of the note on the display
	middleLightness     = 50       // L*: up to here something can be too dark, from here too light
)

// LeastTurn and MostTurn are for how many seconds each of two pictures in turns is shown: faster
// they would flash (WCAG 2.2, 2.3.1); slower is our choice.
const LeastTurn, MostTurn = 0.4, 3

// Theme is the grey around everything: how light the window is as a whole. Painters
// choose it near the picture's own key, since a light surround makes a picture look darker.
type Theme string

const (
	ThemeDark   Theme = "dark" // the default
	ThemeMiddle Theme = "middle"
	ThemeLight  Theme = "light"
	// ThemeContrast is for eyes that need it: almost black, with white words and outlines.
	ThemeContrast Theme = "contrast"
)

// Themes returns all of them, the grounds from dark to light first.
func Themes() []Theme { return []Theme{ThemeDark, ThemeMiddle, ThemeLight, ThemeContrast} }

// Hatch says where the pixels beyond the limits are hatched in the mirror.
type Hatch string

const (
	HatchStructure Hatch = "structure" // while the structure page is open: the default
	HatchAlways    Hatch = "always"
	HatchNever     Hatch = "never"
)

var AllHatch = []Hatch{HatchStructure, HatchAlways, HatchNever}

// The names of the window's pages.
const (
	PageWatch     = "Watch"
	PageStructure = "Structure"
	PageColours   = "Colours"
	PageStills    = "Stills"
)

var pageNames = []string{PageWatch, PageStructure, PageColours, PageStills}

// ViewGrey is the key of the view shown first.
const ViewGrey = "grey"

// Defaults returns the settings of the first start.
func Defaults() Settings {
	return Settings{
		Theme:       ThemeDark,
		TextPercent: 100,
		PerSecond:   10,
		Tolerance:   2,
		LikeWithin:  3, // our choice: the grain of a saved picture, less than one tells at a glance
		SpotSize:    3,
		TooDark:     analysis.DefaultLimits.Dark,
		TooLight:    analysis.DefaultLimits.Light,
		Hatch:       HatchStructure,
		Rules:       families.DefaultRules(),
		StillsLimit: 2048,
		KeepLimit:   512,
		Light:       light.DefaultOptions(),
		Edges:       edges.DefaultOptions(),
		Focus:       focus.DefaultOptions(),
		TurnFrom:    growth.DefaultRules().Tones,
		TurnEvery:   1,
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
func (s *Settings) confine() (changed []string) {
	for _, f := range s.fields() {
		if f.confine() {
			changed = append(changed, f.name)
		}
	}
	return changed
}

// Clone returns a copy that shares nothing that may change.
func (s Settings) Clone() Settings {
	if s.Region != nil {
		r := *s.Region
		s.Region = &r
	}
	if s.Window != nil {
		s.Window = s.Window.clone()
	}
	if s.Place != nil {
		p := *s.Place
		s.Place = &p
	}
	return s // unknown is never written to after loading
}

// Limits are the limits of lightness that the painter set.
func (s Settings) Limits() analysis.Limits {
	return analysis.Limits{Dark: s.TooDark, Light: s.TooLight}
}

// Grouping is how the painter wants pictures split into groups.
func (s Settings) Grouping() analysis.Options {
	return analysis.Options{Groups: s.Groups, WithoutGround: s.NoGround}
}

// Melting returns by what edges are lost, by the tones of their view's knob.
func (s Settings) Melting() edges.Options { return s.Edges.WithTones(s.Knobs[views.LostEdges]) }

// Knob returns where a view's knob stands.
func (s Settings) Knob(view views.View) float64 {
	if view.Knob == nil {
		return 0
	}
	if at, ok := s.Knobs[view.Key]; ok {
		return at
	}
	return view.Knob.Start
}

// WithKnob returns the settings with a view's knob elsewhere.
func (s Settings) WithKnob(view string, at float64) Settings {
	knobs := maps.Clone(s.Knobs)
	if knobs == nil {
		knobs = make(map[string]float64)
	}
	knobs[view] = at
	s.Knobs = knobs
	return s
}

// KeyOf returns the key of a deed that works in every program, "" for none; plain is what it has
// where the painter has chosen none.
func (s Settings) KeyOf(deed, plain string) string {
	if key, ok := s.EveryKeys[deed]; ok {
		return key
	}
	return plain
}

// WithKey returns the settings with another key of a deed.
func (s Settings) WithKey(deed, key string) Settings {
	keys := maps.Clone(s.EveryKeys)
	if keys == nil {
		keys = make(map[string]string)
	}
	keys[deed] = key
	s.EveryKeys = keys
	return s
}

// KeepEvery lists after how many minutes a changed picture may be kept by itself (our choice).
func KeepEvery() []int { return []int{0, 1, 2, 5, 10, 15, 30, 60} }

// Room is how much room stills may take that are kept by themselves, and all of them.
func (s Settings) Room() (automatic, all int64) { return int64(s.KeepLimit) << 20, s.LimitBytes() }

// LimitBytes is how much room stills may take, in bytes; 0 for as much as they need.
func (s Settings) LimitBytes() int64 { return int64(s.StillsLimit) << 20 }

// Hatched reports whether the pixels beyond the limits are hatched while the page of the
// settings is open.
func (s Settings) Hatched() bool {
	return s.Hatch == HatchAlways || s.Hatch == HatchStructure && s.Page == PageStructure
}
