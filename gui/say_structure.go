package gui

import "app.tonedesk/analysis"

// SayMurk says how much of a picture lies near the edges of its groups.
func SayMurk(s *analysis.Split) string {
	if len(s.Groups()) < 2 {
		return ""
	}
	return "Murk: " + Percent(s.Murk) + " within a quarter of a tone of an edge."
}

// SayLimits says how much of a picture lies beyond the limits of lightness.
func SayLimits(dark, light float64, l analysis.Limits) string {
	return "Under " + Tenth(l.Dark) + " in lightness: " + Percent(dark) + "; over " + Tenth(l.Light) + ": " + Percent(light) + "."
}
