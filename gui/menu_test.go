package gui

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/settings"
)

func itemNamed(t *testing.T, items []*fyne.MenuItem, name string) *fyne.MenuItem {
	t.Helper()
	i := slices.IndexFunc(items, func(m *fyne.MenuItem) bool { return strings.HasPrefix(m.Label, name) })
	if i < 0 {
		t.Fatalf("the menu has no %q", name)
	}
	return items[i]
}

// The menu has every command that is to stand in it, with its keys, and does it; switches
// tell whether they are on.
func TestMenuHasTheCommands(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	items := commandItems(d)
	for _, c := range commands() {
		if !c.menu {
			continue
		}
		if item := itemNamed(t, items, c.name); !strings.HasSuffix(item.Label, c.keys) || item.Checked {
			t.Errorf("%q stands as %q, checked %v", c.name, item.Label, item.Checked)
		}
	}
	for _, name := range []string{"Freeze", "Mirrored"} {
		for range 2 {
			was := itemNamed(t, commandItems(d), name).Checked
			itemNamed(t, commandItems(d), name).Action()
			if itemNamed(t, commandItems(d), name).Checked == was {
				t.Errorf("%q stays %v", name, was)
			}
		}
	}
}

// The views' menu has them all, tells which is shown, shows another, and moves the knob of
// one that has one.
func TestViewsMenu(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	for _, v := range views.All() {
		itemNamed(t, viewItems(d), v.Name).Action()
		items := viewItems(d)
		if d.settings.View != v.Key || !itemNamed(t, items, v.Name).Checked {
			t.Fatalf("%s is chosen, %s is shown", v.Key, d.settings.View)
		}
		checked := slices.DeleteFunc(slices.Clone(items), func(m *fyne.MenuItem) bool { return !m.Checked })
		if len(checked) != 1 {
			t.Errorf("%d entries are checked at %s", len(checked), v.Key)
		}
		more := slices.ContainsFunc(items, func(m *fyne.MenuItem) bool { return strings.HasPrefix(m.Label, "More than") })
		if more != (v.Knob != nil) {
			t.Errorf("%s: a knob is offered %v", v.Key, more)
		}
		if v.Knob == nil {
			continue
		}
		before := d.settings.Knob(v)
		itemNamed(t, items, "Less").Action()
		if got := d.settings.Knob(v); got != v.Knob.At(before-v.Knob.Step) {
			t.Errorf("%s: less than %g is %g", v.Key, before, got)
		}
	}
}
