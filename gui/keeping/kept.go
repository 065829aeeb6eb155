package keeping

import (
	"image"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/growing"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// Kept shows the stills that were kept, newest first, and what is in the trash. Small pictures are
// made when they come into sight.
type Kept struct {
	*host.Host
	acts   KeptActs
	Box    fyne.CanvasObject
	Search *widgets.Entry
	Greys  *widgets.Button
	Which  *widgets.Pick
	head   *widgets.Folding // these
	Grid   *widgets.StillGrid
	words  *widget.Label
	foot   keptFoot
	thumbs thumbs

	Grew *widgets.Button // shows how a picture grew, in place of the small pictures
	grew *growing.Panel
	list fyne.CanvasObject // the small pictures

	kept, trash []stills.Entry // as read last
	Shown       []stills.Entry // of these, what is asked for
	selected    string         // ID, "" for none
	chosen      []string       // IDs of those that are to be a series; none for all of one source
}

// KeptActs are what can be done with a still, by its ID, and what is asked about one.
type KeptActs struct {
	Open    func(id string)
	Compare func(id string)
	Target  func(id string)
	Export  func(id string)
	Folder  func(id string)
	Delete  func(id string)
	Restore func(id string)

	OfThis  func(stills.Entry) bool // it shows what is watched
	Loaded  func()                  // the stills were read anew
	Came    func()                  // a small picture was made
	Grow    growing.Acts            // for how a picture grew
	Shift   func() bool             // the shift key is down
	Missing error                   // why there are no stills where there is no store
}

// The lists of stills, by the words that choose one.
const (
	ListAll   language.Words = "All"
	ListToday language.Words = "Today"
	ListThis  language.Words = "This picture"
	ListTrash language.Words = "Trash"
)

// NewKept returns the list, before anything was read.
func NewKept(h *host.Host, acts KeptActs) *Kept {
	k := &Kept{Host: h, acts: acts, words: widgets.SmallLabel()}
	k.thumbs = newThumbs(h, k.came)
	k.Search = widgets.NewEntry(h.Keys, language.Say("Search: name, words, date"))
	k.Search.Icon = theme.NewColoredResource(icons.Resource(icons.Search), widgets.ColorNameQuiet)
	k.Search.Brief = language.Say("Search")
	k.Search.OnChanged = func(string) { k.filter() }
	k.Search.OnEscape = func() {
		k.Search.SetText("")
		k.FocusMirror()
	}
	k.Greys = widgets.NewIconButton(icons.View, h.Keys, func() {
		k.Greys.SetOn(!k.Greys.On())
		k.filter()
	}).Shortens()
	k.Greys.Explain(h.Tips, language.Say("Small pictures in greys"))
	k.Grid = widgets.NewStillGrid(h.Keys, func() int { return len(k.Shown) }, k.fill, k.Tapped)
	k.Which = widgets.NewPick([]string{ListAll.String(), ListToday.String(), ListThis.String(), ListTrash.String()}, h.Keys, h.OpenList, func(string) {
		k.head.Refresh() // another word has another width
		k.Load()
	})
	k.foot = newKeptFoot(h, k)
	k.words.Alignment = fyne.TextAlignCenter
	k.newGrew()
	k.head = widgets.NewFolding(k.Search, k.Greys, k.Grew, k.Which)
	grid := container.New(&widgets.LeastHeight{Height: 7 * widgets.Step}, container.NewStack(k.list, k.grew.Box))
	k.Box = container.NewBorder(k.head, k.foot.box, nil, nil, grid)
	return k
}

// came shows a small picture that was made.
func (k *Kept) came(id string) {
	if i := slices.IndexFunc(k.Shown, func(e stills.Entry) bool { return e.ID == id }); i >= 0 {
		k.Grid.RefreshItem(i)
	}
	k.acts.Came()
}

// Load reads what was kept, without holding up the window.
func (k *Kept) Load() {
	if k.Store == nil {
		k.words.SetText(wording.Explain("keep stills", k.acts.Missing))
		return
	}
	wantTrash := k.inTrash()
	var kept, trash []stills.Entry
	var problems []stills.Problem
	k.Background(func() (err error) {
		if kept, problems, err = k.Store.List(); err == nil && wantTrash {
			trash, err = k.Store.Trash()
		}
		return err
	}, func(err error) {
		if err != nil {
			k.Messages.Note(wording.Explain("list the stills", err))
			return
		}
		for _, p := range problems {
			k.Messages.Note(wording.SayProblem(p))
		}
		k.kept, k.trash = kept, trash
		k.filter()
		k.acts.Loaded()
	})
}

func (k *Kept) inTrash() bool { return k.Which.Chosen() == ListTrash.String() }

// All are the stills that were kept, newest first.
func (k *Kept) All() []stills.Entry { return k.kept }

// Thumb returns a still's small picture in colour; nil while it is being made.
func (k *Kept) Thumb(id string) *image.RGBA { return k.thumbs.get(id, false) }

// filter shows what is asked for.
func (k *Kept) filter() {
	of, now := k.kept, time.Now()
	if k.inTrash() {
		of = k.trash
	}
	k.Shown = slices.DeleteFunc(slices.Clone(of), func(e stills.Entry) bool {
		switch {
		case k.Which.Chosen() == ListToday.String() && !sameDay(e.Time, now), k.Which.Chosen() == ListThis.String() && !k.acts.OfThis(e):
			return true
		}
		return !e.Matches(k.Search.Text)
	})
	k.words.SetText(k.empty(len(of)))
	k.Grid.Refresh()
	k.foot.show()
	k.ShowGrowth()
	k.Changed()
}

// empty says why nothing is shown of so many; "" if something is.
func (k *Kept) empty(of int) string {
	switch {
	case len(k.Shown) > 0:
		return ""
	case of > 0:
		return language.Say("Nothing is found.")
	case k.inTrash():
		return language.Say("The trash is empty.")
	}
	return language.Say("Nothing is kept yet. Keep, or Ctrl+S, keeps the picture of now.")
}

func sameDay(a, b time.Time) bool {
	y, m, d := a.Local().Date()
	y2, m2, d2 := b.Local().Date()
	return y == y2 && m == m2 && d == d2
}

// fill shows still i in an item.
func (k *Kept) fill(i int, item *widgets.StillItem) {
	if i >= len(k.Shown) {
		return
	}
	e := k.Shown[i]
	name, at := wording.SayKept(e.Meta, time.Now())
	if e.Trouble != nil {
		at = language.Say("notes unread")
	}
	item.Set(name, at, k.thumbs.get(e.ID, k.Greys.On()), e.ID == k.selected && !k.inTrash())
	item.SetChosen(slices.Contains(k.chosen, e.ID) && !k.inTrash())
}

// Tapped selects a still, opens the one that is selected already, or takes one out of the trash.
func (k *Kept) Tapped(i int) {
	if i >= len(k.Shown) {
		return
	}
	id := k.Shown[i].ID
	switch {
	case k.inTrash():
		k.acts.Restore(id)
	case k.acts.Shift():
		k.choose(id)
	case id == k.selected:
		k.acts.Open(id)
	default:
		k.Select(id)
	}
}

// Select selects a still by its ID.
func (k *Kept) Select(id string) {
	k.selected = id
	k.Grid.Refresh()
	k.foot.show()
	k.ShowGrowth()
}

// At is the still that is meant: the selected one if it is shown, else the newest that is; "" for
// none. What lies in the trash is only taken out of it.
func (k *Kept) At() string {
	if k.inTrash() || len(k.Shown) == 0 {
		return ""
	}
	if slices.ContainsFunc(k.Shown, func(e stills.Entry) bool { return e.ID == k.selected }) {
		return k.selected
	}
	return k.Shown[0].ID
}
