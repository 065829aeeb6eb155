package settings

import (
	"app.tonedesk/analysis/edges"
	"app.tonedesk/analysis/focus"
	"app.tonedesk/analysis/light"
)

// measuring lists by what a whole picture is measured: each option's own file says in which unit it
// is, and where it comes from.
func (s *Settings) measuring() []field {
	d, l, e, f := Defaults(), &s.Light, &s.Edges, &s.Focus
	return []field{
		fieldOf("agree_within_tones", &l.MostTonesOff, between(light.LeastTones, light.MostTones, d.Light.MostTonesOff)),
		fieldOf("agree_within_degrees", &l.MostHueOff, between(light.LeastHue, light.MostHue, d.Light.MostHueOff)),
		fieldOf("agree_within_colour", &l.MostColourOff, between(light.LeastColour, light.MostColour, d.Light.MostColourOff)), // CIEDE2000
		fieldOf("one_light_from", &l.OneLightFrom, between(light.LeastShare, light.MostShare, d.Light.OneLightFrom)),
		fieldOf("lit_elsewhere_degrees", &l.MostDegreesOff, between(light.LeastDegrees, light.MostDegrees, d.Light.MostDegreesOff)),
		fieldOf("edge_colours_from", &e.LeastCIEDE2000, between(edges.LeastColours, edges.MostColours, d.Edges.LeastCIEDE2000)),
		fieldOf("edge_length_from", &e.LeastLength, between(edges.LeastLong, edges.MostLong, d.Edges.LeastLength)),
		fieldOf("edge_alone_from_tones", &e.LeastTones, between(edges.LeastAlone, edges.MostAlone, d.Edges.LeastTones)),
		fieldOf("edge_alone_colours_to", &e.MostColourOff, between(edges.LeastOff, edges.MostOff, d.Edges.MostColourOff)), // CIEDE2000
		fieldOf("edge_line_from", &e.LineLightness, between(edges.LeastLine, edges.MostLine, d.Edges.LineLightness)),      // L*
		fieldOf("focus_radius", &f.Radius, between(focus.LeastRadius, focus.MostRadius, d.Focus.Radius)),
		fieldOf("focus_contrast_from", &f.LeastContrast, between(focus.LeastPlace, focus.MostPlace, d.Focus.LeastContrast)),
		fieldOf("focus_as_strong_from", &f.AsStrong, between(focus.LeastAs, focus.MostAs, d.Focus.AsStrong)),
		fieldOf("focus_chroma_weight", &f.ChromaWeight, between(focus.LeastChroma, focus.MostChroma, d.Focus.ChromaWeight)),
		fieldOf("extremes_within", &f.ExtremeWithin, between(focus.LeastExtreme, focus.MostExtreme, d.Focus.ExtremeWithin)), // L*
		fieldOf("extremes_alone_from", &f.AloneShare, between(focus.LeastAlone, focus.MostAlone, d.Focus.AloneShare)),
	}
}
