package gui

import (
	"image"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/proposals"
	"app.tonedesk/gui/setup"
)

// command is something that the painter can do: by a key, and from the menu if it has a
// name there. A new one is one entry in commands.
type command struct {
	name  string // in the menu and in the list of keys
	keys  string // how its keys are written
	runes string // typed characters that do it
	ctrl  fyne.KeyName
	key   fyne.KeyName
	menu  bool
	does  func(d *Desk)
	on    func(d *Desk) bool // whether a switch is on; nil where it isn't one
}

// commands lists them in the order of the menu. It is a function, since the commands
// themselves ask for the list.
func commands() []command {
	return []command{
		{name: "Choose a region", keys: "R", runes: "rR", menu: true, does: (*Desk).PickRegion},
		{name: "Open a picture", keys: "Ctrl+O", ctrl: fyne.KeyO, menu: true, does: (*Desk).AskPicture},
		{name: "Show the demo painting", menu: true, does: func(d *Desk) { d.watch(setup.Source{Kind: setup.SourceDemo}) }},
		{name: "Freeze, or go on", keys: "F", runes: "fF", menu: true, does: (*Desk).Freeze, on: func(d *Desk) bool { return d.frozen }},
		{name: "Keep the picture as a still", keys: "Ctrl+S", ctrl: fyne.KeyS, menu: true, does: func(d *Desk) { d.stills.keep(false) }},
		{name: "Compare with a still from before", keys: "D", runes: "dD", menu: true, does: func(d *Desk) { d.comparison.ByKey() }, on: func(d *Desk) bool { return d.comparison.On() }},
		{name: "The other picture, where two are shown in turns", keys: "N", runes: "nN", does: func(d *Desk) { d.comparison.Other() }},
		{name: "Watch a part only", keys: "W", runes: "wW", menu: true, does: func(d *Desk) { d.ask(askNarrow) }},
		{name: "Watch the whole picture", keys: "E", runes: "eE", menu: true, does: (*Desk).watchAll},
		{name: "Leave out an area", keys: "O", runes: "oO", menu: true, does: func(d *Desk) { d.ask(askArea) }},
		{name: "Leave out a colour", keys: "L", runes: "lL", menu: true, does: func(d *Desk) { d.ask(askColour) }},
		{name: "Count everything again", keys: "A", runes: "aA", menu: true, does: func(d *Desk) { d.change(d.setup.CountingAll(), "") }},
		{name: "Measure an area", keys: "M", runes: "mM", menu: true, does: func(d *Desk) { d.ask(askMeasure) }},
		{name: "Set a local colour by hand", keys: "H", runes: "hH", menu: true, does: func(d *Desk) { d.families.Add() }},
		{name: "Group edges by themselves again", keys: "G", runes: "gG", menu: true, does: (*Desk).edgesAutomatic},
		{name: "Choose a target to paint toward", keys: "T", runes: "tT", menu: true, does: func(d *Desk) { d.target.Ask() }},
		{name: "Spots are right again", keys: "P", runes: "pP", menu: true, does: (*Desk).spotsAreRight},
		{name: "Next view", keys: "V", runes: "v", does: func(d *Desk) { d.nextView(1) }},
		{name: "View before", keys: "Shift+V", runes: "V", does: func(d *Desk) { d.nextView(-1) }},
		{name: "Mirrored left-right", keys: "X", runes: "xX", menu: true, does: (*Desk).flip, on: func(d *Desk) bool { return d.settings.Mirrored }},
		{name: "Less: bands, strength or size of the view", keys: "−", runes: "-−", does: func(d *Desk) { d.turnKnob(-1) }},
		{name: "More of it", keys: "+", runes: "+=", does: func(d *Desk) { d.turnKnob(1) }},
		{name: "Larger", keys: "Ctrl++, wheel", ctrl: fyne.KeyEqual, does: func(d *Desk) { d.Mirror.Zoom(1) }},
		{name: "Larger, by the key of the plus", ctrl: fyne.KeyPlus, does: func(d *Desk) { d.Mirror.Zoom(1) }},
		{name: "Smaller", keys: "Ctrl+−, wheel", ctrl: fyne.KeyMinus, does: func(d *Desk) { d.Mirror.Zoom(-1) }},
		{name: "All of the picture", keys: "Ctrl+0", ctrl: fyne.Key0, menu: true, does: func(d *Desk) { d.Mirror.Zoom(0) }},
		{name: "Move the enlarged picture", keys: "Ctrl+Arrows", ctrl: fyne.KeyLeft, does: func(d *Desk) { d.Mirror.Pan(image.Pt(-1, 0)) }},
		{name: "Move it right", ctrl: fyne.KeyRight, does: func(d *Desk) { d.Mirror.Pan(image.Pt(1, 0)) }},
		{name: "Move it up", ctrl: fyne.KeyUp, does: func(d *Desk) { d.Mirror.Pan(image.Pt(0, -1)) }},
		{name: "Move it down", ctrl: fyne.KeyDown, does: func(d *Desk) { d.Mirror.Pan(image.Pt(0, 1)) }},
		{name: "Next spot", keys: "S", runes: "sS", does: (*Desk).nextSpot},
		{name: "Delete the spot", keys: "Delete", key: fyne.KeyDelete, does: func(d *Desk) { d.deleteSpot(d.selected) }},
		{name: "Copy the spot's colour", keys: "C", runes: "cC", does: func(d *Desk) { d.copyHex(d.selected) }},
		{name: "Copy B brought to A's lightness", keys: "B", runes: "b", does: func(d *Desk) { proposals.CopyMatched(&d.Host, d.last.spots, d.selected, false) }},
		{name: "Copy A brought to B's lightness", keys: "Shift+B", runes: "B", does: func(d *Desk) { proposals.CopyMatched(&d.Host, d.last.spots, d.selected, true) }},
		{name: "Undo", keys: "Ctrl+Z", ctrl: fyne.KeyZ, menu: true, does: (*Desk).Undo},
		{name: "Do again", keys: "Ctrl+Y", ctrl: fyne.KeyY, menu: true, does: (*Desk).Redo},
		{name: "Keep above others", keys: "K", runes: "kK", menu: true, does: (*Desk).toggleAbove, on: func(d *Desk) bool { return d.settings.KeepAbove }},
		{name: "Next page", keys: "Ctrl+Page down", ctrl: fyne.KeyPageDown, does: func(d *Desk) { d.nextPage(1) }},
		{name: "Page before", keys: "Ctrl+Page up", ctrl: fyne.KeyPageUp, does: func(d *Desk) { d.nextPage(-1) }},
		{name: "Further down the page", keys: "Page down", key: fyne.KeyPageDown, does: func(d *Desk) { d.scrollPage(pageTurn) }},
		{name: "Back up the page", keys: "Page up", key: fyne.KeyPageUp, does: func(d *Desk) { d.scrollPage(-pageTurn) }},
		{name: "Settings", keys: "Ctrl+,", ctrl: fyne.KeyComma, menu: true, does: func(d *Desk) { d.openPanel(panelSettings) }},
		{name: "Keys", keys: "F1", key: fyne.KeyF1, menu: true, does: func(d *Desk) { d.openPanel(panelKeys) }},
		{name: "Quit", keys: "Ctrl+Q", ctrl: fyne.KeyQ, menu: true, does: (*Desk).quit},
	}
}

// fixedKeys are keys that the parts take themselves, for the list of keys.
var fixedKeys = []command{
	{name: "Move the selected spot, or the key cursor", keys: "Arrows"},
	{name: "The same by ten pixels", keys: "Shift+Arrows"},
	{name: "Set a spot, or an area's corner, at the key cursor", keys: "Space"},
	{name: "Add a spot there", keys: "Shift+Space"},
	{name: "Show one of the first ten views", keys: "1 to 9, 0"},
	{name: "Go through the buttons, cards and swatches", keys: "Tab"},
	{name: "Copy the swatch at hand; go on from it", keys: "Enter, U"},
	{name: "Give up, or close what is open", keys: "Esc"},
}

// TypedRune does what a character stands for.
func (d *Desk) TypedRune(r rune) {
	if d.Asks() != "" {
		return
	}
	if r >= '0' && r <= '9' {
		d.viewAt(int(r-'0'+9) % 10)
		return
	}
	for _, c := range commands() {
		if strings.ContainsRune(c.runes, r) {
			c.does(d)
			return
		}
	}
}

// TypedKey does what a key stands for, and reports whether it stands for anything.
func (d *Desk) TypedKey(name fyne.KeyName) bool {
	if d.Asks() != "" { // only what lies over the window is meant
		if name == fyne.KeyEscape {
			d.CloseDialog()
		}
		return true
	}
	if name == fyne.KeyEscape {
		d.giveUp()
		return true
	}
	if name == fyne.KeyBackspace {
		name = fyne.KeyDelete
	}
	for _, c := range commands() {
		if c.key == name && name != "" {
			c.does(d)
			return true
		}
	}
	return false
}

// TypedShortcut does what a key together with Ctrl stands for.
func (d *Desk) TypedShortcut(s fyne.Shortcut) {
	var name fyne.KeyName
	switch s := s.(type) {
	case *fyne.ShortcutUndo:
		name = fyne.KeyZ
	case *fyne.ShortcutRedo:
		name = fyne.KeyY
	case *fyne.ShortcutCopy:
		if d.Asks() == "" {
			d.copyHex(d.selected)
		}
		return
	case *desktop.CustomShortcut:
		if s.Modifier&fyne.KeyModifierShortcutDefault == 0 {
			return
		}
		if name = s.KeyName; name == fyne.KeyZ && s.Modifier&fyne.KeyModifierShift != 0 {
			name = fyne.KeyY
		}
	}
	for _, c := range commands() {
		if c.ctrl == name && name != "" && (d.Asks() == "" || name == fyne.KeyQ) {
			c.does(d)
			return
		}
	}
}

// giveUp ends what is asked for, the open panel, the key cursor or the selection, the
// first of these that there is.
func (d *Desk) giveUp() {
	switch {
	case d.asking != askNothing:
		d.ask(askNothing)
	case d.parts.panel != panelNone:
		d.openPanel(panelNone)
	case d.Mirror.EndKeys():
	case d.marker.Unselect():
	case d.marker.leaveTool():
	case !d.comparison.Idle():
		d.comparison.End()
	case d.selected >= 0:
		d.selectSpot(-1)
	case d.Messages.Top() == host.MessageWorkspace && d.workspace.answer(false):
	default:
		d.Messages.Clear(host.MessageNote)
	}
	d.FocusMirror()
}
