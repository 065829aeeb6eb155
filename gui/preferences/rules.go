package preferences

import (
	"app.tonedesk/analysis/edges"
	"app.tonedesk/analysis/focus"
	"app.tonedesk/analysis/growth"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// ruled are what there are rules for, in their order: so many that one is shown at a time.
var ruled = []struct {
	name language.Words
	rows func(p *Page) []widgets.FormRow
}{{"local colours", (*Page).rulesOfColours}, {"the light", (*Page).rulesOfLight}, {"lost edges", (*Page).rulesOfEdges}, {"focus", (*Page).rulesOfFocus}, {"a series", (*Page).rulesOfSeries}}

// rules are those of what is chosen, under a list of all.
func (p *Page) rules() []widgets.FormRow {
	if p.ruled == nil { // the same again later: it keeps the keys
		var names []string
		for _, r := range ruled {
			names = append(names, r.name.String())
		}
		p.ruled = widgets.NewPicklist(names, 0, p.Keys, p.OpenList, func(int) { p.again() })
	}
	rows := append([]widgets.FormRow{{Name: language.Say("Rules for"), Control: p.ruled}}, ruled[p.ruled.Chosen()].rows(p)...)
	last := &rows[len(rows)-1]
	last.Note = language.Say("Common practice of the trade, no source. Style may break it.")
	if p.ruled.Chosen() > 0 { // each option's own file says which it is
		last.Note = language.Say("Common practice or our choice, no source. Style may break it.")
	}
	return rows
}

func degrees(v float64) string { return wording.Whole(v) + "°" }

func share(v float64) string { return percent(100 * v) }

func (p *Page) rulesOfColours() []widgets.FormRow {
	return []widgets.FormRow{
		p.amount(language.Say("Shadow range from"), 0.5, 3, 0.5, wording.SayTones, func(s *settings.Settings) *float64 { return &s.Rules.LeastTones }),
		p.amount(language.Say("to"), 2, 8, 0.5, wording.SayTones, func(s *settings.Settings) *float64 { return &s.Rules.MostTones }),
		p.amount(language.Say("Neutral is chroma under"), 4, 12, 1, wording.Whole, func(s *settings.Settings) *float64 { return &s.Rules.LeastChroma }),
		p.amount(language.Say("Smallest hue shift"), 4, 16, 1, degrees, func(s *settings.Settings) *float64 { return &s.Rules.LeastTurn }),
		p.amount(language.Say("Richer is a gain over"), 0, 0.2, 0.01, share, func(s *settings.Settings) *float64 { return &s.Rules.MostGain }),
		p.amount(language.Say("An accent keeps within"), 1, 5, 0.5, wording.Tenth, func(s *settings.Settings) *float64 { return &s.Rules.KeepsWithin }),
		p.amount(language.Say("A line may vanish above"), 8, 10, 0.5, wording.Tenth, func(s *settings.Settings) *float64 { return &s.Rules.VanishAbove }),
	}
}

func (p *Page) rulesOfLight() []widgets.FormRow {
	return []widgets.FormRow{
		p.amount(language.Say("Shadows agree within"), light.LeastTones, light.MostTones, 0.1, wording.SayTones, func(s *settings.Settings) *float64 { return &s.Light.MostTonesOff }),
		p.amount(language.Say("Their hues within"), light.LeastHue, light.MostHue, 1, degrees, func(s *settings.Settings) *float64 { return &s.Light.MostHueOff }),
		p.amount(language.Say("Their colours within"), light.LeastColour, light.MostColour, 1, wording.Whole, func(s *settings.Settings) *float64 { return &s.Light.MostColourOff }),
		p.amount(language.Say("One light, if so many agree"), light.LeastShare, light.MostShare, 0.05, share, func(s *settings.Settings) *float64 { return &s.Light.OneLightFrom }),
		p.amount(language.Say("Lit from elsewhere over"), light.LeastDegrees, light.MostDegrees, 5, degrees, func(s *settings.Settings) *float64 { return &s.Light.MostDegreesOff }),
	}
}

func (p *Page) rulesOfEdges() []widgets.FormRow {
	view, _ := views.ByKey(views.LostEdges)
	melt := view.Knob
	within := widgets.NewAmount(widgets.NewSlider(melt.From, melt.To, melt.Step, p.Keys), p.now.Melting().MostTones, wording.SayTones, func(v float64) {
		p.set(func(s *settings.Settings) { *s = s.WithKnob(views.LostEdges, v) })
	}, false)
	p.sync = append(p.sync, func() { within.Set(p.now.Melting().MostTones) })
	return []widgets.FormRow{
		{Name: language.Say("Lost within"), Control: within},
		p.amount(language.Say("By colours apart from"), edges.LeastColours, edges.MostColours, 1, wording.Whole, func(s *settings.Settings) *float64 { return &s.Edges.LeastCIEDE2000 }),
		p.amount(language.Say("So long, of the width"), edges.LeastLong, edges.MostLong, 0.01, share, func(s *settings.Settings) *float64 { return &s.Edges.LeastLength }),
		p.amount(language.Say("A line stands out by"), edges.LeastLine, edges.MostLine, 1, wording.Whole, func(s *settings.Settings) *float64 { return &s.Edges.LineLightness }),
		p.amount(language.Say("By lightness alone from"), edges.LeastAlone, edges.MostAlone, 0.1, wording.SayTones, func(s *settings.Settings) *float64 { return &s.Edges.LeastTones }),
		p.amount(language.Say("With colours within"), edges.LeastOff, edges.MostOff, 1, wording.Whole, func(s *settings.Settings) *float64 { return &s.Edges.MostColourOff }),
	}
}

func (p *Page) rulesOfFocus() []widgets.FormRow {
	return []widgets.FormRow{
		p.amount(language.Say("A place's radius"), focus.LeastRadius, focus.MostRadius, 0.01, share, func(s *settings.Settings) *float64 { return &s.Focus.Radius }),
		p.amount(language.Say("Contrast from"), focus.LeastPlace, focus.MostPlace, 0.005, func(v float64) string { return wording.Tenth(100*v) + wording.Nbsp + "%" }, func(s *settings.Settings) *float64 { return &s.Focus.LeastContrast }),
		p.amount(language.Say("As strong from"), focus.LeastAs, focus.MostAs, 0.05, share, func(s *settings.Settings) *float64 { return &s.Focus.AsStrong }),
		p.amount(language.Say("Chroma counts"), focus.LeastChroma, focus.MostChroma, 0.1, share, func(s *settings.Settings) *float64 { return &s.Focus.ChromaWeight }),
		p.amount(language.Say("Lightest, darkest within"), focus.LeastExtreme, focus.MostExtreme, 1, wording.Whole, func(s *settings.Settings) *float64 { return &s.Focus.ExtremeWithin }),
		p.amount(language.Say("Alone from"), focus.LeastAlone, focus.MostAlone, 0.05, share, func(s *settings.Settings) *float64 { return &s.Focus.AloneShare }),
	}
}

func (p *Page) rulesOfSeries() []widgets.FormRow {
	return []widgets.FormRow{
		p.amount(language.Say("A series turns from"), growth.LeastTones, growth.MostTones, 0.1, wording.SayTones, func(s *settings.Settings) *float64 { return &s.TurnFrom }),
	}
}
