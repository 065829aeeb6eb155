package keeping

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/widgets"
)

// keptFoot is what can be done with the still that is selected.
type keptFoot struct {
	kept    *Kept
	box     *fyne.Container
	buttons []*widgets.Button
}

func newKeptFoot(h *host.Host, k *Kept) keptFoot {
	f := keptFoot{kept: k}
	with := func(do func(id string)) func() {
		return func() {
			if id := k.At(); id != "" {
				do(id)
			}
		}
	}
	add := func(icon icons.Name, word, tip string, do func(id string)) {
		b := widgets.NewIconButton(icon, h.Keys, with(do)).Shortens()
		b.SetText(word)
		b.Explain(h.Tips, tip)
		f.buttons = append(f.buttons, b)
	}
	add(icons.Stroke, language.Say("Mark up"), language.Say("Mark it up"), k.acts.Open)
	add(icons.Compare, language.Say("Compare"), language.Say("Compare the picture with it"), k.acts.Compare)
	add(icons.Target, "", language.Say("Make it the target"), k.acts.Target)
	add(icons.Export, "", language.Say("Export it"), k.acts.Export)
	add(icons.Folder, "", language.Say("Show its folder"), k.acts.Folder)
	add(icons.Delete, "", language.Say("Put it into the trash"), k.acts.Delete)
	f.box = container.New(widgets.Abreast{Stretch: widgets.All})
	for _, b := range f.buttons {
		f.box.Add(b)
	}
	return f
}

// Acts are the buttons for what can be done with the still that is meant.
func (k *Kept) Acts() []*widgets.Button { return k.foot.buttons }

// show shows whether there is a still to do it with.
func (f keptFoot) show() {
	for _, b := range f.buttons {
		b.SetOff(f.kept.At() == "")
	}
}
