package preferences

import (
	"fmt"
	"path/filepath"
	"slices"
	"strconv"

	"app.tonedesk/analysis/growth"
	"app.tonedesk/analysis/light"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// themeWords are what the grounds are called.
var themeWords = map[settings.Theme]string{settings.ThemeDark: "dark", settings.ThemeMiddle: "middle grey", settings.ThemeLight: "light", settings.ThemeContrast: "high contrast"}

// hatchWords are where what is beyond the limits is hatched.
var hatchWords = map[settings.Hatch]string{settings.HatchStructure: "on Structure", settings.HatchAlways: "always", settings.HatchNever: "never"}

func (p *Page) window() []widgets.FormRow {
	theme := list(p, "Theme", settings.Themes(), func(g settings.Theme) string { return themeWords[g] }, func(s *settings.Settings) *settings.Theme { return &s.Theme })
	theme.Note = "The grey around the picture. One near its own key changes its look least."
	onTop := widgets.NewSwitch(p.now.KeepAbove, p.Keys, p.StayOnTop)
	p.sync = append(p.sync, func() { onTop.Set(p.now.KeepAbove) })
	chip := widgets.NewSwitch(p.now.PointerChip, p.Keys, func(on bool) { p.set(func(s *settings.Settings) { s.PointerChip = on }) })
	tray := widgets.NewSwitch(p.now.Tray, p.Keys, p.Tray)
	return []widgets.FormRow{theme, p.textSize(), {Name: "Stay on top", Control: onTop},
		{Name: "Reading beside the pointer", Control: chip, Note: "While Read under the pointer, P, is on."},
		{Name: wording.SayTray, Control: tray, Note: wording.SayTrayNote}}
}

// textSize is set when the slider is let go: it grows with the text.
func (p *Page) textSize() widgets.FormRow {
	a := widgets.NewAmount(widgets.NewSlider(100, 200, 10, p.Keys), float64(p.now.TextPercent), percent, func(v float64) {
		p.set(func(s *settings.Settings) { s.TextPercent = int(v) })
	}, true)
	return widgets.FormRow{Name: "Text size", Control: a, Note: "The window's words and buttons grow, the picture doesn't."}
}

func (p *Page) measuring() []widgets.FormRow {
	same := p.amount("Same lightness within", 0.5, 5, 0.5, wording.Tenth, func(s *settings.Settings) *float64 { return &s.Tolerance })
	same.Note = "Lightness is L*, from 0 to 100. Half a tone is about 5."
	return []widgets.FormRow{
		list(p, "Read, times a second", []float64{0, 1, 2, 5, 10, 15, 20, 30, 60}, rate, func(s *settings.Settings) *float64 { return &s.PerSecond }),
		same,
		list(p, "A spot averages", []int{1, 3, 5, 11}, func(v int) string { return fmt.Sprintf("%d × %d pixels", v, v) }, func(s *settings.Settings) *int { return &s.SpotSize }),
		p.amount("Too dark under", 0, 20, 1, wording.Tenth, func(s *settings.Settings) *float64 { return &s.TooDark }),
		p.amount("Too light over", 80, 100, 1, wording.Tenth, func(s *settings.Settings) *float64 { return &s.TooLight }),
		list(p, "Hatch what is beyond", settings.AllHatch, func(d settings.Hatch) string { return hatchWords[d] }, func(s *settings.Settings) *settings.Hatch { return &s.Hatch }),
		segments(p, "Value counts from", []bool{false, true}, func(white bool) string { return map[bool]string{false: "black", true: "white"}[white] }, func(s *settings.Settings) *bool { return &s.FromWhite }),
		p.amount("A left-out colour spans", 1, 12, 1, wording.Tenth, func(s *settings.Settings) *float64 { return &s.LikeWithin }),
	}
}

func (p *Page) display() []widgets.FormRow { return []widgets.FormRow{p.displayColours()} }

// displayColours is in which colours the display shows what it is given that the watched source lies on.
func (p *Page) displayColours() widgets.FormRow {
	all := settings.AllColours()
	choose := func(monitor string, c settings.Colours) {
		p.set(func(s *settings.Settings) { *s = s.WithColours(monitor, c) })
	}
	now := func() int { return max(0, slices.Index(all, p.now.ColoursOf(p.Monitor()).In)) }
	var shown *widgets.Picklist
	shown = widgets.NewPicklist(words(all, coloursWord), now(), p.Keys, p.OpenList, func(i int) {
		if all[i] != settings.ColoursFile {
			choose(p.Monitor(), settings.Colours{In: all[i]})
			return
		}
		monitor := p.Monitor()
		shown.Set(now()) // until a file is chosen
		p.AskProfileFile(func(path string) { choose(monitor, settings.Colours{In: all[i], File: path}) })
	})
	shown.Again = func(i int) bool { return all[i] == settings.ColoursFile } // another file
	p.sync = append(p.sync, func() { shown.Set(now()) })
	return widgets.FormRow{Name: wording.SayDisplayColours, Control: shown, Says: p.Shown}
}

// coloursWord is what colours are called: published spaces by their names.
func coloursWord(in settings.ColoursIn) string {
	switch in {
	case settings.ColoursOwn:
		return wording.SayOwnProfile
	case settings.ColoursFile:
		return wording.SayProfileFile
	}
	return string(in)
}

// rate says how often is read: 0 as often as it pays.
func rate(perSecond float64) string {
	if perSecond == 0 {
		return "automatic"
	}
	return wording.Whole(perSecond)
}

func (p *Page) rules() []widgets.FormRow {
	degrees := func(v float64) string { return wording.Whole(v) + "°" }
	share := func(v float64) string { return percent(100 * v) }
	rows := []widgets.FormRow{
		p.amount("Shadow range from", 0.5, 3, 0.5, wording.SayTones, func(s *settings.Settings) *float64 { return &s.Rules.LeastTones }),
		p.amount("to", 2, 8, 0.5, wording.SayTones, func(s *settings.Settings) *float64 { return &s.Rules.MostTones }),
		p.amount("Neutral is chroma under", 4, 12, 1, wording.Whole, func(s *settings.Settings) *float64 { return &s.Rules.LeastChroma }),
		p.amount("Smallest hue shift", 4, 16, 1, degrees, func(s *settings.Settings) *float64 { return &s.Rules.LeastTurn }),
		p.amount("Richer is a gain over", 0, 0.2, 0.01, share, func(s *settings.Settings) *float64 { return &s.Rules.MostGain }),
		p.amount("An accent keeps within", 1, 5, 0.5, wording.Tenth, func(s *settings.Settings) *float64 { return &s.Rules.KeepsWithin }),
		p.amount("Shadows agree within", light.LeastTones, light.MostTones, 0.1, wording.SayTones, func(s *settings.Settings) *float64 { return &s.AgreeWithin }),
		p.amount("A line may vanish above", 8, 10, 0.5, wording.Tenth, func(s *settings.Settings) *float64 { return &s.Rules.VanishAbove }),
	}
	rows[len(rows)-1].Note = "Common practice of the trade, no source. Style may break it."
	return rows
}

func (p *Page) stills() []widgets.FormRow {
	var rows []widgets.FormRow
	if p.Folder != "" {
		name := widgets.Shortened(filepath.Join(filepath.Base(filepath.Dir(p.Folder)), filepath.Base(p.Folder)), 20)
		rows = append(rows, widgets.FormRow{Name: "Folder", Control: widgets.NewButton(name, p.Keys, p.ShowFolder)})
	}
	turns := p.amount("In turns, change every", settings.LeastTurn, settings.MostTurn, 0.1, func(v float64) string { return wording.Tenth(v) + wording.Nbsp + "s" }, func(s *settings.Settings) *float64 { return &s.TurnEvery })
	limit := list(p, "Stills may take", []int{256, 512, 1024, 2048, 5120, 10240, 51200, 0}, room, func(s *settings.Settings) *int { return &s.StillsLimit })
	itself := list(p, "Keep by itself", settings.KeepEvery(), every, func(s *settings.Settings) *int { return &s.KeepEvery })
	itself.Note = "While the picture changes, never while frozen."
	own := list(p, "These may take", []int{64, 128, 256, 512, 1024, 2048, 5120, 10240}, room, func(s *settings.Settings) *int { return &s.KeepLimit })
	own.Note = "Then the oldest go, but none with a name or notes."
	return append(rows, limit, itself, own,
		p.amount("A series turns from", growth.LeastTones, growth.MostTones, 0.1, wording.SayTones, func(s *settings.Settings) *float64 { return &s.TurnFrom }),
		segments(p, "Small pictures in", []bool{false, true}, func(grey bool) string { return map[bool]string{false: "colour", true: "greys"}[grey] }, func(s *settings.Settings) *bool { return &s.GreyStills }),
		turns)
}

// every says how often a picture is kept by itself.
func every(minutes int) string {
	if minutes == 0 {
		return "never"
	}
	return wording.SayEvery(minutes)
}

// room is what stills may take on the disk, in MiB; 0 for all there is.
func room(mib int) string {
	if mib == 0 {
		return "any room"
	}
	return wording.BytesSay(int64(mib) << 20)
}

func percent(v float64) string { return strconv.Itoa(int(v+0.5)) + wording.Nbsp + "%" }
