package menus

import (
	"image"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// Views is the menu of the views, each over a small picture of what is watched. While it is open
// the pictures are renewed; while it is closed nothing is painted for it.
type Views struct {
	*host.Host
	ViewActs
	shown []*widgets.Preview // while it is open, in the order of the views
}

// ViewActs are what the menu asks of the window.
type ViewActs struct {
	Now     func() (view string, flipped bool)
	Choose  func(view string)
	Flip    func()
	Renewed func() // other previews are wanted, or none
}

// columns is how many previews stand beside each other.
const columns = 3

// Open shows the menu.
func (v *Views) Open(at fyne.Position) {
	v.OpenMenu(v.rows(), at, func() {
		v.shown = nil
		v.Renewed()
	})
	v.Renewed()
}

// rows makes the previews, and the row at the foot.
func (v *Views) rows() []widgets.MenuRow {
	now, flipped := v.Now()
	v.shown = nil
	for i, view := range views.All() {
		v.shown = append(v.shown, widgets.NewPreview(widgets.MenuItem{Words: wording.ViewName(view), Keys: keyOf(i), Says: wording.ViewSays(view), On: view.Key == now, Do: func() { v.Choose(view.Key) }}))
	}
	flip := widgets.MenuItem{Icon: icons.Flip, Words: language.Say("Flip"), Keys: "X", On: flipped, Do: v.Flip}
	return []widgets.MenuRow{{Previews: v.shown, Columns: columns}, {Rule: true, Items: []widgets.MenuItem{flip}, Words: language.Say("next V, previous Shift+V")}}
}

// keyOf is the key of the view at a place in the list; "" for none.
func keyOf(i int) string {
	const keys = "1234567890"
	if i < len(keys) {
		return keys[i : i+1]
	}
	return ""
}

// Room is how large the previews may be, in pixels; none while the menu is closed.
func (v *Views) Room() (none image.Point) {
	if v == nil || v.shown == nil {
		return none
	}
	scale := v.Mirror.Scale()
	return image.Pt(int(widgets.PreviewWidth*scale), int(widgets.PreviewHeight*scale))
}

// Take shows new pictures; nil leaves those that are shown.
func (v *Views) Take(images []*image.RGBA) {
	for i, p := range v.shown {
		if i < len(images) {
			p.SetPicture(images[i])
		}
	}
}

// ViewName is what the view of a key is called on the button that opens the menu.
func ViewName(key string) string {
	v, ok := views.ByKey(key)
	if !ok {
		return language.Say("View")
	}
	return wording.ViewName(v)
}
