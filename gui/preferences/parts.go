package preferences

import (
	"path/filepath"
	"slices"
	"strconv"

	"app.tonedesk/gui/language"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// themeWords are what the grounds are called.
var themeWords = map[settings.Theme]language.Words{settings.ThemeDark: "dark¦theme", settings.ThemeMiddle: "middle grey", settings.ThemeLight: "light¦theme", settings.ThemeContrast: "high contrast"}

// hatchWords are where what is beyond the limits is hatched.
var hatchWords = map[settings.Hatch]language.Words{settings.HatchStructure: "on Structure", settings.HatchAlways: "always", settings.HatchNever: "never"}

func (p *Page) window() []widgets.FormRow {
	theme := list(p, language.Say("Theme"), settings.Themes(), func(g settings.Theme) string { return themeWords[g].String() }, func(s *settings.Settings) *settings.Theme { return &s.Theme })
	theme.Note = language.Say("The grey around the picture. One near its own key changes its look least.")
	spoken := list(p, language.Say("Language"), append([]language.Language{""}, language.All()...), languageWord, func(s *settings.Settings) *language.Language { return &s.Language })
	spoken.Note = language.Say("From the next start on.")
	rows := []widgets.FormRow{theme, p.textSize(), spoken}
	if p.StayOnTop != nil {
		onTop := widgets.NewSwitch(p.now.KeepAbove, p.Keys, p.StayOnTop)
		p.sync = append(p.sync, func() { onTop.Set(p.now.KeepAbove) })
		rows = append(rows, widgets.FormRow{Name: language.Say("Stay on top"), Control: onTop})
	}
	tray := widgets.NewSwitch(p.now.Tray, p.Keys, p.Tray)
	return append(rows,
		widgets.FormRow{Name: wording.SayTray.String(), Control: tray, Note: wording.SayTrayNote.String()})
}

// textSize is set when the slider is let go: it grows with the text.
func (p *Page) textSize() widgets.FormRow {
	a := widgets.NewAmount(widgets.NewSlider(100, 200, 10, p.Keys), float64(p.now.TextPercent), percent, func(v float64) {
		p.set(func(s *settings.Settings) { s.TextPercent = int(v) })
	}, true)
	return widgets.FormRow{Name: language.Say("Text size"), Control: a, Note: language.Say("The window's words and buttons grow, the picture doesn't.")}
}

func (p *Page) measuring() []widgets.FormRow {
	same := p.amount(language.Say("Same lightness within"), 0.5, 5, 0.5, wording.Tenth, func(s *settings.Settings) *float64 { return &s.Tolerance })
	same.Note = language.Say("Lightness is L*, from 0 to 100. Half a tone is about 5.")
	return []widgets.FormRow{
		list(p, language.Say("Read, times a second"), []float64{0, 1, 2, 5, 10, 15, 20, 30, 60}, rate, func(s *settings.Settings) *float64 { return &s.PerSecond }),
		same,
		list(p, language.Say("A spot averages"), []int{1, 3, 5, 11}, func(v int) string { return language.Say("%d × %d pixels", v, v) }, func(s *settings.Settings) *int { return &s.SpotSize }),
		p.amount(language.Say("Too dark under"), 0, 20, 1, wording.Tenth, func(s *settings.Settings) *float64 { return &s.TooDark }),
		p.amount(language.Say("Too light over"), 80, 100, 1, wording.Tenth, func(s *settings.Settings) *float64 { return &s.TooLight }),
		list(p, language.Say("Hatch what is beyond"), settings.AllHatch, func(d settings.Hatch) string { return hatchWords[d].String() }, func(s *settings.Settings) *settings.Hatch { return &s.Hatch }),
		segments(p, language.Say("Value counts from"), []bool{false, true}, func(white bool) string {
			return map[bool]string{false: language.Say("black"), true: language.Say("white")}[white]
		}, func(s *settings.Settings) *bool { return &s.FromWhite }),
		p.amount(language.Say("A left-out colour spans"), 1, 12, 1, wording.Tenth, func(s *settings.Settings) *float64 { return &s.LikeWithin }),
	}
}

func (p *Page) display() []widgets.FormRow {
	chip := widgets.NewSwitch(p.now.PointerChip, p.Keys, func(on bool) { p.set(func(s *settings.Settings) { s.PointerChip = on }) })
	rows := []widgets.FormRow{
		p.displayColours(),
		{Name: language.Say("Reading beside the pointer"), Control: chip, Note: language.Say("While Read under the pointer (P) is on.")},
	}
	if p.LeaveOut != nil {
		out := widgets.NewSwitch(p.now.LeaveOut, p.Keys, p.LeaveOut)
		p.sync = append(p.sync, func() { out.Set(p.now.LeaveOut) })
		rows = append(rows, widgets.FormRow{Name: wording.SayLeaveOut.String(), Control: out, Note: wording.SayLeaveOutNote.String()})
	}
	return rows
}

// languageWord is what a language calls itself.
func languageWord(l language.Language) string {
	if l == "" {
		return language.Say("as the system")
	}
	return l.Own()
}

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
	return widgets.FormRow{Name: wording.SayDisplayColours.String(), Control: shown, Says: p.Shown}
}

// coloursWord is what colours are called: published spaces by their names.
func coloursWord(in settings.ColoursIn) string {
	switch in {
	case settings.ColoursOwn:
		return wording.SayOwnProfile.String()
	case settings.ColoursFile:
		return wording.SayProfileFile.String()
	}
	return string(in)
}

// rate says how often is read: 0 as often as it pays.
func rate(perSecond float64) string {
	if perSecond == 0 {
		return language.Say("automatic")
	}
	return wording.Whole(perSecond)
}

func (p *Page) stills() []widgets.FormRow {
	var rows []widgets.FormRow
	if p.Folder != "" {
		name := widgets.Shortened(filepath.Join(filepath.Base(filepath.Dir(p.Folder)), filepath.Base(p.Folder)), 20)
		rows = append(rows, widgets.FormRow{Name: language.Say("Folder"), Control: widgets.NewButton(name, p.Keys, p.ShowFolder)})
	}
	turns := p.amount(language.Say("In turns, change every"), settings.LeastTurn, settings.MostTurn, 0.1, func(v float64) string { return language.Say("%s\u00a0s", wording.Tenth(v)) }, func(s *settings.Settings) *float64 { return &s.TurnEvery })
	limit := list(p, language.Say("Stills may take"), []int{256, 512, 1024, 2048, 5120, 10240, 51200, 0}, room, func(s *settings.Settings) *int { return &s.StillsLimit })
	itself := list(p, language.Say("Keep by itself"), settings.KeepEvery(), every, func(s *settings.Settings) *int { return &s.KeepEvery })
	itself.Note = language.Say("While the picture changes, never while frozen.")
	own := list(p, language.Say("These may take"), []int{64, 128, 256, 512, 1024, 2048, 5120, 10240}, room, func(s *settings.Settings) *int { return &s.KeepLimit })
	own.Note = language.Say("Then the oldest go, but none with a name or notes.")
	return append(rows, limit, itself, own,
		segments(p, language.Say("Small pictures in"), []bool{false, true}, func(grey bool) string {
			return map[bool]string{false: language.Say("colour"), true: language.Say("greys")}[grey]
		}, func(s *settings.Settings) *bool { return &s.GreyStills }),
		turns)
}

// every says how often a picture is kept by itself.
func every(minutes int) string {
	if minutes == 0 {
		return language.Say("never")
	}
	return wording.SayEvery(minutes)
}

// room is what stills may take on the disk, in MiB; 0 for all there is.
func room(mib int) string {
	if mib == 0 {
		return language.Say("any room")
	}
	return wording.BytesSay(int64(mib) << 20)
}

func percent(v float64) string { return strconv.Itoa(int(v+0.5)) + wording.Nbsp + "%" }
