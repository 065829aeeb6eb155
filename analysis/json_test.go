package analysis

import (
	"bytes"
	"encoding/json"
	"errors"
	"testing"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/testkit"
)

// onePixel is a picture of one red pixel at 0, 0.
func onePixel() Pixels {
	return Pixels{Pix: []byte{255, 0, 0, 255}, Stride: 4, Width: 1, Height: 1}
}

// A spot of a picture says where it lies, also at 0, 0; a colour says nothing of a place.
func TestSpotJSONPlace(t *testing.T) {
	s, err := ReadSpot(onePixel(), 0, 0, 11)
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]any{"x": 0.0, "y": 0.0, "size": 11.0, "colour": "#ff0000"} {
		if got := testkit.FieldsOf(t, s)[name]; got != want {
			t.Errorf("%s is %v, want %v", name, got, want)
		}
	}
	for _, name := range []string{"x", "y", "size"} {
		if got, ok := testkit.FieldsOf(t, SpotOf(colour.RGB{R: 255, G: 0, B: 0}))[name]; ok {
			t.Errorf("a colour has %s %v", name, got)
		}
	}
}

// A neutral's hue is there and null; any other's is a number.
func TestSpotJSONHue(t *testing.T) {
	if hue, ok := testkit.FieldsOf(t, SpotOf(colour.RGB{R: 9, G: 9, B: 9}))["hue"]; !ok || hue != nil {
		t.Errorf("a grey's hue is %v, there %v", hue, ok)
	}
	if hue, ok := testkit.FieldsOf(t, SpotOf(colour.RGB{R: 9, G: 9, B: 10}))["hue"].(float64); !ok || !(0 <= hue && hue < 360) {
		t.Errorf("a blue's hue is %v, a number %v", hue, ok)
	}
}

// The pair holds both spots whole, in their order, and the verdict in words.
func TestPairJSON(t *testing.T) {
	white, black := SpotOf(colour.RGB{R: 255, G: 255, B: 255}), SpotOf(colour.RGB{})
	fields := testkit.FieldsOf(t, Compare(white, black, 2))
	a, _ := fields["a"].(map[string]any)
	b, _ := fields["b"].(map[string]any)
	if a["colour"] != "#ffffff" || b["colour"] != "#000000" || len(a) != 8 {
		t.Errorf("a is %v, b is %v", a, b)
	}
	// black minus white, by the definitions of CIE15, D1535 and W3CBLEND
	for name, want := range map[string]float64{"lightness_difference": -100, "tones": -10, "layer_grey_difference": -255} {
		if got, ok := fields[name].(float64); !ok || !(got-want < 1e-9 && want-got < 1e-9) {
			t.Errorf("%s is %v, want %g", name, fields[name], want)
		}
	}
	if fields["verdict"] != "apart" {
		t.Errorf("verdict %v", fields["verdict"])
	}
	if got := testkit.FieldsOf(t, Compare(white, white, 2))["verdict"]; got != "same" {
		t.Errorf("verdict of a colour with itself: %v", got)
	}
}

func TestColourJSON(t *testing.T) {
	c := colour.RGB{R: 1, G: 171, B: 0}
	data, err := json.Marshal(c)
	if err != nil || !bytes.Equal(data, []byte(`"#01ab00"`)) {
		t.Errorf("%s, %v", data, err)
	}
	var again colour.RGB
	if err := json.Unmarshal(data, &again); err != nil || again != c {
		t.Errorf("comes back as %v, %v", again, err)
	}
	if err := json.Unmarshal([]byte(`"reddish"`), &again); !errors.Is(err, colour.ErrColour) {
		t.Errorf("reddish is read: %v", err)
	}
}
