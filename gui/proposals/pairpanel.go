package proposals

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// PairPanel shows two spots at each other's lightness, and how they do as light and shadow.
type PairPanel struct {
	*host.Host
	Box        *fyne.Container
	Matched    *widgets.SwatchRow
	Judged     *widgets.SwatchRow
	JudgeWords *widget.Label
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

// NewPairPanel returns a panel without spots.
func NewPairPanel(h *host.Host) *PairPanel {
	p := &PairPanel{Host: h, JudgeWords: widgets.SmallLabel()}
	plan := widgets.SwatchPlan{Height: widgets.SwatchHeight, Greys: 3 * widgets.Step, Labels: true}
	p.Matched, p.Judged = widgets.NewSwatchRow(plan, swatchActs(h)), widgets.NewSwatchRow(plan, swatchActs(h))
	p.Box = container.NewVBox(
		widgets.Section("A and B at each other's lightness", nil, p.Matched),
		widgets.Section("A and B as light and shadow", nil, p.JudgeWords, p.Judged))
	return p
}

// Show renews what is said of A and the selected spot, or else B, if that has changed.
func (p *PairPanel) Show(spots []live.Reading, selected int, rules families.Rules) {
	a, b, ok := live.PairOf(spots, selected)
	if !ok {
		p.from = pairedFrom{}
		p.Matched.Set([]widgets.Swatch{{None: true, Label: "Set two spots first"}})
		p.Judged.Set(nil)
		p.say("Set two spots: a local colour and the shadow chosen for it.")
		return
	}
	spotA, spotB := spots[a].Spot, spots[b].Spot
	from := pairedFrom{spotA.Oklab, spotB.Oklab, rules, p.Steps.Now().Shade, a, b, true}
	if from == p.from {
		return
	}
	p.from = from
	nameA, nameB := setup.SpotName(a), setup.SpotName(b)
	p.Matched.Set(matchSwatches(spotA, spotB, nameA, nameB))
	if spotA.Lightness < spotB.Lightness {
		spotA, spotB, nameA, nameB = spotB, spotA, nameB, nameA
	}
	p.judge(spotSwatch(spotA, nameA), spotSwatch(spotB, nameB), propose.JudgeShadow(spotA, spotB, rules, from.options.ShadowHue))
}

// judge says how a shadow does beside its light, and shows what would satisfy the rules.
func (p *PairPanel) judge(light, shadow widgets.Swatch, j propose.Judged) {
	all := []widgets.Swatch{light, shadow}
	if j.Nearest != nil {
		all = append(all, spotSwatch(*j.Nearest, "nearest"))
	}
	p.Judged.Set(all)
	p.say(strings.Join(wording.SayJudgement(j), " "))
}

func (p *PairPanel) say(words string) {
	if widgets.SetWords(p.JudgeWords, words) {
		p.LayOutPage()
	}
}

// CopyMatched copies B brought to A's lightness, or A brought to B's.
func CopyMatched(h *host.Host, spots []live.Reading, selected int, other bool) {
	a, b, ok := live.PairOf(spots, selected)
	if !ok {
		h.Messages.Note("Set two spots first: then B can be brought to A's lightness.")
		return
	}
	if other {
		a, b = b, a
	}
	h.CopyText(propose.Bring(spots[a].Spot, spots[b].Spot).Matched.Colour.Hex())
}
