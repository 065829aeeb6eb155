package command

import (
	"io"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/light"
	"app.tonedesk/gui/wording"
)

// writeLight prints what the local colours say of the light; nothing where they are left out.
func writeLight(w io.Writer, l *light.Light, list []families.Family) {
	if l == nil || len(l.LocalColours) == 0 {
		return
	}
	said := wording.SayLight(l, list)
	labelled(w, "light¦label", wording.Stopped(said.Title))
	for _, line := range said.Lines {
		labelled(w, "", wording.Stopped(line))
	}
}

// litPicture is a picture file with what its local colours say of its light.
type litPicture struct {
	pictureFile
	families []families.Family
	light    *light.Light
}

// readLight reads the light of a picture file, without the workspace around its canvas. Its
// errors are sentences.
func readLight(path string, ground colour.RGB) (p litPicture, err error) {
	pixels, err := openPicture(path)
	if err != nil {
		return p, err
	}
	pixels.LayOver(ground)
	mask, _ := readPlan{}.leaveOut(pixels)
	found := families.Find(pixels, mask, families.DefaultRules())
	return litPicture{pictureFile{path, pixels.Width, pixels.Height}, found.List, light.Of(found, nil, light.DefaultOptions())}, nil
}

// unlit says that a picture's light isn't known.
func unlit(what wording.Phrase, path string) error {
	return sentence(wording.Cannot(wording.On(what, path), "no local colour is found in it for sure", "choose a picture with light and shadow sides"))
}
