package keeping

import (
	"slices"

	"fyne.io/fyne/v2/container"

	"app.tonedesk/gui/growing"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/series"
	"app.tonedesk/gui/widgets"
)

// newGrew makes the part that shows how a picture grew, hidden as yet, and its button.
func (k *Kept) newGrew() {
	k.grew = growing.New(k.Host, k.acts.Grow)
	k.list = container.NewStack(k.Grid, container.NewVBox(k.words))
	k.grew.Box.Hide()
	k.Grew = widgets.NewIconButton(icons.Growth, k.Keys, k.toggleGrew).Shortens()
	k.Grew.Explain(k.Tips, language.Say("How it grew; Shift and a click choose stills"))
}

// toggleGrew shows how a picture grew in place of the small pictures, or these again.
func (k *Kept) toggleGrew() {
	k.Grew.SetOn(!k.Grew.On())
	if k.Grew.On() {
		k.list.Hide()
		k.grew.Box.Show()
	} else {
		k.grew.Box.Hide()
		k.list.Show()
		k.grew.Leave()
	}
	k.ShowGrowth()
	k.Changed()
}

// LeaveGrowth shows the small pictures again, and reports whether they were not shown.
func (k *Kept) LeaveGrowth() bool {
	if !k.Grew.On() {
		return false
	}
	k.toggleGrew()
	return true
}

// Grown is what is said first of how the picture grew; "" while that isn't shown.
func (k *Kept) Grown() string {
	if !k.Grew.On() {
		return ""
	}
	return k.grew.Text().Title
}

// choose makes a still one of those that are to be a series, or no longer.
func (k *Kept) choose(id string) {
	if i := slices.Index(k.chosen, id); i >= 0 {
		k.chosen = slices.Delete(k.chosen, i, i+1)
	} else {
		k.chosen = append(k.chosen, id)
	}
	k.Grid.Refresh()
	k.ShowGrowth()
}

// ShowGrowth renews how a picture grew, where that is shown.
func (k *Kept) ShowGrowth() {
	if k.Grew.On() {
		k.grew.Show(k.series())
	}
}

// series are the stills of which two at least are chosen or, of those that are listed, those of the
// meant one's picture; oldest first, with the place of the meant one.
func (k *Kept) series() (list []stills.Entry, meant int) {
	at := k.At()
	if k.inTrash() || at == "" {
		return nil, -1
	}
	for _, e := range slices.Backward(k.kept) {
		if slices.Contains(k.chosen, e.ID) {
			list = append(list, e)
		}
	}
	isMeant := func(e stills.Entry) bool { return e.ID == at }
	if len(list) < 2 {
		list = series.Of(k.Shown, k.Shown[slices.IndexFunc(k.Shown, isMeant)].Source)
	}
	return list, slices.IndexFunc(list, isMeant)
}
