package wording

import (
	"math"
	"strconv"
	"strings"

	"app.tonedesk/analysis"
)

// SayMurk says how much of a picture lies near the edges of its groups.
func SayMurk(s *analysis.Split) string {
	if len(s.Groups()) < 2 {
		return ""
	}
	return "Murk: " + Percent(s.Murk) + " within a quarter of a tone of an edge. "
}

// SayLimits says how much of a picture lies beyond the limits of lightness.
func SayLimits(dark, light float64, l analysis.Limits) string {
	return "Under " + Tenth(l.Dark) + " in lightness: " + Percent(dark) + "; over " + Tenth(l.Light) + ": " + Percent(light) + "."
}

// SaySmall says what becomes of the gaps between groups when the picture's longer side is
// made so many pixels.
func SaySmall(longer int, groups []analysis.Group, changes []analysis.GapChange) string {
	var parts []string
	for i, c := range changes {
		if i+1 >= len(groups) {
			break
		}
		pair := unbroken(groups[i].Name) + " and " + unbroken(groups[i+1].Name) + " "
		if math.IsNaN(c.Small) {
			parts = append(parts, pair+"become one")
			continue
		}
		if Tenth(c.Small) != Tenth(c.Whole) {
			parts = append(parts, pair+SayTones(c.Small)+" apart instead of "+Tenth(c.Whole))
		}
	}
	if len(parts) == 0 {
		parts = []string{"the groups stay as far apart"}
	}
	return "At " + strconv.Itoa(longer) + Nbsp + "pixels: " + strings.Join(parts, ", ") + "."
}
