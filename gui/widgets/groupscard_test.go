package widgets

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/wording"
)

// groupsText is a card about groups, so many tones apart.
func groupsText(groups []analysis.Group, gaps ...float64) wording.GroupsText {
	t := wording.GroupsText{Groups: groups, Shares: wording.GroupShares(groups), Gaps: gaps, Murk: "Murk 14 %",
		Limits: []string{"Too dark 0.5 %, too light 4.2 %, hatched in the picture", "Too dark 0.5 %, too light 4.2 %"}}
	for _, g := range groups {
		t.Names = append(t.Names, wording.GroupName{Full: g.Name, Short: g.Name})
	}
	return t
}

// groupsOfFour are a picture's, with names as they are.
func groupsOfFour(shares ...float64) wording.GroupsText {
	var groups []analysis.Group
	for i, name := range []string{"dark", "dark middle", "light middle", "light"} {
		groups = append(groups, analysis.Group{Name: name, Share: shares[i], Mean: float64(20 + 25*i)})
	}
	t := groupsText(groups, 2.5, 2, 1.6)
	t.Names[1].Short, t.Names[2].Short = "dark mid", "light mid"
	return t
}

// inText is the theme with text of so many percent.
func inText(t *testing.T, percent int) {
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.ThemeDark, percent))
}

// What is said where, in the window's usual width and in its least: the spec's page of what
// shortens (our choice).
func TestGroupsShorten(t *testing.T) {
	inText(t, 100)
	for _, tt := range []struct {
		width float32
		names string
		gap   string // the first, darkest
		quiet string
	}{
		{348, "[dark dark middle light middle light]", "2.5 tones", "[Too dark 0.5 %, too light 4.2 %, hatched in the picture]"},
		{288, "[dark dark mid light middle light]", "2.5", "[Too dark 0.5 %, too light 4.2 %]"},
	} {
		p := planGroups(groupsOfFour(0.21, 0.23, 0.34, 0.22), tt.width)
		var names []string
		for _, n := range p.names {
			names = append(names, n.words)
		}
		if fmt.Sprint(names) != tt.names || fmt.Sprint(p.quiet) != tt.quiet || strings.ReplaceAll(p.gaps[0].words, "\u00a0", " ") != tt.gap {
			t.Errorf("%g wide: %v, %q, %v", tt.width, names, p.gaps[0].words, p.quiet)
		}
	}
}

// A name that finds no room in one line stands in two, at the size at which that may be: so four
// groups of a usual picture are all named, and the lines stay as shares change.
func TestGroupNamesInTwoLines(t *testing.T) {
	for _, tt := range []struct {
		percent int
		names   string
	}{
		{100, "dark, dark middle, light middle, light"},
		{150, "dark, dark/middle, light middle, light"},
		{200, "dark, dark/mid, light/middle, light"},
	} {
		inText(t, tt.percent)
		p, even := planGroups(groupsOfFour(0.21, 0.23, 0.34, 0.22), 348), planGroups(groupsOfFour(0.01, 0.49, 0.49, 0.01), 348)
		var names []string
		for i, n := range p.names {
			names = append(names, strings.TrimSuffix(n.words+"/"+p.under[i].words, "/"))
		}
		if got := strings.Join(names, ", "); got != tt.names || p.words != even.words {
			t.Errorf("text %d %%: %s, want %s; gaps at %v, with other shares at %v", tt.percent, got, tt.names, p.words, even.words)
		}
	}
}

// Whatever the groups, the width and the size of text: nothing lies over another thing or beyond
// the card, and what can be pressed is 32 wide and high at least.
func TestGroupsNeverOverlap(t *testing.T) {
	for _, percent := range []int{100, 125, 150, 175, 200} {
		inText(t, percent)
		rapid.Check(t, func(t *rapid.T) {
			text := randomGroups(t)
			card := NewGroupsCard(GroupsActs{Keys: &heardKeys{}})
			card.Set(text)
			width := float32(rapid.IntRange(304, 484).Draw(t, "width")) - 2*Step
			test.WidgetRenderer(card)
			card.Resize(fyne.NewSize(width, 10))
			card.Resize(fyne.NewSize(width, card.MinSize().Height))
			wantApart(t, card)
			c := card.Count()
			for i, at := 0, c.slots(c.Size().Width); i < len(c.choices); i++ {
				if wide := at[i+1] - at[i]; wide < 32-0.5 || c.Size().Height < 32 {
					t.Fatalf("segment %q is %g by %g", c.choices[i].Word, wide, c.Size().Height)
				}
			}
			if s := card.Ground.Size(); s.Width < 32 || s.Height < 32 {
				t.Fatalf("the button is %v", s)
			}
		})
	}
}

func randomGroups(t *rapid.T) wording.GroupsText {
	weights := rapid.SliceOfN(rapid.Float64Range(0, 1), 4, 4).Draw(t, "shares")
	sum := weights[0] + weights[1] + weights[2] + weights[3] + 1e-9
	for i := range weights {
		weights[i] /= sum
	}
	text := groupsOfFour(weights...)
	if rapid.Bool().Draw(t, "empty") {
		text.Gaps[1] = math.NaN()
	}
	text.ByHand = rapid.Bool().Draw(t, "by hand")
	if rapid.Bool().Draw(t, "small") {
		text.Small = "At 64 pixels: dark and dark middle become one, light middle and light 1.2 tones apart instead of 1.6."
	}
	return text
}

// fataler is a test, or a case of a law.
type fataler interface {
	Helper()
	Fatalf(string, ...any)
}

// wantApart wants the texts and parts of a widget apart from each other and within it. Boxes lie
// behind words on purpose.
func wantApart(t fataler, w fyne.Widget) {
	t.Helper()
	var boxes []namedBox
	for _, o := range test.WidgetRenderer(w).Objects() {
		if !o.Visible() {
			continue
		}
		switch o := o.(type) {
		case *canvas.Text:
			if o.Text != "" {
				boxes = append(boxes, namedBox{o.Text, o.Position(), o.MinSize()})
			}
		case *Chooser, *Button:
			boxes = append(boxes, namedBox{fmt.Sprintf("%T", o), o.Position(), o.Size()})
		}
	}
	for i, a := range boxes {
		if a.pos.X < -0.5 || a.pos.X+a.size.Width > w.Size().Width+0.5 || a.pos.Y+a.size.Height > w.Size().Height+4 {
			t.Fatalf("%q at %v, %v is beyond %v", a.name, a.pos, a.size, w.Size())
		}
		for _, b := range boxes[:i] {
			if a.over(b) {
				t.Fatalf("%q at %v, %v lies over %q at %v, %v", a.name, a.pos, a.size, b.name, b.pos, b.size)
			}
		}
	}
}

type namedBox struct {
	name string
	pos  fyne.Position
	size fyne.Size
}

// over reports whether two boxes overlap by more than the room that letters leave above and below.
func (a namedBox) over(b namedBox) bool {
	across := min(a.pos.X+a.size.Width, b.pos.X+b.size.Width) - max(a.pos.X, b.pos.X)
	down := min(a.pos.Y+a.size.Height, b.pos.Y+b.size.Height) - max(a.pos.Y, b.pos.Y)
	return across > 0.5 && down > min(a.size.Height, b.size.Height)/4
}
