package command

import (
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
)

// The sure ones are told with their verdicts, then the unsure with their colours alone.
func TestReportOfUnsureFamilies(t *testing.T) {
	family := func(light, shadow colour.RGB, confidence float64) families.Family {
		f := families.Of(analysis.SpotOf(light), analysis.SpotOf(shadow), families.DefaultRules())
		f.Confidence = &confidence
		return f
	}
	sure := family(colour.RGB{R: 255}, colour.RGB{R: 128}, families.SureFrom)
	unsure := family(colour.RGB{R: 226, G: 171, B: 133}, colour.RGB{R: 178, G: 106, B: 92}, 0.49)
	for _, tt := range []struct {
		list []families.Family
		want []string // in this order
		not  string
	}{
		{[]families.Family{unsure, sure}, []string{"local colours\n", "#ff0000", "#800000", "reads", "Unsure (1)\n", "#e2ab85", "#b26a5c"}, "Unsure (2)"},
		{[]families.Family{sure}, []string{"local colours\n", "reads"}, "Unsure"},
		{[]families.Family{unsure}, []string{"none found for sure\n", "Unsure (1)\n", "#e2ab85"}, "reads"},
		{[]families.Family{}, []string{"none found with a light"}, "Unsure"},
		{nil, nil, "local colours"},
	} {
		var out strings.Builder
		writeFamilies(&out, tt.list, nil)
		rest := out.String()
		for _, word := range tt.want {
			at := strings.Index(rest, word)
			if at < 0 {
				t.Errorf("%q is not told, or too early, in\n%s", word, out.String())
				break
			}
			rest = rest[at+len(word):]
		}
		if strings.Contains(out.String(), tt.not) || strings.Count(out.String(), "tones: ") > 1 {
			t.Errorf("%q, or too much, is told in\n%s", tt.not, out.String())
		}
	}
}
