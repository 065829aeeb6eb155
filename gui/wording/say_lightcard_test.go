package wording

import (
	"slices"
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/light"
)

// What the card says of lights by hand; our choice of words.
func TestSayLightCard(t *testing.T) {
	pair := func(red, green, blue, r, g, b float64) families.Family {
		f := families.Of(analysis.SpotOfLight(red, green, blue), analysis.SpotOfLight(red*r, green*g, blue*b), families.DefaultRules())
		f.Share = new(0.1)
		return f
	}
	same := []families.Family{pair(0.75, 0.4, 0.24, 0.2, 0.25, 0.4), pair(0.3, 0.55, 0.2, 0.2, 0.25, 0.4), pair(0.25, 0.3, 0.7, 0.2, 0.25, 0.4)}
	black := append(slices.Clone(same), pair(0.8, 0.7, 0.2, 0.24, 0.24, 0.24))
	deep := append(slices.Clone(same), pair(0.8, 0.7, 0.3, 0.06, 0.075, 0.12))
	many := []families.Family{same[0], pair(0.3, 0.55, 0.2, 0.7, 0.5, 0.4)}
	for _, tt := range []struct {
		name   string
		list   []families.Family
		first  string // how the first line begins
		second string // the second, figures left out
		deep   int    // how many stand out by their depth
		hue    int    // by their colour
	}{
		{"nothing", nil, "No local colour tells of the light.", "", 0, 0},
		{"one", same[:1], "The shadow lies ", "One local colour alone, beside which none can disagree.", 0, 0},
		{"two", same[:2], "Both shadows lie ", "One light: all shadows agree.", 0, 0},
		{"three", same, "All three lie ", "One light: all shadows agree.", 0, 0},
		{"toward black", black, "All four lie ", "The yellow disagrees: it keeps its hue, straight toward black.", 0, 1},
		{"deeper", deep, "All four lie ", "The yellow disagrees: # tones deeper than the others.", 1, 0},
		{"no one light", many, "Both shadows lie ", "No one light: # % of the local colours, by size, agree.", 0, 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			l := light.Of(&families.Found{List: tt.list}, nil, light.DefaultOptions())
			said := SayLightCard(l, tt.list, families.DefaultRules(), false)
			second := ""
			if len(said.Lines) > 1 {
				second = strings.Join(strings.FieldsFunc(strings.ReplaceAll(said.Lines[1], Nbsp, " "), func(r rune) bool { return r >= '0' && r <= '9' }), "#")
				second = strings.ReplaceAll(second, "#.#", "#")
			}
			if !strings.HasPrefix(said.Lines[0], tt.first) || second != tt.second || len(said.Lines) > 2 {
				t.Errorf("%q", said.Lines)
			}
			deep, hue := 0, 0
			for _, s := range said.Shadows {
				if s.Deep {
					deep++
				}
				if s.Hue {
					hue++
				}
			}
			if deep != tt.deep || hue != tt.hue || len(said.Shadows) != len(tt.list) || said.Rule != [2]float64{2, 3} {
				t.Errorf("%+v", said)
			}
		})
	}
	if said := SayLightCard(nil, nil, families.DefaultRules(), false); len(said.Lines) != 1 || len(said.Shadows) != 0 {
		t.Errorf("%+v", said)
	}
}

// Where the light comes from and what is lit from elsewhere, as it is and in a flipped mirror; a code
// stands by where two have the same name; of many that disagree the first are named.
func TestSayLightCardLit(t *testing.T) {
	orange := families.Of(analysis.SpotOfLight(0.75, 0.4, 0.24), analysis.SpotOfLight(0.15, 0.1, 0.096), families.DefaultRules())
	l := &light.Light{Ratio: &light.Ratio{Red: 0.2, Green: 0.25, Blue: 0.4}, Agreement: new(0.6), OneLight: new(true),
		LocalColours: []light.LocalColour{{Family: 0}, {Family: 1}, {Family: 2}},
		Direction:    &light.Direction{Degrees: 135, Forms: 3},
		Forms:        []light.Form{{Family: 0, Lighting: light.Lighting{Verdict: light.FormAgrees}}, {Family: 1, Lighting: light.Lighting{X: 0.9, Y: 0.1, Degrees: 0, Verdict: light.Elsewhere}}, {Lighting: light.Lighting{Verdict: light.Unsure}}},
		Others:       []light.Other{{Light: analysis.SpotOf(colour.RGB{R: 60, G: 90, B: 200}), Lighting: light.Lighting{X: 0.1, Y: 0.5, Degrees: 270, Verdict: light.Elsewhere}}}}
	list := []families.Family{orange, orange, orange, orange, orange}
	name := "The orange" + Nbsp + orange.Light.Colour.Hex()
	for flipped, want := range map[bool]string{
		false: "Lit from the upper left, as 3" + Nbsp + "forms show. " + name + " form at the upper right seems lit from the right. The blue" + Nbsp + "#3c5ac8 form at the left seems lit from below.",
		true:  "Lit from the upper right, as 3" + Nbsp + "forms show. " + name + " form at the upper left seems lit from the left. The blue" + Nbsp + "#3c5ac8 form at the right seems lit from below.",
	} {
		if got := strings.Join(SayLightCard(l, list, families.DefaultRules(), flipped).Quiet, " "); got != want {
			t.Errorf("flipped %v: %q, want %q", flipped, got, want)
		}
	}
	l.LocalColours = nil
	for i := range 5 {
		l.LocalColours = append(l.LocalColours, light.LocalColour{Family: i, Remarks: []light.Remark{light.TooDeep}, TonesOff: 1})
	}
	if got := SayLightCard(l, list, families.DefaultRules(), false).Lines; len(got) != 4 || got[3] != "Three more disagree." {
		t.Errorf("%q", got)
	}
	for _, tt := range []struct {
		x, y float64
		want string
	}{{0.5, 0.5, "in the middle"}, {0.5, 0, "at the top"}, {0.5, 1, "at the foot"}, {0, 0.5, "at the left"}, {1, 1, "at the lower right"}} {
		if got := sayWhere(tt.x, tt.y); got != tt.want {
			t.Errorf("%g, %g: %q, want %q", tt.x, tt.y, got, tt.want)
		}
	}
}

// Why shadows can't be proposed as in a picture.
func TestNoLightHere(t *testing.T) {
	r := &light.Ratio{Red: 0.2, Green: 0.25, Blue: 0.4}
	for _, tt := range []struct {
		l    *light.Light
		want string // it begins so
	}{
		{nil, "No local colour"}, {&light.Light{}, "No local colour"}, {&light.Light{Ratio: r, OneLight: new(false)}, "No one light"},
		{&light.Light{Ratio: r, OneLight: new(true)}, ""}, {&light.Light{Ratio: r}, ""},
	} {
		if got := NoLightHere(tt.l); !strings.HasPrefix(got, tt.want) || (got == "") != (tt.want == "") {
			t.Errorf("%q, want %q", got, tt.want)
		}
	}
}
