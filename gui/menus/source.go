package menus

import (
	"path/filepath"

	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// Source is what the source's menu shows and does.
type Source struct {
	Now    setup.Source
	Before []settings.Watched // the newest first
	Watch  func(setup.Source)

	Window                              func() // lists the windows to follow; nil where there is no way to do it
	Shares                              bool   // the desktop asks what to share, in place of choosing a region
	Region, Picture, Still, Part, Whole func() // choose one
}

// Rows are the menu's: what can be watched, which part of it, and what was watched before.
func (s Source) Rows() []widgets.MenuRow {
	one := func(i widgets.MenuItem) widgets.MenuRow { return widgets.MenuRow{Items: []widgets.MenuItem{i}} }
	demo := setup.Source{Kind: setup.SourceDemo}
	rows := []widgets.MenuRow{{Heading: language.Say("Watch")}}
	if s.Window != nil {
		rows = append(rows, one(widgets.MenuItem{Icon: icons.Window, Words: language.Say("Follow a window"), Keys: "Shift+R", Do: s.Window}))
	}
	region := language.Say("Choose a region")
	if s.Shares {
		region = wording.ShareScreen.String()
	}
	rows = append(rows,
		one(widgets.MenuItem{Icon: icons.Region, Words: region, Keys: "R", Do: s.Region}),
		one(widgets.MenuItem{Icon: icons.File, Words: language.Say("Open a picture"), Keys: "Ctrl+O", Do: s.Picture}),
		one(widgets.MenuItem{Icon: icons.Still, Words: language.Say("A still"), On: s.Now.Kind == setup.SourceStill, Do: s.Still}),
		one(widgets.MenuItem{Words: language.Say("The demo painting"), On: s.Now.Kind == setup.SourceDemo, Do: func() { s.Watch(demo) }}))
	if s.Now.Kind != setup.SourceNothing {
		rows = append(rows,
			widgets.MenuRow{Rule: true, Heading: language.Say("Part of it")},
			one(widgets.MenuItem{Icon: icons.ZoomFit, Words: language.Say("Watch a part only"), Keys: "W", Do: s.Part}),
			one(widgets.MenuItem{Words: language.Say("Watch all of it"), Keys: "E", Do: s.Whole}))
	}
	for i, w := range s.Before {
		row := one(s.before(w))
		if i == 0 {
			row.Rule, row.Heading = true, language.Say("Before")
		}
		rows = append(rows, row)
	}
	return rows
}

// nameLetters is how many letters of a file's name are shown.
const nameLetters = 28

// before is an entry of what was watched.
func (s Source) before(w settings.Watched) widgets.MenuItem {
	from, item := w.Source(), widgets.MenuItem{Icon: icons.File}
	switch from.Kind {
	case setup.SourceRegion:
		item.Icon, item.Words = icons.Region, wording.SayRegion(from.Region.Dx(), from.Region.Dy())
	case setup.SourceWindow:
		item.Icon, item.Words = icons.Window, windowName(from)
	case setup.SourceShared:
		item.Icon, item.Words = icons.Region, wording.SharedScreen.String()
	default:
		item.Words = widgets.Shortened(filepath.Base(from.Path), nameLetters)
	}
	item.On = from.Feed() == s.Now.Feed() || from.Region == s.Now.Region && from.SameWindow(s.Now)
	item.Do = func() { s.Watch(from) }
	return item
}
