package gui

import (
	"cmp"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// shelf shows the stills that were kept, newest first, and what is in the trash. Thousands
// stay quick: only what is seen is drawn, and small pictures are made when they come into
// sight.
type shelf struct {
	*host.Host
	stills *keptStills
	open   func(id string) // a still was clicked
	box    *fyne.Container
	search *widget.Entry
	what   *widgets.Chooser
	words  *widget.Label
	grid   *widget.GridWrap
	thumbs thumbs

	all   []stills.Entry // as read last
	shown []stills.Entry // of these, what the search finds
	trash bool
	grey  bool
}

func newShelf(k *keptStills, open func(id string)) *shelf {
	s := &shelf{Host: k.Host, stills: k, open: open, words: widgets.SmallLabel(), search: widget.NewEntry()}
	s.thumbs = newThumbs(k.Host, func(id string) {
		if i := slices.IndexFunc(s.shown, func(e stills.Entry) bool { return e.ID == id }); i >= 0 {
			s.grid.RefreshItem(i)
		}
	})
	s.search.PlaceHolder = "Search: name, words on it, date"
	s.search.OnChanged = func(string) { s.filter() }
	s.what = widgets.NewChooser([]string{"In colour", "In greys", "Trash"}, 4*widgets.Step, k.Keys, func(i int) {
		s.grey, s.trash = i == 1, i == 2
		s.what.Set(i)
		s.load()
	})
	s.grid = widget.NewGridWrap(func() int { return len(s.shown) }, func() fyne.CanvasObject { return widgets.NewShelfItem() }, s.fill)
	s.grid.OnSelected = s.chosen
	s.box = container.NewBorder(widgets.OnPanel(s.what, widgets.Inset(s.search), s.words), nil, nil, nil, container.New(&widgets.LeastHeight{Height: 18 * widgets.Step}, s.grid))
	return s
}

// load reads what was kept, without holding up the window.
func (s *shelf) load() {
	if s.Store == nil {
		s.words.SetText(wording.Explain("keep stills", errNoStills))
		return
	}
	trash := s.trash
	var entries []stills.Entry
	var problems []stills.Problem
	s.Background(func() (err error) {
		entries, problems, err = listStills(s.Store, trash)
		return err
	}, func(err error) {
		if err != nil {
			s.Messages.Note(wording.Explain("list the stills", err))
			return
		}
		for _, p := range problems {
			s.Messages.Note(wording.SayProblem(p))
		}
		s.all = entries
		s.filter()
	})
}

func listStills(store *stills.Store, trash bool) (entries []stills.Entry, problems []stills.Problem, err error) {
	if !trash {
		return store.List()
	}
	entries, err = store.Trash()
	return entries, nil, err
}

// filter shows what the search finds.
func (s *shelf) filter() {
	s.shown = slices.DeleteFunc(slices.Clone(s.all), func(e stills.Entry) bool { return !e.Matches(s.search.Text) })
	words := ""
	switch {
	case len(s.all) == 0 && s.trash:
		words = "The trash is empty."
	case len(s.all) == 0:
		words = "Nothing is kept yet."
	case len(s.shown) == 0:
		words = "Nothing is found."
	case s.trash:
		words = "Click a still to bring it back."
	}
	if s.words.Hidden == (words != "") {
		s.words.Hidden = words == ""
		s.LayOutPage()
	}
	if widgets.SetWords(s.words, words) {
		s.LayOutPage()
	}
	s.grid.UnselectAll()
	s.grid.Refresh()
	s.Changed()
}

// fill shows still i in an item.
func (s *shelf) fill(i widget.GridWrapItemID, o fyne.CanvasObject) {
	if i >= len(s.shown) {
		return
	}
	e := s.shown[i]
	item := o.(*widgets.ShelfItem)
	name := cmp.Or(e.Name, wording.TimeSay(e.Time))
	gaps, rest := wording.SayShelf(e.Meta)
	if e.Trouble != nil {
		rest = strings.TrimPrefix(rest+", notes unread", ", ")
	}
	item.Set([]string{name, gaps, rest}, s.thumbs.get(e.ID, s.grey))
}

// chosen opens a still, or offers to bring it back from the trash.
func (s *shelf) chosen(i widget.GridWrapItemID) {
	s.grid.UnselectAll()
	s.FocusMirror() // keys work on the picture
	switch {
	case i >= len(s.shown):
	case s.trash:
		s.stills.askRestore(s.shown[i])
	default:
		s.open(s.shown[i].ID)
	}
}
