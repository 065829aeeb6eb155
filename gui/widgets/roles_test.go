package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// Fyne finds out by a widget's methods what can be done with it. Here the compiler looks
// whether it will.
var (
	_ = []interface {
		fyne.Focusable
		fyne.Shortcutable
	}{&Button{}, &Chooser{}, &spotRow{}, &pairSide{}, &FamilyRow{}, &SwatchRow{}, &HueStrip{}, &Spread{}, &Mirror{}, &Picker{}}
	_ = []desktop.Keyable{&Spread{}, &Mirror{}, &Picker{}}
	_ = []fyne.Tappable{&Button{}, &Chooser{}, &spotRow{}, &pairSide{}, &FamilyRow{}, &SwatchRow{}}
	_ = []fyne.SecondaryTappable{&FamilyRow{}, &SwatchRow{}, &HueStrip{}}
	_ = []fyne.DoubleTappable{&Spread{}}
	_ = []fyne.Scrollable{&Mirror{}}
	_ = []interface {
		fyne.Draggable
		desktop.Mouseable
	}{&Spread{}, &HueStrip{}, &Mirror{}, &Picker{}}
	_ = []desktop.Hoverable{&Button{}, &spotRow{}, &pairSide{}, &FamilyRow{}, &SwatchRow{}, &Spread{}, &Mirror{}}
	_ = []desktop.Cursorable{&Chooser{}, &spotRow{}, &pairSide{}, &FamilyRow{}, &SwatchRow{}, &Spread{}, &Mirror{}, &Picker{}}
)
