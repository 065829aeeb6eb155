package preferences

import (
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/widgets"
)

// Acts are what the page asks of the window.
type Acts struct {
	Changed    func(was settings.Settings) // settings were changed; was are those before
	StayOnTop  func(on bool)               // nil where the desktop does not
	Tray       func(on bool)
	LeaveOut   func(on bool) // of pictures of the screen; nil where the system offers no way
	Folder     string        // where stills are kept; "" for nowhere
	ShowFolder func()
	Monitor    func() string // that what is watched lies on, by its name; "" where that isn't known
	Shown      func() string // says in which colours that is read
	Done       func()
}

// Page is the page; its rows are made for the settings of now.
type Page struct {
	*widgets.Sheet
	*host.Host
	Acts
	now   *settings.Settings
	rows  func(p *Page) []widgets.FormRow // of the part that is shown
	ruled *widgets.Picklist               // for what rules are shown; nil before any are
	sync  []func()                        // have what is shown agree with the settings
}

// parts are the segments, in their order.
var parts = []struct {
	name language.Words
	rows func(p *Page) []widgets.FormRow
}{{"Window", (*Page).window}, {"Measuring¦settings", (*Page).measuring}, {"Rules", (*Page).rules}, {"Stills", (*Page).stills}, {"Display", (*Page).display}}

// New returns the page, its first part open. It writes to the settings, and then tells.
func New(h *host.Host, now *settings.Settings, acts Acts) *Page {
	p := &Page{Host: h, Acts: acts, now: now, rows: parts[0].rows}
	names := make([]string, len(parts))
	for i, part := range parts {
		names[i] = part.name.String()
	}
	var tabs *widgets.Chooser
	tabs = widgets.NewChooser(names, h.Keys, func(i int) {
		tabs.Set(i)
		p.rows = parts[i].rows
		p.again()
	}).Lists(h.OpenList)
	p.Sheet = widgets.NewSheet(icons.Settings, language.Say("Settings"), tabs, p.form(), h.Keys, acts.Done)
	return p
}

// again makes the rows of the part that is shown anew.
func (p *Page) again() {
	p.SetContent(p.form())
	p.Host.Changed()
}

// form is the part that is shown.
func (p *Page) form() *widgets.Form {
	p.sync = nil
	return widgets.NewForm(p.rows(p)...)
}

// set changes the settings and tells of it. What another setting confines is shown as it is then.
func (p *Page) set(change func(s *settings.Settings)) {
	was := *p.now
	change(p.now)
	p.Acts.Changed(was)
	p.Sync()
}

// Sync shows what the settings are now.
func (p *Page) Sync() {
	for _, sync := range p.sync {
		sync()
	}
	p.Sheet.Renew()
}
