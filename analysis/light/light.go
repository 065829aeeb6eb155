package light

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
)

// Light is what a picture's local colours say of the light that falls on it. Its JSON names and
// units are the command line's contract; what can't be known is nil.
type Light struct {
	Options Options `json:"options"`

	Ratio *Ratio `json:"ratio"` // nil where no local colour is sure
	// Untold are the channels that no local colour tells, since it is near black in all: "red",
	// "green", "blue". They are taken to be as the mean of the others. Never nil.
	Untold        []string       `json:"untold_channels"`
	Tones         *float64       `json:"tones"`           // how deep the shadows are: weighted median
	WhiteInShadow *analysis.Spot `json:"white_in_shadow"` // the shadow's colour beside the light
	LightColour   *analysis.Spot `json:"light_colour"`    // the light's colour beside the shadow

	Agreement *float64 `json:"agreement"` // 0 to 1; nil for less than two sure local colours: see agreement
	OneLight  *bool    `json:"one_light"` // whether that is enough

	LocalColours []LocalColour `json:"local_colours"` // the sure ones, in the families' order

	Direction *Direction `json:"direction"` // nil where the forms show none
	Forms     []Form     `json:"forms"`     // in the order of the families, the largest of each first
	// Others are forms beside these, of no local colour that was found. Never nil.
	Others []Other `json:"other_forms"`
}

// LocalColour says how a local colour's shadow stands to what the picture's light would make of
// its light side.
type LocalColour struct {
	Family    int           `json:"family"`     // its index among the families
	Expected  analysis.Spot `json:"expected"`   // its shadow in the picture's light
	TonesOff  float64       `json:"tones_off"`  // how much deeper its shadow is than that, in tones
	HueOff    *float64      `json:"hue_off"`    // Oklch hue of its shadow minus that, degrees (-180, 180]; nil beside a neutral
	ColourOff float64       `json:"colour_off"` // CIEDE2000 between them, the expected one at the shadow's own lightness
	CIEDE2000 float64       `json:"ciede2000"`  // between them as they are
	Remarks   []Remark      `json:"remarks"`    // in what it disagrees; never nil
}

// Agrees reports whether the shadow is as the picture's light would make it.
func (l *LocalColour) Agrees() bool { return len(l.Remarks) == 0 }

// Remark says in what a local colour disagrees.
type Remark string

const (
	TooShallow  Remark = "too_shallow"
	TooDeep     Remark = "too_deep"
	WrongHue    Remark = "wrong_hue"
	TowardBlack Remark = "toward_black" // as its light, only darker, where the picture's light gives the shadow a colour
)

// Of says what the local colours of a picture say of its light. Counted are those that are sure,
// unless counts says otherwise: by their index, since the painter kept or refused some. The result
// is the caller's own.
func Of(found *families.Found, counts func(family int) bool, o Options) *Light {
	return OfPicture(found, nil, counts, o)
}

// OfPicture does the same with the picture itself, in which more forms are looked for that show from
// where their light comes; nil for none.
func OfPicture(found *families.Found, cells *Cells, counts func(family int) bool, o Options) *Light {
	l := &Light{Options: o, Untold: []string{}, LocalColours: []LocalColour{}, Forms: []Form{}, Others: []Other{}}
	if counts == nil {
		counts = func(i int) bool { return found.List[i].Sure() }
	}
	var pairs []pair
	for i := range found.List {
		if counts(i) {
			pairs = append(pairs, pairOf(i, &found.List[i]))
		}
	}
	evenOut(pairs)
	l.agree(pairs)
	look := lookOf(cells, found, counts)
	l.Forms = append(l.Forms, look.forms()...)
	l.Others = append(l.Others, l.others(look)...)
	l.direct()
	return l
}

// pairOf returns a family as a pair, weighed by its area.
func pairOf(i int, f *families.Family) pair {
	p := pair{family: i, light: linear(f.Light), shadow: linear(f.Shadow), depth: f.Tones, weight: 1}
	if f.Share != nil {
		p.weight = max(*f.Share, leastShare)
	}
	return p
}

// leastShare keeps a weight above 0.
const leastShare = 1e-6
