package everywhere

import (
	"cmp"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/native"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// Rows are the switch and a row a deed, for the page of the settings.
func (k *Keys) Rows() []widgets.FormRow {
	k.rows, k.said = nil, [deeds]string{}
	k.on = widgets.NewSwitch(k.now.Everywhere, k.Keys, k.Switch)
	rows := []widgets.FormRow{{Name: wording.SayEverywhere.String(), Control: k.on, Says: k.saysOfAll}}
	for d := range deeds {
		choice := widgets.NewKeyChoice(keyOf(k.now, d), k.Host.Keys, k.Tips, widgets.KeyActs{
			Listens: func(on bool) { k.listen(d, on) },
			Chosen:  func(held fyne.KeyModifier, key fyne.KeyName) bool { return k.choose(d, held, key) },
			Cleared: func() { k.setKey(d, "") },
		})
		k.rows = append(k.rows, choice)
		rows = append(rows, widgets.FormRow{Name: known[d].name.String(), Control: choice, Says: func() string {
			return cmp.Or(k.said[d], wording.SayKeyTrouble(keyOf(k.now, d), k.trouble[d]), wording.SayDesktopKey(k.desktop.words[known[d].key]))
		}})
	}
	return rows
}

// listen lets go of the keys while one is being chosen: else those that are held can't be.
func (k *Keys) listen(d Deed, on bool) {
	k.listens, k.said = on, [deeds]string{}
	if on {
		k.said[d] = wording.SayListens.String()
	}
	k.show()
	k.renew()
}

// choose makes a key the deed's, or says why it can't be.
func (k *Keys) choose(d Deed, held fyne.KeyModifier, key fyne.KeyName) bool {
	has := func(bit fyne.KeyModifier) bool { return held&bit != 0 }
	c := native.Chord{Ctrl: has(fyne.KeyModifierControl), Alt: has(fyne.KeyModifierAlt), Shift: has(fyne.KeyModifierShift), Super: has(fyne.KeyModifierSuper), Key: keyNames[key]}
	if c.Key == "" {
		c.Key = string(key)
	}
	k.said[d] = ""
	switch {
	case !c.HasKey():
		k.said[d] = wording.SayNoChord.String()
	case !c.Held():
		k.said[d] = wording.SayNeedsHeld.String()
	}
	for other := range deeds {
		if other != d && keyOf(k.now, other) == c.String() && c.Held() {
			k.said[d] = wording.SayKeyTaken(c.String(), known[other].name.String())
		}
	}
	if k.said[d] != "" {
		k.show()
		return false
	}
	k.setKey(d, c.String())
	return true
}

// keyNames are the toolkit's names of keys that have another one here.
var keyNames = map[fyne.KeyName]string{fyne.KeyPageUp: "Page up", fyne.KeyPageDown: "Page down"}

// setKey makes a key the deed's; "" is none.
func (k *Keys) setKey(d Deed, key string) {
	*k.now = k.now.WithKey(known[d].key, key)
	k.trouble[d] = nil
	k.Kept()
	k.renew()
}

// show has the rows say what is so now.
func (k *Keys) show() {
	if k.on != nil {
		k.on.Set(k.now.Everywhere)
	}
	for d, row := range k.rows {
		row.Set(keyOf(k.now, Deed(d)))
	}
	k.Renewed()
}
