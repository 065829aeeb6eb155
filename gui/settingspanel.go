package gui

import (
	"fmt"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// choice is one setting as a row of the panel: its words and what they stand for. A new
// setting is one entry in choices.
type choice struct {
	name    string
	words   []string
	at      func(settings.Settings) int // index into words
	set     func(s *settings.Settings, at int)
	explain string // a quiet line below
}

// choiceOf makes a choice among values.
func choiceOf[T comparable](name string, values []T, word func(T) string, field func(*settings.Settings) *T) choice {
	c := choice{
		name: name,
		at:   func(s settings.Settings) int { return slices.Index(values, *field(&s)) },
		set:  func(s *settings.Settings, at int) { *field(s) = values[at] },
	}
	for _, v := range values {
		c.words = append(c.words, word(v))
	}
	return c
}

func (c choice) because(explain string) choice {
	c.explain = explain
	return c
}

func choices() []choice {
	return []choice{
		choiceOf("Ground", settings.Grounds(), func(g settings.Ground) string { return string(g) }, func(s *settings.Settings) *settings.Ground { return &s.Ground }).
			because("The grey around the picture. One near the picture's own key changes its look least."),
		choiceOf("Looks a second", []float64{1, 2, 5, 10, 15, 20, 30, 60}, func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) },
			func(s *settings.Settings) *float64 { return &s.PerSecond }),
		choiceOf("Same lightness up to", []float64{0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5}, wording.Tenth,
			func(s *settings.Settings) *float64 { return &s.Tolerance }).
			because("Lightness is L*, from 0 to 100. Half a tone is about 5."),
		choiceOf("Left out is a colour", []float64{1, 2, 3, 4, 6, 8, 12}, func(v float64) string { return "within " + wording.Tenth(v) },
			func(s *settings.Settings) *float64 { return &s.LikeWithin }).
			because("As far, in L*a*b*, it may be from the one you click, where it hangs together with it or the border."),
		choiceOf("A spot averages", []int{1, 3, 5, 11}, func(v int) string { return fmt.Sprintf("%d × %d pixels", v, v) },
			func(s *settings.Settings) *int { return &s.SpotSize }),
		choiceOf("Groups", []int{0, 2, 3, 4}, func(v int) string {
			if v == 0 {
				return "automatic"
			}
			return strconv.Itoa(v)
		}, func(s *settings.Settings) *int { return &s.Groups }),
		choiceOf("Groups of", []bool{false, true}, func(without bool) string {
			if without {
				return "without the ground"
			}
			return "whole picture"
		}, func(s *settings.Settings) *bool { return &s.NoGround }),
		choiceOf("Too dark under", []float64{0, 2, 4, 6, 8, 10, 12, 15, 20}, wording.Tenth, func(s *settings.Settings) *float64 { return &s.TooDark }),
		choiceOf("Too light over", []float64{80, 85, 90, 92, 94, 95, 96, 97, 98, 99, 100}, wording.Tenth, func(s *settings.Settings) *float64 { return &s.TooLight }),
		choiceOf("Dot what is beyond", settings.AllDots, func(v settings.Dots) string {
			if v == settings.DotsStructure {
				return "on the page Structure"
			}
			return string(v)
		}, func(s *settings.Settings) *settings.Dots { return &s.Dots }),
		choiceOf("A shadow reads", []float64{0.5, 1, 1.5, 2, 2.5, 3}, func(v float64) string { return "from " + wording.SayTones(v) }, func(s *settings.Settings) *float64 { return &s.Rules.LeastTones }),
		choiceOf("And it does", []float64{2, 2.5, 3, 3.5, 4, 5, 6, 8}, func(v float64) string { return "up to " + wording.SayTones(v) }, func(s *settings.Settings) *float64 { return &s.Rules.MostTones }).
			because("Two to three tones are the trade's rule of thumb. Style may break it."),
		choiceOf("Neutral is", []float64{4, 6, 8, 10, 12}, func(v float64) string { return "chroma under " + wording.Whole(v) }, func(s *settings.Settings) *float64 { return &s.Rules.LeastChroma }),
		choiceOf("A hue shift counts", []float64{4, 6, 8, 10, 12, 15}, func(v float64) string { return "from " + wording.Whole(v) + "°" }, func(s *settings.Settings) *float64 { return &s.Rules.LeastTurn }),
		choiceOf("A shadow is richer", []float64{0, 0.05, 0.1, 0.15, 0.2}, func(v float64) string { return "over " + wording.Whole(100*v) + wording.Nbsp + "% gain" }, func(s *settings.Settings) *float64 { return &s.Rules.MostGain }).
			because("A shadow with no such shift that gets no richer goes straight toward black."),
		choiceOf("An accent is as light", []float64{1, 2, 3, 4, 5}, func(v float64) string { return "within " + wording.Tenth(v) }, func(s *settings.Settings) *float64 { return &s.Rules.KeepsWithin }),
		choiceOf("A line may vanish", []float64{8, 8.5, 9, 9.5, 10}, func(v float64) string { return "above value " + wording.Tenth(v) }, func(s *settings.Settings) *float64 { return &s.Rules.VanishAbove }),
		choiceOf("Stills may take", []int{256, 512, 1024, 2048, 5120, 10240, 51200, 0}, func(v int) string {
			if v == 0 {
				return "any room"
			}
			return wording.BytesSay(int64(v) << 20)
		}, func(s *settings.Settings) *int { return &s.StillsLimit }).
			because("Beyond that, the page of stills says what would be removed, and asks before it removes anything."),
		choiceOf("Value counts from", []bool{false, true}, func(white bool) string {
			if white {
				return "white"
			}
			return "black"
		}, func(s *settings.Settings) *bool { return &s.FromWhite }),
	}
}

// newSettingsPanel shows the settings of now; changed is called after each change,
// with what they were.
func newSettingsPanel(s *settings.Settings, changed func(was settings.Settings), quiet func(string) fyne.CanvasObject) fyne.CanvasObject {
	rows := container.NewVBox()
	for _, c := range choices() {
		pick := widgets.NewSelect(c.words, nil)
		if at := c.at(*s); at >= 0 {
			pick.SetSelectedIndex(at)
		} else {
			pick.PlaceHolder = "another"
		}
		pick.OnChanged = func(word string) { // set after the first choice, which is not a change
			was := *s
			c.set(s, slices.Index(c.words, word))
			changed(was)
		}
		label := widget.NewLabel(c.name)
		label.Truncation = fyne.TextTruncateEllipsis
		rows.Add(container.New(layout.NewGridLayout(2), label, pick))
		if c.explain != "" {
			rows.Add(quiet(c.explain))
		}
	}
	rows.Add(quiet("The display is taken to be sRGB: on another one, in print, or at another brightness lightness differs."))
	return rows
}
