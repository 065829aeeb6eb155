package stills

import (
	"encoding/json"
	"fmt"
	"image"
	"maps"
	"math"
	"strings"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/setup"
)

// Version is the layout of stills that this program writes.
const Version = 1

// Meta is what is known of a still beside its picture and its notes.
type Meta struct {
	Name    string    `json:"name"` // what the painter calls it; may be empty
	Time    time.Time `json:"time"` // when it was kept; stills stand in this order
	Source  Source    `json:"source"`
	Display string    `json:"display"` // the colour space that the display was taken to have
	Width   int       `json:"width"`   // pixels
	Height  int       `json:"height"`
	LeftOut LeftOut   `json:"left_out"`
	Reading Figures   `json:"reading"`
	Notes   Summary   `json:"notes"`

	LocalColours []LocalColour `json:"local_colours,omitempty"` // that were kept or refused
	Focus        []PlaceAt     `json:"focus,omitempty"`         // where the eye should go
	Automatic    bool          `json:"automatic,omitempty"`     // kept by the program itself, and not worked on since
}

// Source says where a still's picture came from.
type Source struct {
	Kind string `json:"kind"`           // one of the below, or what a newer program knows
	Path string `json:"path,omitempty"` // of a picture file; of a window, its program's class
	// Region is the part of the desktop, of the window's inside or of the picture file, in its pixels.
	Region files.Rect `json:"region"`
}

// The kinds of sources.
const (
	FromScreen  = "screen"
	FromWindow  = "window"
	FromPicture = "picture"
	FromDemo    = "demo"
)

// kinds are how stills call the kinds of sources.
var kinds = map[setup.SourceKind]string{
	setup.SourceDemo: FromDemo, setup.SourcePicture: FromPicture, setup.SourceRegion: FromScreen, setup.SourceWindow: FromWindow, setup.SourceShared: FromScreen,
}

// SourceOf is what a picture with those bounds was taken of, as a still names it.
func SourceOf(from setup.Source, bounds image.Rectangle) Source {
	path := from.Path
	if from.Kind == setup.SourceWindow {
		path = from.Class // titles change with what is open, and may say more than is to be kept
	}
	return Source{Kind: kinds[from.Kind], Path: path, Region: files.RectOf(bounds)}
}

// Meets reports whether two sources show the same, or parts of it that overlap.
func (s Source) Meets(o Source) bool {
	return s.Kind == o.Kind && s.Path == o.Path && s.Region.Rectangle().Overlaps(o.Region.Rectangle())
}

// LeftOut is what of the picture was not counted.
type LeftOut struct {
	Areas     []files.Rect `json:"areas"`     // in the picture's pixels
	Lightness [][2]int     `json:"lightness"` // ranges of bins, first and last; bin i holds the L* whose colour.BinOf is i
	Colours   []LeftColour `json:"colours,omitempty"`
}

// LeftColour is a colour that was not counted where it hangs together with a place or with the
// picture's border: an analysis.Seed.
type LeftColour struct {
	X      int        `json:"x"` // pixel of the picture
	Y      int        `json:"y"`
	Colour colour.RGB `json:"colour"`
	Within float64    `json:"within"` // distance in L*a*b*
}

// LeftOutOf returns what out leaves out; nil leaves out nothing.
func LeftOutOf(out *analysis.Mask) LeftOut {
	l := LeftOut{Areas: []files.Rect{}, Lightness: [][2]int{}}
	if out == nil {
		return l
	}
	for _, area := range out.Areas {
		l.Areas = append(l.Areas, files.RectOf(area))
	}
	for bin, left := range out.Lightness {
		if last := len(l.Lightness) - 1; left && last >= 0 && l.Lightness[last][1] == bin-1 {
			l.Lightness[last][1] = bin
		} else if left {
			l.Lightness = append(l.Lightness, [2]int{bin, bin})
		}
	}
	if out.Grown != nil {
		for _, s := range out.Grown.Seeds {
			at := s.At.Add(out.At)
			l.Colours = append(l.Colours, LeftColour{at.X, at.Y, s.Colour, s.Within})
		}
	}
	return l
}

// seeds returns the colours as the analysis has them, no more than it takes.
func (l LeftOut) seeds() (seeds []analysis.Seed) {
	for _, c := range l.Colours[:min(len(l.Colours), analysis.MostSeeds)] {
		seeds = append(seeds, analysis.Seed{At: image.Pt(c.X, c.Y), Colour: c.Colour, Within: c.Within})
	}
	return seeds
}

// Mask returns the same for the analysis of the picture; nil if nothing is left out.
func (l LeftOut) Mask(picture analysis.Pixels) *analysis.Mask {
	out := l.byRule()
	if out != nil {
		out.Grown = analysis.Grow(picture, out.Areas, l.seeds())
	}
	return out
}

// byRule is Mask without what is grown.
func (l LeftOut) byRule() *analysis.Mask {
	if len(l.Areas) == 0 && len(l.Lightness) == 0 && len(l.Colours) == 0 {
		return nil
	}
	out := new(analysis.Mask)
	for _, area := range l.Areas {
		out.Areas = append(out.Areas, area.Rectangle())
	}
	for _, r := range l.Lightness {
		for bin := max(r[0], 0); bin <= min(r[1], 255); bin++ {
			out.Lightness[bin] = true
		}
	}
	return out
}

// Parts are the parts that are left out as a setup has them, in the picture's pixels.
func (l LeftOut) Parts() (out setup.Out) {
	for _, a := range l.Areas {
		out.Areas = append(out.Areas, a.Rectangle())
	}
	out.Seeds = l.seeds()
	const reach = setup.ToneReach * colour.BinsPerLightness
	for _, r := range LeftOutOf(l.byRule()).Lightness { // each bin once: a file may tell of any
		for bin := float64(r[0]) + reach; ; bin += 2 * reach {
			out.Tones = append(out.Tones, min(bin, float64(r[1])-reach)/colour.BinsPerLightness)
			if bin+reach >= float64(r[1]) {
				break
			}
		}
	}
	return out
}

// Figures are the key figures of a still's reading, as desk read has them. A figure that
// isn't there is nil.
type Figures struct {
	Lightness    Lightness        `json:"lightness"`
	Groups       []analysis.Group `json:"groups"` // dark to light
	Separability *float64         `json:"separability"`
	Gaps         []float64        `json:"gaps"` // tones, dark to light
	Murk         *float64         `json:"murk"` // share, 0 to 1
	Key          *analysis.Key    `json:"key"`
	// GroundShare is the share of the counted pixels, 0 to 1, that the groups are without, as the
	// ground; nil where they are of all that is counted.
	GroundShare *float64 `json:"ground_share"`
}

// Lightness holds figures in L*.
type Lightness struct {
	Mean *float64 `json:"mean"`
	P1   *float64 `json:"p1"`
	P50  *float64 `json:"p50"`
	P99  *float64 `json:"p99"`
}

// FiguresOf takes the key figures out of a reading. It holds on to none of it.
func FiguresOf(r *analysis.Reading) Figures {
	split := r.Chosen()
	f := Figures{
		Lightness:    Lightness{Known(r.Mean), Known(r.P1), Known(r.P50), Known(r.P99)},
		Groups:       append([]analysis.Group{}, split.Groups()...),
		Separability: Known(split.Separability),
		Gaps:         append([]float64{}, split.Gaps()...),
		Murk:         Known(split.Murk),
	}
	if key := r.Key; key != "" {
		f.Key = &key
	}
	if r.Ground == analysis.GroundLeftOut {
		f.GroundShare = Known(r.GroundShare())
	}
	return f
}

// Known returns v, nil if it is not a number.
func Known(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}

// Summary is what the list shows of a still's notes.
type Summary struct {
	Count int      `json:"count"`
	Texts []string `json:"texts"` // what is written on it, for the search
}

// MostName is how many letters a still's name may have (our choice).
const MostName = 200

// CutName returns a name as it is shown and compared: without the space around it, and cut
// where somebody else wrote a longer one.
func CutName(name string) string {
	name = strings.TrimSpace(name)
	n := 0
	for at := range name {
		if n++; n > MostName {
			return strings.TrimSpace(name[:at]) + "…"
		}
	}
	return name
}

// metaFile is still.json as read, with what a newer program added.
type metaFile struct {
	Meta
	unknown map[string]json.RawMessage
	name    string // as it was read: it stays so while the one that is shown does
}

// encode writes still.json.
func (m metaFile) encode() ([]byte, error) {
	if m.Name == CutName(m.name) {
		m.Name = m.name
	}
	known, err := fieldsOf(m.Meta)
	if err != nil {
		return nil, err
	}
	all := map[string]json.RawMessage{}
	maps.Copy(all, m.unknown)
	maps.Copy(all, known)
	all["version"] = json.RawMessage(fmt.Sprint(Version))
	text, err := json.MarshalIndent(all, "", "  ") // sorted by name
	return append(text, '\n'), err
}

// fieldsOf returns the fields of v as JSON.
func fieldsOf(v any) (map[string]json.RawMessage, error) {
	text, err := json.Marshal(v)
	if err != nil {
		return nil, err
	}
	fields := map[string]json.RawMessage{}
	return fields, json.Unmarshal(text, &fields)
}

// maxMeta bounds what is read as still.json, in bytes; ours have one or two thousand and
// the texts of the notes.
const maxMeta = 16 << 20

// maxPixels bounds a still's picture, as picture files are bounded.
const maxPixels = 100_000_000

// maxPicture bounds the file of a still's picture, in bytes: 16 bits a channel with what
// deflate adds to what it can't shrink, and room for what a PNG may carry beside.
func (m Meta) maxPicture() int64 {
	const perPixel, beside = 8 + 1, 64 << 20
	return perPixel*int64(m.Width+1)*int64(m.Height) + beside
}

// decodeMeta reads still.json. The error wraps ErrDamaged or ErrNewer.
func decodeMeta(text []byte) (metaFile, error) {
	if len(text) > maxMeta {
		return metaFile{}, fmt.Errorf("still.json of more than %d bytes: %w", maxMeta, ErrDamaged)
	}
	var m metaFile
	var fields map[string]json.RawMessage
	if err := json.Unmarshal(text, &fields); err != nil || fields == nil {
		return metaFile{}, fmt.Errorf("still.json is no JSON object: %w", ErrDamaged)
	}
	var version int
	if err := json.Unmarshal(fields["version"], &version); err != nil || version < 1 {
		return metaFile{}, fmt.Errorf("still.json has no version: %w", ErrDamaged)
	}
	if version > Version {
		return metaFile{}, fmt.Errorf("still.json has version %d, known up to %d: %w", version, Version, ErrNewer)
	}
	if err := json.Unmarshal(text, &m.Meta); err != nil {
		return metaFile{}, fmt.Errorf("still.json: %w: %w", ErrDamaged, err)
	}
	if m.Width < 1 || m.Height < 1 || m.Width > maxPixels/m.Height {
		return metaFile{}, fmt.Errorf("still.json tells nothing that could be: %w", ErrDamaged)
	}
	known, err := fieldsOf(m.Meta)
	if err != nil {
		return metaFile{}, fmt.Errorf("still.json: %w: %w", ErrDamaged, err)
	}
	known["version"] = nil
	maps.DeleteFunc(fields, func(name string, _ json.RawMessage) bool {
		for field := range known {
			if strings.EqualFold(field, name) { // as encoding/json compares them
				return true
			}
		}
		return false
	})
	m.unknown = fields
	m.name, m.Name = m.Name, CutName(m.Name)
	return m, nil
}
