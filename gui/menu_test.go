package gui

import (
	"context"
	"image"
	"runtime"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/menus"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// cellNamed is what can be chosen in the open menu.
func cellNamed(t *testing.T, d *Desk, name string) widgets.Cell {
	t.Helper()
	m := d.Menu()
	if m == nil {
		t.Fatal("no menu is open")
	}
	cells := m.Cells()
	i := slices.IndexFunc(cells, func(c widgets.Cell) bool { return c.Words == name })
	if i < 0 {
		t.Fatalf("the menu has no %q", name)
	}
	return cells[i]
}

// The menu has every command that is to stand there now, once, and does it; switches tell whether they
// are on, and the mirror has the keys afterwards. Only where the picture has moved are there spots to
// be kept. At its plain size all of it is in sight.
func TestMenuHasTheCommands(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	press(d.Mirror, image.Pt(10, 10), 0)
	openMenu(d, fyne.NewPos(100, 40))
	want := 0
	for _, c := range menuCommands() {
		if c.while != nil && !c.while(d) {
			continue
		}
		if want++; cellNamed(t, d, c.name).On {
			t.Errorf("%q is on", c.name)
		}
	}
	if got := len(d.Menu().Cells()); got != want {
		t.Errorf("the menu has %d entries, want %d", got, want)
	}
	quit := cellNamed(t, d, "Quit").Part
	foot := fyne.CurrentApp().Driver().AbsolutePositionForObject(quit).Y + quit.Size().Height
	if room := d.Window.Canvas().Size().Height; foot > room {
		t.Errorf("Quit ends at %g in a window %g high", foot, room)
	}
	if top := d.Menu().Cells()[0].At.Y; top < 40 {
		t.Errorf("it begins at %g, over the bar", top)
	}
	d.change(d.setup.AllMoved(true), "")
	openMenu(d, fyne.NewPos(100, 40))
	cellNamed(t, d, "Keep spots here")
	d.CloseDialog()
	d.CloseDialog()
	openMenu(d, fyne.NewPos(100, 40))
	test.Tap(cellNamed(t, d, "Measure an area").Part.(fyne.Tappable))
	if d.asking != askMeasure || d.Menu() != nil || d.Window.Canvas().Focused() != fyne.Focusable(d.Mirror) {
		t.Errorf("it asks for %v, and %T has the keys", d.asking, d.Window.Canvas().Focused())
	}
	d.settings.KeepAbove = true
	openMenu(d, fyne.NewPos(100, 40))
	if !cellNamed(t, d, "Stay on top").On {
		t.Error("staying on top is not checked")
	}
}

// A letter that is typed while a menu is open closes it, and does what it always does.
func TestKeysWorkInMenus(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	openMenu(d, fyne.NewPos(100, 40))
	d.Window.Canvas().Focused().TypedRune('5')
	if want := views.All()[4].Key; d.Menu() != nil || d.settings.View != want {
		t.Errorf("the menu is %v, the view %s, want %s", d.Menu(), d.settings.View, want)
	}
}

// The views' menu has them all, marks the one that is shown, and shows another by one tap. Pictures
// are painted for it while it is open, and none while it is closed.
func TestViewsMenu(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.see(t, img)
	if d.worker.Last().Previews != nil {
		t.Error("previews are painted, and no menu is open")
	}
	for _, v := range views.All() {
		d.parts.views.Open(fyne.NewPos(0, 40))
		d.see(t, img)
		now := cellNamed(t, d, menus.ViewName(d.settings.View))
		if tip := viewTip(d.settings.View); !strings.Contains(tip, "next") || strings.Contains(tip, "-weak sight") != strings.HasSuffix(d.settings.View, "an") {
			t.Errorf("%s is explained as %q", d.settings.View, tip)
		}
		on := slices.DeleteFunc(d.Menu().Cells(), func(c widgets.Cell) bool { return !c.On })
		if !now.On || len(on) != 1 {
			t.Errorf("at %s %d entries are marked", d.settings.View, len(on))
		}
		test.Tap(cellNamed(t, d, v.Name).Part.(fyne.Tappable))
		if d.settings.View != v.Key || d.parts.views.Room() != (image.Point{}) {
			t.Fatalf("%s is chosen, %s is shown; previews of %v are wanted", v.Key, d.settings.View, d.parts.views.Room())
		}
	}
}

// The source's menu remembers the last three pictures and regions, marks the one of now, and goes
// back to one by a tap. They are in the settings.
func TestSourceMenuRemembers(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	for _, path := range []string{"/a/one.png", "/a/two.png"} {
		d.watch(setup.Source{Kind: setup.SourcePicture, Path: path})
	}
	d.watch(setup.Source{Kind: setup.SourceRegion, Region: image.Rect(10, 20, 410, 320)})
	d.watch(setup.Source{Kind: setup.SourcePicture, Path: "/a/two.png"})
	want := []settings.Watched{{Picture: "/a/two.png"}, {Region: &files.Rect{X: 10, Y: 20, Width: 400, Height: 300}}, {Picture: "/a/one.png"}}
	if len(d.settings.Before) != 3 || d.settings.Before[0].Picture != want[0].Picture || *d.settings.Before[1].Region != *want[1].Region || d.settings.Before[2].Picture != want[2].Picture {
		t.Fatalf("it remembers %+v", d.settings.Before)
	}
	openSourceMenu(d, fyne.NewPos(0, 40))
	for name, on := range map[string]bool{"two.png": true, "one.png": false, "The demo painting": false} {
		if cellNamed(t, d, name).On != on {
			t.Errorf("%s is marked %v", name, !on)
		}
	}
	test.Tap(cellNamed(t, d, "one.png").Part.(fyne.Tappable))
	if d.setup.Source.Path != "/a/one.png" || d.settings.Before[0].Picture != "/a/one.png" {
		t.Errorf("it watches %+v and remembers %+v", d.setup.Source, d.settings.Before)
	}
}

// Shift+Delete takes all spots away, as one step of undo; it comes as the toolkit's shortcut to cut.
func TestClearSpots(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	press(d.Mirror, image.Pt(100, 150), 0)
	press(d.Mirror, image.Pt(300, 150), 0)
	d.TypedShortcut(&fyne.ShortcutCut{}) // Ctrl+X: no Shift is held
	if len(d.setup.Places) != 2 {
		t.Error("Ctrl+X clears the spots")
	}
	d.memory.ClearSpots()
	if len(d.setup.Places) != 0 || d.selected >= 0 {
		t.Errorf("%d spots are left", len(d.setup.Places))
	}
	d.Undo()
	if len(d.setup.Places) != 2 {
		t.Errorf("undone, there are %d spots", len(d.setup.Places))
	}
}

// The message of cleared spots gives these back, whatever was done since, but not onto another source.
func TestClearedSpotsComeBack(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	press(d.Mirror, image.Pt(100, 150), 0)
	press(d.Mirror, image.Pt(300, 150), 0)
	d.memory.ClearSpots()
	back := d.Messages.Acts[host.MessageNote]
	if words := d.Messages.Said[host.MessageNote]; words != "2 spots cleared" || back.Name != "Undo" {
		t.Fatalf("it says %q, and offers %q", words, back.Name)
	}
	d.flip()
	back.Do()
	if len(d.setup.Places) != 2 || !d.settings.Flipped {
		t.Errorf("%d spots are back, flipped %v", len(d.setup.Places), d.settings.Flipped)
	}
	d.memory.ClearSpots()
	back = d.Messages.Acts[host.MessageNote]
	d.OpenPicture("/a/other.png")
	if back.Do(); len(d.setup.Places) != 0 {
		t.Error("spots come onto another picture")
	}
}

// A tap on the chip of what is counted shows what can be done about it, as the menu has it.
func TestCountedChip(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	d.change(d.setup.LeavingOut(image.Rect(0, 0, 100, 100)), "")
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	tap := d.Messages.Acts[host.MessagePart].Do
	if tap == nil {
		t.Fatal("no chip says that a part is counted")
	}
	tap()
	again := cellNamed(t, d, "Count left-out areas again")
	if len(d.Menu().Cells()) != 3 {
		t.Errorf("%d entries", len(d.Menu().Cells()))
	}
	if test.Tap(again.Part.(fyne.Tappable)); d.setup.LeavesOut() {
		t.Error("it is left out still")
	}
}

// Without anything to watch the window asks, and reads nothing; a choice shows the picture. A
// remembered source is watched at once.
func TestFirstStart(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.apply(setup.Setup{Source: firstSource("", settings.Defaults())})
	if !d.parts.start.ways.Visible() || d.parts.sentence.Text().Title != "Choose what to watch" || d.ways.Opener(d.setup.Source) != nil {
		t.Fatalf("it says %q", d.parts.sentence.Text().Title)
	}
	for _, c := range d.parts.start.ways.Cells() {
		at, size := c.Part.Position(), c.Part.Size()
		if size.Height < 32 || at.X < 0 || at.X+size.Width > d.Mirror.Size().Width {
			t.Errorf("%s lies at %v, %v", c.Words, at, size)
		}
	}
	cells := d.parts.start.ways.Cells()
	test.Tap(cells[len(cells)-1].Part.(fyne.Tappable))
	if d.parts.start.ways.Visible() || d.setup.Source.Kind != setup.SourceDemo {
		t.Errorf("chosen, it watches %+v", d.setup.Source)
	}
	if _, err := d.ways.Opener(d.setup.Source)(context.Background()); err != nil {
		t.Error(err)
	}
	s := settings.Defaults()
	s.Region = &files.Rect{Width: 300, Height: 200}
	if from := firstSource("", s); from.Kind != setup.SourceRegion {
		t.Errorf("with a region remembered it begins with %+v", from)
	}
}

// settingsRoom and settingsWidth are what the settings have, from the sentence's top to above the tabs,
// in 380 x 760.
const settingsRoom, settingsWidth = 351, 364

// The settings, in the window's first size, scroll in none of their parts; Esc closes them.
func TestSettingsDoNotScroll(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.openPanel(panelSettings)
	for i, name := range []string{"Window", "Measuring", "Rules", "Stills", "Display"} {
		d.parts.sheet.Tabs().Choose(i)
		if high := d.parts.sheet.LeastHeight(settingsWidth); high > settingsRoom || d.parts.sheet.Tabs().ChosenWord() != name {
			t.Errorf("%s asks for %g, and there are %d", d.parts.sheet.Tabs().ChosenWord(), high, settingsRoom)
		}
	}
	if d.parts.column.Visible() || d.parts.sentence.Visible() {
		t.Error("what it stands for is seen")
	}
	d.TypedKey(fyne.KeyEscape)
	if d.parts.panel != panelNone || !d.parts.column.Visible() || !d.parts.sentence.Visible() {
		t.Error("Esc leaves it open")
	}
}

// What isn't seen has no keys: neither by Tab nor because it had them when something else was shown.
func TestKeysGoToWhatIsSeen(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.openPage(pageIndex(settings.PageStills))
	c, p := d.Window.Canvas(), d.page().(*stillsPage)
	begin := func() {
		d.openPage(pageIndex(settings.PageStills))
		p.choose(partKept)
		c.Focus(p.kept.Search)
		if c.Focused() != fyne.Focusable(p.kept.Search) {
			t.Fatal("the search has no keys")
		}
	}
	for what, leave := range map[string]func(){
		"settings":     func() { d.openPanel(panelSettings) },
		"another page": func() { d.nextPage(1) },
		"another part": func() { p.choose(partCompare) },
	} {
		begin()
		leave()
		for range 60 { // more than there is to come to
			for _, in := range []fyne.CanvasObject{p.kept.Search, p.kept.Greys, p.kept.Which} {
				if fyne.CanvasObject(c.Focused().(fyne.CanvasObject)) == in {
					t.Fatalf("%s: a %T that isn't seen has the keys", what, in)
				}
			}
			d.Window.Canvas().FocusNext()
		}
		d.TypedKey(fyne.KeyEscape)
	}
}

// What is set on the page of settings is set, and limits that depend on each other stay in order.
func TestSettingsAreSet(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.openPanel(panelSettings)
	rows := func(part int) map[string]fyne.CanvasObject {
		d.parts.sheet.Tabs().Choose(part)
		all := map[string]fyne.CanvasObject{}
		for _, r := range d.parts.sheet.Content().(*widgets.Form).Rows() {
			all[r.Name] = r.Control
		}
		return all
	}
	rows(0)["Theme"].(*widgets.Picklist).Pick(2)
	rows(1)["A spot averages"].(*widgets.Picklist).Pick(3)
	rows(1)["Too dark under"].(*widgets.Amount).Slider.SetValue(12)
	rules := rows(2)
	rules["Shadow range from"].(*widgets.Amount).Slider.SetValue(3)
	rules["to"].(*widgets.Amount).Slider.SetValue(2)
	rows(3)["In turns, change every"].(*widgets.Amount).Slider.SetValue(2)
	s := d.settings
	if s.Theme != settings.ThemeLight || s.SpotSize != 11 || s.TooDark != 12 || s.TurnEvery != 2 {
		t.Errorf("set are %v, %d, %g, %g", s.Theme, s.SpotSize, s.TooDark, s.TurnEvery)
	}
	if up := rules["to"].(*widgets.Amount).Slider.Value; s.Rules.MostTones != 3 || up != 3 {
		t.Errorf("a shadow reads from %g to %g, and the slider shows %g", s.Rules.LeastTones, s.Rules.MostTones, up)
	}
}

// The entry in the tray is switched for the next start, and what becomes of it is said: also where there
// is no tray.
func TestTrayIsSet(t *testing.T) {
	t.Setenv("DBUS_SESSION_BUS_ADDRESS", "unix:path=/nonexistent/bus")
	d := newTestDesk(t, settings.Defaults())
	d.openPanel(panelSettings)
	for _, r := range d.parts.sheet.Content().(*widgets.Form).Rows() {
		if r.Name != wording.SayTray.String() {
			continue
		}
		for _, want := range []struct {
			on   bool
			says string
		}{{true, wording.SayTrayNone.String()}, {false, wording.SayTrayGoes.String()}} {
			r.Control.(*widgets.Switch).Tapped(nil)
			if said := d.Messages.Said[host.MessageNote]; d.settings.Tray != want.on || runtime.GOOS == "linux" && said != want.says {
				t.Errorf("it is %v, and says %q; want %v, %q", d.settings.Tray, said, want.on, want.says)
			}
		}
		return
	}
	t.Error("there is no such switch")
}

// Esc closes the settings whatever of them has the keyboard; an open list goes first.
func TestEscClosesSettings(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	esc := func() { d.Window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape}) }
	for part := range 4 {
		d.openPanel(panelSettings)
		d.parts.sheet.Tabs().Choose(part)
		for _, r := range d.parts.sheet.Content().(*widgets.Form).Rows() {
			if d.parts.panel == panelNone {
				d.openPanel(panelSettings)
				d.parts.sheet.Tabs().Choose(part)
			}
			for _, now := range d.parts.sheet.Content().(*widgets.Form).Rows() {
				if now.Name == r.Name {
					r = now // it was made anew
				}
			}
			at, ok := r.Control.(fyne.Focusable)
			if amount, slides := r.Control.(*widgets.Amount); slides {
				at, ok = amount.Slider, true
			}
			if !ok {
				t.Fatalf("%s can't be reached by keys", r.Name)
			}
			d.Window.Canvas().Focus(at)
			if list, opens := r.Control.(*widgets.Picklist); opens {
				list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
				esc()
				if d.Menu() != nil || d.parts.panel == panelNone {
					t.Errorf("%s: the list is open %v, the panel %v", r.Name, d.Menu() != nil, d.parts.panel)
				}
			}
			if esc(); d.parts.panel != panelNone {
				t.Errorf("%s has the keys, and Esc leaves the settings open", r.Name)
			}
		}
	}
}
