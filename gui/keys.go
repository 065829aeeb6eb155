package gui

import (
	"image"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/proposals"
	"app.tonedesk/gui/settings"
)

// command is something that the painter can do: by a key, and from the menu if it stands there. A
// new one is one entry in commands.
type command struct {
	name   string // in the menu and in the list of keys
	keys   string // how its keys are written
	runes  string // typed characters that do it
	ctrl   fyne.KeyName
	key    fyne.KeyName
	menu   section
	beside bool // stands beside the one before it in the menu
	icon   icons.Name
	does   func(d *Desk)
	on     func(d *Desk) bool // whether a switch is on; nil where it isn't one
	while  func(d *Desk) bool // stands in the menu only then; nil: always
}

// section is a part of the menu.
type section uint8

const (
	noSection section = iota
	inFront           // without a heading
	ofSpots
	ofCount
	ofStructure
	ofStills
	atEnd // without a heading
)

// sectionNames head the parts of the menu.
var sectionNames = map[section]language.Words{ofSpots: "Spots", ofCount: "Count", ofStructure: "Structure", ofStills: "Stills"}

// commands lists them, those of the menu first, in its order. It is a function, since the commands
// themselves ask for the list. Letters are initials of our own words.
func commands() []command {
	return slices.Concat(menuCommands(), sourceCommands(), viewCommands(), otherCommands())
}

func menuCommands() []command {
	return []command{
		{menu: inFront, icon: icons.OnTop, name: language.Say("Stay on top"), keys: "K", runes: "kK", does: (*Desk).toggleAbove, on: func(d *Desk) bool { return d.settings.KeepAbove }, while: func(*Desk) bool { return native.StaysAbove() }},
		{menu: inFront, icon: icons.Undo, name: language.Say("Undo"), keys: "Ctrl+Z", ctrl: fyne.KeyZ, does: (*Desk).Undo},
		{menu: inFront, icon: icons.Redo, name: language.Say("Redo"), keys: "Ctrl+Y", ctrl: fyne.KeyY, beside: true, does: (*Desk).Redo},
		{menu: ofSpots, icon: icons.UnderPointer, name: language.Say("Read under the pointer"), keys: "P", runes: "pP", does: toggleUnder, on: func(d *Desk) bool { return d.settings.UnderPointer }},
		{menu: ofSpots, icon: icons.Box, name: language.Say("Measure an area"), keys: "M", runes: "mM", does: func(d *Desk) { d.ask(askMeasure) }},
		{menu: ofSpots, icon: icons.Check, name: language.Say("Keep spots here"), keys: "Shift+S", runes: "S", does: (*Desk).spotsAreRight, while: func(d *Desk) bool { return d.setup.AnyMoved() }},
		{menu: ofSpots, icon: icons.Close, name: language.Say("Clear all spots"), keys: "Shift+Delete", does: func(d *Desk) { d.memory.ClearSpots() }},
		{menu: ofSpots, name: language.Say("Forget all on this picture"), does: func(d *Desk) { d.memory.Forget() }},
		{menu: ofCount, icon: icons.LeaveOut, name: language.Say("Leave out an area"), keys: "O", runes: "oO", does: func(d *Desk) { d.ask(askArea) }},
		{menu: ofCount, name: language.Say("Leave out a colour"), keys: "L", runes: "lL", beside: true, does: func(d *Desk) { d.ask(askColour) }},
		{menu: ofCount, name: language.Say("Count left-out areas again"), keys: "A", runes: "aA", does: func(d *Desk) { d.change(d.setup.CountingAll(), "") }},
		{menu: ofStructure, icon: icons.LightDirection, name: language.Say("Light direction"), keys: "I", runes: "iI", does: func(d *Desk) { d.families.ToggleLight() }, on: func(d *Desk) bool { return d.families.LightShown() }},
		{menu: ofStructure, icon: icons.Focus, name: language.Say("Focus"), keys: "J", runes: "jJ", beside: true, does: func(d *Desk) {
			d.openPage(pageIndex(settings.PageStructure)) // where it is answered
			d.families.Focus.Ask()
		}},
		{menu: ofStructure, name: language.Say("Set a local colour by hand"), keys: "H", runes: "hH", does: func(d *Desk) { d.families.Add() }},
		{menu: ofStructure, name: language.Say("Borders by themselves"), keys: "G", runes: "gG", does: (*Desk).bordersAutomatic},
		{menu: ofStructure, icon: icons.Target, name: language.Say("Choose a target"), keys: "T", runes: "tT", does: func(d *Desk) { d.target.Ask() }},
		{menu: ofStills, icon: icons.Keep, name: language.Say("Keep a still"), keys: "Ctrl+S", ctrl: fyne.KeyS, does: func(d *Desk) { d.stills.keep(false) }},
		{menu: ofStills, icon: icons.Compare, name: language.Say("Compare with a still"), keys: "D", runes: "dD", does: func(d *Desk) { d.comparison.ByKey() }, on: func(d *Desk) bool { return d.comparison.On() }},
		{menu: ofStills, icon: icons.Export, name: language.Say("Export"), keys: "Ctrl+E", ctrl: fyne.KeyE, does: exportStill},
		{menu: atEnd, icon: icons.Settings, name: language.Say("Settings"), keys: "Ctrl+,", ctrl: fyne.KeyComma, does: func(d *Desk) { d.openPanel(panelSettings) }},
		{menu: atEnd, name: language.Say("Keys"), keys: "F1", key: fyne.KeyF1, beside: true, does: func(d *Desk) { d.openPanel(panelKeys) }},
		{menu: atEnd, name: language.Say("Quit"), keys: "Ctrl+Q", ctrl: fyne.KeyQ, does: (*Desk).quit},
	}
}

// sourceCommands say what is watched.
func sourceCommands() []command {
	return []command{
		{name: language.Say("Follow a window"), keys: "Shift+R", runes: "R", does: func(d *Desk) { d.ways.AskWindow() }},
		{name: language.Say("Choose a region"), keys: "R", runes: "r", does: (*Desk).PickRegion},
		{name: language.Say("Open a picture"), keys: "Ctrl+O", ctrl: fyne.KeyO, does: askPicture},
		{name: language.Say("Watch a part only"), keys: "W", runes: "wW", does: func(d *Desk) { d.ask(askNarrow) }},
		{name: language.Say("Watch all of it"), keys: "E", runes: "eE", does: watchAll},
		{name: language.Say("Freeze, or resume"), keys: "F", runes: "fF", does: (*Desk).Freeze},
	}
}

// viewCommands say how it is shown.
func viewCommands() []command {
	return []command{
		{name: language.Say("Next view"), keys: "V", runes: "v", does: func(d *Desk) { d.nextView(1) }},
		{name: language.Say("Previous view"), keys: "Shift+V", runes: "V", does: func(d *Desk) { d.nextView(-1) }},
		{name: language.Say("Flip"), keys: "X", runes: "xX", does: (*Desk).flip},
		{name: language.Say("Less: bands, strength or size of the view"), keys: "−", runes: "-−", does: func(d *Desk) { d.turnKnob(-1) }},
		{name: language.Say("More of it"), keys: "+", runes: "+=", does: func(d *Desk) { d.turnKnob(1) }},
		{name: language.Say("Zoom in"), keys: "Ctrl++, wheel", ctrl: fyne.KeyEqual, does: func(d *Desk) { d.Mirror.Zoom(1) }},
		{name: language.Say("Zoom in, by the key of the plus"), ctrl: fyne.KeyPlus, does: func(d *Desk) { d.Mirror.Zoom(1) }},
		{name: language.Say("Zoom out"), keys: "Ctrl+−, wheel", ctrl: fyne.KeyMinus, does: func(d *Desk) { d.Mirror.Zoom(-1) }},
		{name: language.Say("Zoom to all of the picture"), keys: "Ctrl+0", ctrl: fyne.Key0, does: func(d *Desk) { d.Mirror.Zoom(0) }},
		{name: language.Say("Move the picture, zoomed in"), keys: "Ctrl+Arrows", ctrl: fyne.KeyLeft, does: func(d *Desk) { d.Mirror.Pan(image.Pt(-1, 0)) }},
		{name: language.Say("Move it right"), ctrl: fyne.KeyRight, does: func(d *Desk) { d.Mirror.Pan(image.Pt(1, 0)) }},
		{name: language.Say("Move it up"), ctrl: fyne.KeyUp, does: func(d *Desk) { d.Mirror.Pan(image.Pt(0, -1)) }},
		{name: language.Say("Move it down"), ctrl: fyne.KeyDown, does: func(d *Desk) { d.Mirror.Pan(image.Pt(0, 1)) }},
		{name: language.Say("Next picture, where two are shown in turns"), keys: "N", runes: "nN", does: func(d *Desk) { d.comparison.Other() }},
	}
}

func otherCommands() []command {
	return []command{
		{name: language.Say("Next spot"), keys: "S", runes: "s", does: (*Desk).nextSpot},
		{name: language.Say("Delete the spot"), keys: "Delete", key: fyne.KeyDelete, does: func(d *Desk) { d.deleteSpot(d.selected) }},
		{name: language.Say("Copy the spot's colour"), keys: "C", runes: "cC", does: func(d *Desk) { d.copyHex(d.selected) }},
		{name: language.Say("Copy B brought to A's lightness"), keys: "B", runes: "b", does: func(d *Desk) { proposals.CopyMatched(&d.Host, d.last.spots, d.selected, false) }},
		{name: language.Say("Copy A brought to B's lightness"), keys: "Shift+B", runes: "B", does: func(d *Desk) { proposals.CopyMatched(&d.Host, d.last.spots, d.selected, true) }},
		{name: language.Say("Next page"), keys: "Ctrl+Page down", ctrl: fyne.KeyPageDown, does: func(d *Desk) { d.nextPage(1) }},
		{name: language.Say("Previous page"), keys: "Ctrl+Page up", ctrl: fyne.KeyPageUp, does: func(d *Desk) { d.nextPage(-1) }},
		{name: language.Say("Further down the page"), keys: "Page down", key: fyne.KeyPageDown, does: func(d *Desk) { d.scrollPage(pageTurn) }},
		{name: language.Say("Back up the page"), keys: "Page up", key: fyne.KeyPageUp, does: func(d *Desk) { d.scrollPage(-pageTurn) }},
	}
}

// fixedKeys are keys that the parts take themselves, for the list of keys.
func fixedKeys() []command {
	return []command{
		{name: language.Say("Move the selected spot, or the key cursor"), keys: "Arrows"},
		{name: language.Say("The same by ten pixels"), keys: "Shift+Arrows"},
		{name: language.Say("Set a spot, or an area's corner, at the key cursor"), keys: "Space"},
		{name: language.Say("Add a spot there"), keys: "Shift+Space"},
		{name: language.Say("Add a spot by a click, or with a pen by holding it"), keys: "Shift"},
		{name: language.Say("Measure an area by a drag, also zoomed in"), keys: "Alt"},
		{name: language.Say("Show one of the first ten views"), keys: "1 to 9, 0"},
		{name: language.Say("Go through the buttons, cards and swatches"), keys: "Tab"},
		{name: language.Say("Copy the swatch at hand; go on from it"), keys: "Enter, U"},
		{name: language.Say("Close what is open, innermost first"), keys: "Esc"},
	}
}

// TypedRune does what a character stands for.
func (d *Desk) TypedRune(r rune) {
	if d.Asks() != "" {
		return
	}
	if d.marker.writes(r) {
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
	case *fyne.ShortcutCut: // Shift+Delete to the toolkit, and Ctrl+X, which is none of ours
		if d.Asks() == "" && shiftHeld(d) {
			d.memory.ClearSpots()
		}
		return
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
	case d.Messages.Close():
	case d.Mirror.EndKeys():
	case d.settings.UnderPointer:
		toggleUnder(d)
	case leaveGrowth(d):
	case d.marker.Unselect():
	case d.marker.leaveTool():
	case d.comparison.On():
		d.comparison.End()
	case d.selected >= 0:
		d.selectSpot(-1)
	default:
		d.Messages.Clear(host.MessageNote)
	}
	d.FocusMirror()
}
