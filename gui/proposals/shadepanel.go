package proposals

import (
	"math"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// shadePanel holds the settings by which colours are proposed, their numbers beside them.
// Each change is a step of undo; the moves of one drag are one.
type shadePanel struct {
	*host.Host
	Box          *fyne.Container
	Light, equal *widgets.Chooser
	Turn, gain   *knobSlider
	hue, chroma  *knobSlider
	own          func() *light.Light // what is known of the picture's light; nil for nothing
	showing      bool                // the widgets are being set: what they report is no wish

	fields map[*knobSlider]func(*propose.Options) *float64 // what each sets
}

// equalBys are what accents can keep, by the chooser's place.
var equalBys = []propose.EqualBy{propose.ByLightness, propose.ByLayerGrey, propose.BySeenLightness}

// asLit is the place of the picture's own light in the chooser.
const asLit = 2

// shadowHues are the shadows' hues that have a name, by the chooser's place.
var shadowHues = []float64{propose.WarmLightShadow, propose.CoolLightShadow}

func newShadePanel(h *host.Host, own func() *light.Light) *shadePanel {
	p := &shadePanel{Host: h, own: own, fields: map[*knobSlider]func(*propose.Options) *float64{}}
	p.Light = widgets.NewChoices([]widgets.Choice{{Word: language.Say("Cool")}, {Word: language.Say("Warm")},
		{Word: language.Say("As in this picture"), Short: language.Say("As here"), Tip: language.Say("Lights and shadows as in this picture")}}, h.Tips, h.Keys, p.SetLight).Lists(h.OpenList)
	p.equal = widgets.NewChooser([]string{language.Say("Lightness"), language.Say("Layer grey"), language.Say("Seen lightness")}, h.Keys, func(i int) {
		p.change("equal", func(o *propose.Options) { o.EqualBy = equalBys[i] })
	}).Lists(h.OpenList)
	percent := func(v float64) string { return strconv.Itoa(int(math.Round(100*v))) + wording.Nbsp + "%" }
	p.Turn = p.slider(knob{language.Say("Shift per tone"), 0, 1, 0.05, percent}, func(o *propose.Options) *float64 { return &o.Turn })
	p.gain = p.slider(knob{language.Say("Gain per tone"), -0.5, 2, 0.05, percent}, func(o *propose.Options) *float64 { return &o.Gain })
	p.hue = p.slider(knob{language.Say("Shadow's hue"), 0, 359, 1, func(v float64) string { return wording.Whole(v) + "° " + language.Name(colour.HueName(v)) }},
		func(o *propose.Options) *float64 { return &o.ShadowHue })
	p.chroma = p.slider(knob{language.Say("Accents' chroma"), 0, 0.4, 0.01, func(v float64) string { return strconv.FormatFloat(v, 'f', 2, 64) }},
		func(o *propose.Options) *float64 { return &o.AccentChroma })
	p.Box = container.NewVBox(
		widgets.Card(0, p.hue.box, p.Turn.box, p.gain.box),
		widgets.Card(widgets.Step/2, widgets.NewLine(language.Say("Core-shadow accents are equal in"), language.Say("Accents are equal in")), p.equal,
			widgets.QuietWords(wording.SeenLightnessIs.String()), p.chroma.box))
	return p
}

// SetLight chooses the shadow's hue, or the picture's own light.
func (p *shadePanel) SetLight(i int) {
	next := p.Steps.Now()
	if next.AsLit = i == asLit; !next.AsLit {
		next.Shade.ShadowHue = shadowHues[i]
	}
	p.take(next, "light")
	p.Steps.Settle()
}

// Place is the place of what holds in the chooser; -1 for another hue.
func (p *shadePanel) Place() int {
	if p.lit() != nil {
		return asLit
	}
	return slices.Index(shadowHues, p.Steps.Now().Shade.ShadowHue)
}

// lit is the picture's own light, if lights and shadows are to be as it makes them; else nil.
func (p *shadePanel) lit() *light.Ratio {
	if l := p.own(); p.Steps.Now().AsLit && wording.NoLightHere(l) == "" {
		return l.Ratio
	}
	return nil
}

// change changes the settings; kind joins the moves of one drag. By other hues and gains, they are no
// longer as in the picture.
func (p *shadePanel) change(kind string, set func(*propose.Options)) {
	if p.showing {
		return
	}
	next := p.Steps.Now()
	was := next.Shade
	set(&next.Shade)
	is := next.Shade
	if is.ShadowHue != was.ShadowHue || is.Turn != was.Turn || is.Gain != was.Gain {
		next.AsLit = false
	}
	p.take(next, kind)
}

// take makes a step of undo of other settings than those of now.
func (p *shadePanel) take(next setup.Setup, kind string) {
	if now := p.Steps.Now(); next.Shade != now.Shade || next.AsLit != now.AsLit {
		p.Steps.Change(next, kind)
	}
}

// show shows settings.
func (p *shadePanel) show(o propose.Options) {
	p.showing = true
	defer func() { p.showing = false }()
	p.Light.SetOff(asLit, wording.NoLightHere(p.own()))
	p.Light.Set(p.Place())
	p.equal.Set(slices.Index(equalBys, o.EqualBy))
	for k, field := range p.fields {
		k.show(*field(&o))
	}
}

// slider is one of the settings.
func (p *shadePanel) slider(k knob, field func(*propose.Options) *float64) *knobSlider {
	s := newKnobSlider(k, p.Host, func(v float64) { p.change(k.name, func(o *propose.Options) { *field(o) = v }) })
	p.fields[s] = field
	return s
}
