package menus

import (
	"path/filepath"

	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// SourceIcons are the pictograms of the kinds of sources.
var SourceIcons = map[setup.SourceKind]icons.Name{
	setup.SourceDemo: icons.File, setup.SourcePicture: icons.File, setup.SourceRegion: icons.Region, setup.SourceWindow: icons.Window, setup.SourceNothing: icons.Region, setup.SourceStill: icons.Still, setup.SourceShared: icons.Region,
}

// SourceName is what a source is called in the bar.
func SourceName(from setup.Source) string {
	switch from.Kind {
	case setup.SourceRegion:
		return language.Say("Region %s", wording.SizeSay(from.Region.Dx(), from.Region.Dy()))
	case setup.SourceWindow:
		return wording.SayWindow(from.Title, from.Class)
	case setup.SourceShared:
		return wording.SharedScreen.String()
	case setup.SourcePicture:
		return filepath.Base(from.Path)
	case setup.SourceStill:
		return language.Say("Still")
	}
	if from.Kind == setup.SourceNothing {
		return language.Say("Nothing chosen")
	}
	return language.Say("Demo painting")
}
