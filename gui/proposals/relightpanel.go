package proposals

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/swatches"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// RelightPanel shows the local colours of the picture with the shadows that another light would give
// them. It is there while one light is known to fall on the picture, which is never changed.
type RelightPanel struct {
	*host.Host
	acts            RelightActs
	Box             *fyne.Container
	Copy            *widgets.Button
	Warmer, Deeper  *knobSlider
	lights, Shadows *widgets.SwatchRow
	from            relitFrom
	under           light.Under
	showing         bool // the widgets are being set: what they report is no wish
}

// RelightActs are what the panel needs from around it.
type RelightActs struct {
	Light func() (*light.Light, []families.Family)   // what is known of the light; nil for nothing
	Copy  func(rows []swatches.Row)                  // copies colours as text
	Save  func(rows []swatches.Row, all light.Under) // asks for a file and writes them
}

// relitFrom is what is shown was made from.
type relitFrom struct {
	light  *light.Light // never changed once it is read
	change light.Change
}

// NewRelightPanel returns a panel that isn't to be seen as yet.
func NewRelightPanel(h *host.Host, acts RelightActs) *RelightPanel {
	p := &RelightPanel{Host: h, acts: acts}
	p.Warmer = p.slider(knob{wording.SayWarmer(0), light.MostCooler, light.MostWarmer, 1, wording.SayMired}, func(c *light.Change) *float64 { return &c.Warmer })
	p.Deeper = p.slider(knob{wording.SayDeeper(0), -light.MostDeeper, light.MostDeeper, 0.1, func(v float64) string { return wording.SayTones(math.Abs(v)) }}, func(c *light.Change) *float64 { return &c.Deeper })
	row := func(plan widgets.SwatchPlan) *widgets.SwatchRow { return widgets.NewSwatchRow(plan, swatchActs(h)) }
	p.lights = row(widgets.SwatchPlan{Height: 3 * widgets.Step, Least: 4 * widgets.Step})
	p.Shadows = row(widgets.SwatchPlan{Height: 38, Greys: 2 * widgets.Step, Labels: true})
	p.Copy = widgets.NewIconButton(icons.Copy, h.Keys, func() { acts.Copy(swatches.OfRelit(p.under)) }).Flat()
	p.Copy.Explain(h.Tips, language.Say("Copy these lights and shadows"))
	save := widgets.NewIconButton(icons.Export, h.Keys, func() { acts.Save(swatches.OfRelit(p.under), p.under) }).Flat()
	save.Explain(h.Tips, language.Say("Export these lights and shadows"))
	head := container.NewBorder(nil, nil, nil, container.NewHBox(p.Copy, save), widgets.NewHeading(icons.Light, language.Say("Relight"), language.Say("shadows in another light")))
	p.Box = widgets.NewCard(widgets.Beside(head), widgets.Beside(p.lights), widgets.Beside(p.Shadows), p.Warmer.box, p.Deeper.box)
	p.Box.Hide()
	return p
}

// slider sets a part of how the light is changed.
func (p *RelightPanel) slider(k knob, part func(*light.Change) *float64) *knobSlider {
	return newKnobSlider(k, p.Host, func(v float64) {
		next := p.Steps.Now()
		if field := part(&next.Relit); !p.showing && *field != v {
			*field = v
			p.Steps.Change(next, k.name)
		}
	})
}

// Show renews the panel, if what it is made from has changed.
func (p *RelightPanel) Show() {
	own, list := p.acts.Light()
	there := wording.NoLightHere(own) == ""
	if p.Box.Hidden == there {
		p.Box.Hidden = !there
		p.LayOutPage()
	}
	from := relitFrom{own, p.Steps.Now().Relit}
	if !there || from == p.from {
		return
	}
	p.from = from
	p.under, _ = own.Relight(list, from.change)
	p.lights.Set(litSwatches(p.under))
	p.Shadows.Set(relitSwatches(p.under))
	p.showing = true
	defer func() { p.showing = false }()
	p.Warmer.show(from.change.Warmer)
	p.Deeper.show(from.change.Deeper)
	p.Warmer.name.SetText(wording.SayWarmer(from.change.Warmer))
	p.Deeper.name.SetText(wording.SayDeeper(from.change.Deeper))
}

// litSwatches are the light sides of the local colours, as they are.
func litSwatches(u light.Under) (all []widgets.Swatch) {
	for i, r := range u.Relit {
		w := spotSwatch(r.Light, "")
		w.Tip = language.Say("%s, light of local colour %d", w.Tip, i+1)
		all = append(all, w)
	}
	return all
}

// relitSwatches are the shadows in the chosen light.
func relitSwatches(u light.Under) (all []widgets.Swatch) {
	for i, r := range u.Relit {
		w := stepSwatch(r.Shadow)
		w.Tip = language.Say("%s, shadow of local colour %d, now %s", w.Tip, i+1, r.Was.Colour.Hex())
		all = append(all, w)
	}
	return all
}
