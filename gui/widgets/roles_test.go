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
	}{&Button{}, &Chooser{}, &spotCard{}, &FamilyRow{}, &SwatchRow{}, &Spread{}, &Mirror{}, &Picker{}}
	_ = []desktop.Keyable{&Spread{}, &Mirror{}, &Picker{}}
	_ = []fyne.Tappable{&Button{}, &Chooser{}, &spotCard{}, &FamilyRow{}, &SwatchRow{}}
	_ = []fyne.SecondaryTappable{&FamilyRow{}, &SwatchRow{}}
	_ = []fyne.DoubleTappable{&Spread{}}
	_ = []fyne.Scrollable{&Mirror{}}
	_ = []interface {
		fyne.Draggable
		desktop.Mouseable
	}{&Spread{}, &Mirror{}, &Picker{}}
	_ = []desktop.Hoverable{&Button{}, &spotCard{}, &FamilyRow{}, &SwatchRow{}, &Spread{}, &Mirror{}}
	_ = []desktop.Cursorable{&Chooser{}, &spotCard{}, &FamilyRow{}, &SwatchRow{}, &Spread{}, &Mirror{}, &Picker{}}
)
