package wording

import (
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

func TestSaySpotText(t *testing.T) {
	hue := 60.74
	spot := analysis.Spot{
		Colour: colour.RGB{R: 226, G: 171, B: 133}, Lightness: 74.14, Value: 7.26, LayerGrey: 183.1,
		Chroma: 31.44, Hue: &hue, SeenLightness: 79, Spread: 3.21, OnEdge: true,
	}
	got := SaySpotText("A", spot, SpotState{FromWhite: true, Selected: true})
	want := SpotText{
		FigureText: FigureText{Lightness: "74.1", Value: "2.7", LayerGrey: "183", Chroma: "31.4", Hue: "60.7°"},
		Name:       "A", Colour: spot.Colour, Grey: colour.GreyOf(74.14), Hex: "#e2ab85",
		Note: "lies on an edge", Selected: true,
	}
	if got != want {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
}

func TestSayNote(t *testing.T) {
	for _, tt := range []struct {
		state  SpotState
		onEdge bool
		want   string
	}{
		{SpotState{}, false, ""},
		{SpotState{}, true, "lies on an edge"},
		{SpotState{Area: true}, false, "varies by 3.2"},
		{SpotState{Area: true}, true, "varies by 3.2"}, // an area is expected to hold edges
		{SpotState{Moved: true, Area: true}, true, "may lie elsewhere now"},
	} {
		if got := sayNote(analysis.Spot{OnEdge: tt.onEdge, Spread: 3.21}, tt.state); got != tt.want {
			t.Errorf("%+v, on an edge %v: %q, want %q", tt.state, tt.onEdge, got, tt.want)
		}
	}
}

// Limits of the hint: 3 and 8 (common practice, no source).
func TestSaySeen(t *testing.T) {
	for added, want := range map[float64]string{
		0: "", 2.9: "", 3: "looks a little lighter than its grey", 7.9: "looks a little lighter than its grey", 8.5: "looks clearly lighter than its grey",
	} {
		if got := SaySeen(analysis.Spot{Lightness: 50, SeenLightness: 50 + added}); got != want {
			t.Errorf("%g lighter: %q, want %q", added, got, want)
		}
	}
}

// By hand: differences are second minus first, hues go the shorter way round, and a value that
// counts from white rises where it gets darker.
func TestSayDifferences(t *testing.T) {
	hue := func(h float64) *float64 { return &h }
	a := analysis.Spot{Lightness: 80.5, Value: 8, LayerGrey: 200, Chroma: 30.3, Hue: hue(350)}
	b := analysis.Spot{Lightness: 56, Value: 5.5, LayerGrey: 134, Chroma: 42.1, Hue: hue(20)}
	for _, tt := range []struct {
		name      string
		a, b      analysis.Spot
		fromWhite bool
		want      FigureText
	}{
		{"darker and more saturated", a, b, false, FigureText{"−24.5", "−2.5", "−66", "+11.8", "+30.0°"}},
		{"the other way", b, a, false, FigureText{"+24.5", "+2.5", "+66", "−11.8", "−30.0°"}},
		{"from white", a, b, true, FigureText{"−24.5", "+2.5", "−66", "+11.8", "+30.0°"}},
		{"alike", a, a, false, FigureText{"0.0", "0.0", "0", "0.0", "0.0°"}},
		{"beside a neutral", a, analysis.Spot{Lightness: 80.46, Value: 7.96, LayerGrey: 199.6}, false, FigureText{"0.0", "0.0", "0", "−30.3", "–"}},
	} {
		if got := SayDifferences(tt.a, tt.b, tt.fromWhite); got != tt.want {
			t.Errorf("%s: %+v, want %+v", tt.name, got, tt.want)
		}
	}
}

func TestSaySpotRemark(t *testing.T) {
	seen := func(added float64) analysis.Spot { return analysis.Spot{Lightness: 50, SeenLightness: 50 + added} }
	for _, tt := range []struct {
		name         string
		noteA, noteB string
		a, b         analysis.Spot
		want         string
	}{
		{"nothing", "", "", seen(0), seen(0), ""},
		{"the second", "", "", seen(9), seen(9), "B looks clearly lighter than its grey"},
		{"the clearer", "", "", seen(9), seen(4), "A looks clearly lighter than its grey"},
		{"a little", "", "", seen(4), seen(0), "A looks a little lighter than its grey"},
		{"doubt first", "lies on an edge", "", seen(9), seen(9), "A lies on an edge"},
	} {
		texts := []SpotText{{Name: "A", Note: tt.noteA}, {Name: "B", Note: tt.noteB}}
		if got := SaySpotRemark(texts, []analysis.Spot{tt.a, tt.b}); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}
