package proposals

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// JudgePanel says how two spots do as light and shadow, and what shadow would satisfy the rules.
type JudgePanel struct {
	*host.Host
	Box    *fyne.Container
	Judged *widgets.SwatchRow
	Words  *widget.Label
	from   judgedFrom // what was said of them; zero for nothing
}

// judgedFrom is all that what is said of two spots depends on.
type judgedFrom struct {
	a, b           colour.Oklab
	rules          families.Rules
	options        propose.Options
	indexA, indexB int
	made           bool
}

// NewJudgePanel returns a panel without spots.
func NewJudgePanel(h *host.Host) *JudgePanel {
	p := &JudgePanel{Host: h, Words: widgets.SmallLabel()}
	plan := widgets.SwatchPlan{Height: widgets.SwatchHeight, Greys: 2 * widgets.Step, Labels: true}
	p.Judged = widgets.NewSwatchRow(plan, swatchActs(h))
	p.Box = widgets.Card(widgets.Step/2, widgets.NewLine(language.Say("The pair as light and shadow"), language.Say("Light and shadow")), p.Judged, p.Words)
	return p
}

// Show renews what is said of A and the selected spot, or else B, if that has changed.
func (p *JudgePanel) Show(spots []live.Reading, selected int, rules families.Rules) {
	a, b, ok := live.PairOf(spots, selected)
	if !ok {
		p.from = judgedFrom{}
		p.Judged.Hide()
		p.say(language.Say("Set two spots: a local colour and the shadow chosen for it."))
		return
	}
	p.Judged.Show()
	spotA, spotB := spots[a].Spot, spots[b].Spot
	from := judgedFrom{spotA.Oklab, spotB.Oklab, rules, p.Steps.Now().Shade, a, b, true}
	if from == p.from {
		return
	}
	p.from = from
	nameA, nameB := setup.SpotName(a), setup.SpotName(b)
	if spotA.Lightness < spotB.Lightness {
		spotA, spotB, nameA, nameB = spotB, spotA, nameB, nameA
	}
	p.judge(spotSwatch(spotA, nameA), spotSwatch(spotB, nameB), propose.JudgeShadow(spotA, spotB, rules, from.options.ShadowHue))
}

// judge says how a shadow does beside its light, and shows what would satisfy the rules.
func (p *JudgePanel) judge(light, shadow widgets.Swatch, j propose.Judged) {
	all := []widgets.Swatch{light, shadow}
	if j.Nearest != nil {
		all = append(all, spotSwatch(*j.Nearest, language.Say("nearest")))
	}
	p.Judged.Set(all)
	p.say(strings.Join(wording.SayJudgement(j), " "))
}

func (p *JudgePanel) say(words string) {
	if widgets.SetWords(p.Words, words) {
		p.LayOutPage()
	}
}

// CopyMatched copies B brought to A's lightness, or A brought to B's.
func CopyMatched(h *host.Host, spots []live.Reading, selected int, other bool) {
	a, b, ok := live.PairOf(spots, selected)
	if !ok {
		h.Messages.Note(language.Say("Set two spots first: then B can be brought to A's lightness"))
		return
	}
	if other {
		a, b = b, a
	}
	h.CopyText(propose.Bring(spots[a].Spot, spots[b].Spot).Matched.Colour.Hex())
}
