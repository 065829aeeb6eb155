package widgets

import (
	"image/color"
	"reflect"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/wording"
)

// GroupsActs are the callbacks for what the painter does with the card of groups.
type GroupsActs struct {
	Count  func(n int)        // so many groups are wanted, 0 for as many as the picture needs
	Ground func(without bool) // the groups are to be without the ground, or of the whole picture
	Keys   Keys
	Tips   *Tips
}

// GroupsCard shows a picture's groups: one bar of their greys with their shares, their names below,
// how many tones lie between them, and how many there are to be.
type GroupsCard struct {
	drawn
	text wording.GroupsText
	acts GroupsActs

	frame  *canvas.Rectangle // a hairline: a grey may be like the panel
	boxes  [analysis.MaxGroups]*canvas.Rectangle
	shares [analysis.MaxGroups]*canvas.Text
	names  [analysis.MaxGroups]*canvas.Text
	under  [analysis.MaxGroups]*canvas.Text      // their second lines
	rules  [analysis.MaxGroups]*canvas.Rectangle // at the borders
	gaps   [analysis.MaxGroups]*canvas.Text
	count  [2][2]*Chooser // by whether the borders are set by hand, and whether its words are short
	Ground *Button
	murk   *canvas.Text
	quiet  []*canvas.Text // as many as there ever were
}

// groupCounts are the numbers of groups that can be asked for, by the segment's place.
var groupCounts = []int{0, 2, 3, analysis.MaxGroups}

// NewGroupsCard returns a card without groups.
func NewGroupsCard(acts GroupsActs) *GroupsCard {
	g := &GroupsCard{acts: acts}
	g.frame = g.addBox()
	for i := range g.boxes {
		g.boxes[i], g.shares[i] = g.addBox(), g.addText(SmallSize, fyne.TextStyle{})
		g.names[i], g.under[i] = g.addText(SmallSize, fyne.TextStyle{}), g.addText(SmallSize, fyne.TextStyle{})
		g.rules[i], g.gaps[i] = g.addBox(), g.addText(SmallSize, fyne.TextStyle{})
	}
	for i := range g.count {
		for j := range g.count[i] {
			g.count[i][j] = add(&g.drawn, NewChooser(segments(i == 1, j == 1), acts.Keys, g.choose))
		}
	}
	g.Ground = add(&g.drawn, NewIconButton(icons.LeaveOut, acts.Keys, func() { acts.Ground(!g.text.Ground) }))
	g.murk = g.addText(TextSize, fyne.TextStyle{})
	g.draw(g)
	return g
}

// choose asks for another number of groups. The segment of borders set by hand is shown for what
// is so: there is nothing to choose.
func (g *GroupsCard) choose(i int) {
	if i < len(groupCounts) {
		g.acts.Count(groupCounts[i])
	}
}

// Set shows t; the same once more costs nothing.
func (g *GroupsCard) Set(t wording.GroupsText) {
	if !sameText(t, g.text) {
		g.text = t
		g.redraw()
	}
}

// sameText reports whether two cards show the same. What is unknown equals nothing, not even itself:
// gaps are compared by their words.
func sameText(a, b wording.GroupsText) bool {
	if !slices.EqualFunc(a.Gaps, b.Gaps, func(x, y float64) bool { return gapWords(x) == gapWords(y) }) {
		return false
	}
	a.Gaps, b.Gaps = nil, nil
	return reflect.DeepEqual(a, b)
}

func gapWords(tones float64) string {
	full, _ := wording.SayGap(tones)
	return full
}

// Count is the row of segments that is shown.
func (g *GroupsCard) Count() *Chooser {
	return g.count[index(g.text.ByHand)][index(g.plan(g.Size().Width).short)]
}

func index(second bool) int {
	if second {
		return 1
	}
	return 0
}

// Words are all that is said, for who can't see the card.
func (g *GroupsCard) Words() (words []string) {
	p := g.plan(g.Size().Width)
	for _, list := range [][]placedWords{p.shares, p.names, p.under, p.gaps} {
		for _, w := range list {
			words = append(words, w.words)
		}
	}
	return append(append(words, g.text.Murk), p.quiet...)
}

func (g *GroupsCard) plan(width float32) groupsPlan { return planGroups(g.text, width) }

// MouseIn and MouseMoved explain the murk.
func (g *GroupsCard) MouseIn(e *desktop.MouseEvent) { g.MouseMoved(e) }

// MouseMoved explains the murk.
func (g *GroupsCard) MouseMoved(e *desktop.MouseEvent) {
	if g.murk.Text != "" && inside(e.Position, g.murk) {
		g.acts.Tips.enter(wording.MurkTip.String(), g.murk)
	} else {
		g.acts.Tips.Leave()
	}
}

// MouseOut lets the tip go.
func (g *GroupsCard) MouseOut() { g.acts.Tips.Leave() }

// write puts in the greys and the words that fit.
func (g *GroupsCard) write(size fyne.Size, of colours) {
	p := g.plan(size.Width)
	quiet, fore := of(ColorNameQuiet), of(theme.ColorNameForeground)
	fill(g.frame, of(ColorNameHairline))
	for i := range g.boxes {
		there := i < len(g.text.Groups)
		show(g.boxes[i], there)
		ink := quiet
		if there {
			mean := g.text.Groups[i].Mean
			fill(g.boxes[i], greyFill(colour.GreyOf(mean)))
			ink = legibleOn(mean)
		}
		say(g.shares[i], nth(p.shares, i).words, ink)
		say(g.names[i], nth(p.names, i).words, fore)
		say(g.under[i], nth(p.under, i).words, fore)
		say(g.gaps[i], nth(p.gaps, i).words, quiet)
		fill(g.rules[i], of(ColorNameHairline))
		show(g.rules[i], i+1 < len(g.text.Groups))
	}
	g.writeChoice(p)
	murk := ""
	if p.murk.w > 0 {
		murk = g.text.Murk
	}
	say(g.murk, murk, fore)
	for len(g.quiet) < len(p.quiet) {
		g.quiet = append(g.quiet, g.addText(SmallSize, fyne.TextStyle{}))
	}
	for i, t := range g.quiet {
		say(t, nth(p.quiet, i), quiet)
	}
}

// writeChoice shows how many groups are asked for, and of what.
func (g *GroupsCard) writeChoice(p groupsPlan) {
	chosen := len(groupCounts)
	for i, n := range groupCounts {
		if n == g.text.Asked && !g.text.ByHand {
			chosen = i
		}
	}
	for i := range g.count {
		for j, c := range g.count[i] {
			c.Set(chosen)
			show(c, i == index(g.text.ByHand) && j == index(p.short))
		}
	}
	g.Ground.SetOn(g.text.Ground)
	tip := language.Say("Groups without the ground")
	if g.text.Ground {
		tip = language.Say("Groups of the whole picture again")
	}
	g.Ground.Explain(g.acts.Tips, tip)
}

func (g *GroupsCard) place(size fyne.Size) {
	p := g.plan(size.Width)
	put(g.frame, fyne.Position{}, fyne.NewSize(size.Width, groupBarHigh))
	for i := range g.text.Groups {
		put(g.boxes[i], fyne.NewPos(p.edges[i], 1), fyne.NewSize(p.edges[i+1]-p.edges[i], groupBarHigh-2))
		placeText(g.shares[i], p.shares[i].x, (groupBarHigh-g.shares[i].MinSize().Height)/2)
		placeText(g.names[i], p.names[i].x, p.words[0])
		placeText(g.under[i], p.under[i].x, p.words[0]+quietLine())
		put(g.rules[i], fyne.NewPos(p.edges[i+1], groupBarHigh+2), fyne.NewSize(1, p.words[1]-groupBarHigh))
		placeText(g.gaps[i], nth(p.gaps, i).x, p.words[1])
	}
	for i := range g.count {
		for _, c := range g.count[i] {
			put(c, p.choose.position(), p.choose.size())
		}
	}
	put(g.Ground, p.ground.position(), p.ground.size())
	placeText(g.murk, p.murk.x, p.murk.y+(p.murk.h-g.murk.MinSize().Height)/2)
	for i, t := range g.quiet {
		placeText(t, 0, p.quietAt+float32(i)*quietLine())
	}
}

// minSize is as high as its lines in the width of now.
func (g *GroupsCard) minSize() fyne.Size {
	return fyne.NewSize(30*Step, g.plan(max(g.Size().Width, 30*Step)).height)
}

// legibleOn returns the grey, black or white, that stands out more on a lightness; its
// contrast is 4.5 to 1 at least (WCAG 2.2, success criterion 1.4.3).
func legibleOn(lightness float64) color.Color {
	if y := colour.LuminanceOf(lightness); (1+0.05)/(y+0.05) > (y+0.05)/0.05 {
		return color.White
	}
	return color.Black
}
