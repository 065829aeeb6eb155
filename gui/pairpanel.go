package gui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// pairPanel shows two spots at each other's lightness, and how they do as light and shadow.
type pairPanel struct {
	*host
	box        *fyne.Container
	matched    *widgets.SwatchRow
	judged     *widgets.SwatchRow
	judgeWords *widget.Label
	from       pairedFrom // what was said of them; zero for nothing
}

// pairedFrom is all that what is said of two spots depends on.
type pairedFrom struct {
	a, b           colour.Oklab
	rules          families.Rules
	options        propose.Options
	indexA, indexB int
	made           bool
}

func newPairPanel(h *host) *pairPanel {
	p := &pairPanel{host: h, judgeWords: widgets.SmallLabel()}
	plan := widgets.SwatchPlan{Height: widgets.SwatchHeight, Greys: 3 * widgets.Step, Labels: true}
	p.matched, p.judged = widgets.NewSwatchRow(plan, swatchActs(h)), widgets.NewSwatchRow(plan, swatchActs(h))
	p.box = container.NewVBox(
		widgets.Section("A and B at each other's lightness", nil, p.matched),
		widgets.Section("A and B as light and shadow", nil, p.judgeWords, p.judged))
	return p
}

// show renews what is said of A and the selected spot, or else B, if that has changed.
func (p *pairPanel) show(spots []live.Reading, selected int, rules families.Rules) {
	a, b, ok := live.PairOf(spots, selected)
	if !ok {
		p.from = pairedFrom{}
		p.matched.Set([]widgets.Swatch{{None: true, Label: "Set two spots first"}})
		p.judged.Set(nil)
		p.say("Set two spots: a local colour and the shadow chosen for it.")
		return
	}
	spotA, spotB := spots[a].Spot, spots[b].Spot
	from := pairedFrom{spotA.Oklab, spotB.Oklab, rules, p.steps.now().Shade, a, b, true}
	if from == p.from {
		return
	}
	p.from = from
	nameA, nameB := setup.SpotName(a), setup.SpotName(b)
	p.matched.Set(matchSwatches(spotA, spotB, nameA, nameB))
	if spotA.Lightness < spotB.Lightness {
		spotA, spotB, nameA, nameB = spotB, spotA, nameB, nameA
	}
	p.judge(spotSwatch(spotA, nameA), spotSwatch(spotB, nameB), propose.JudgeShadow(spotA, spotB, rules, from.options.ShadowHue))
}

// judge says how a shadow does beside its light, and shows what would satisfy the rules.
func (p *pairPanel) judge(light, shadow widgets.Swatch, j propose.Judged) {
	all := []widgets.Swatch{light, shadow}
	if j.Nearest != nil {
		all = append(all, spotSwatch(*j.Nearest, "nearest"))
	}
	p.judged.Set(all)
	p.say(strings.Join(wording.SayJudgement(j), " "))
}

func (p *pairPanel) say(words string) {
	if widgets.SetWords(p.judgeWords, words) {
		p.relayPage()
	}
}

// copyMatched copies B brought to A's lightness, or A brought to B's.
func copyMatched(h *host, spots []live.Reading, selected int, other bool) {
	a, b, ok := live.PairOf(spots, selected)
	if !ok {
		h.messages.note("Set two spots first: then B can be brought to A's lightness.")
		return
	}
	if other {
		a, b = b, a
	}
	h.copyText(propose.Bring(spots[a].Spot, spots[b].Spot).Matched.Colour.Hex())
}
