package gui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// shelf shows the stills that were kept, newest first, and what is in the trash. Thousands
// stay quick: only what is seen is drawn, and small pictures are made when they come into
// sight.
type shelf struct {
	d      *Desk
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

func newShelf(d *Desk) *shelf {
	s := &shelf{d: d, words: widgets.SmallLabel(), search: widget.NewEntry()}
	s.thumbs = newThumbs(d, func(id string) {
		if i := slices.IndexFunc(s.shown, func(e stills.Entry) bool { return e.ID == id }); i >= 0 {
			s.grid.RefreshItem(i)
		}
	})
	s.search.PlaceHolder = "Search: name, words on it, date"
	s.search.OnChanged = func(string) { s.filter() }
	s.what = widgets.NewChooser([]string{"In colour", "In greys", "Trash"}, 4*widgets.Step, d, func(i int) {
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
	d := s.d
	if d.options.Stills == nil {
		s.words.SetText(wording.Explain("keep stills", errNoStills))
		return
	}
	trash := s.trash
	d.aside(func() {
		entries, problems, err := listStills(d.options.Stills, trash)
		d.onWindow(func() {
			if err != nil {
				d.parts.strip.Say(widgets.MessageNote, wording.Explain("list the stills", err))
				return
			}
			for _, p := range problems {
				d.parts.strip.Say(widgets.MessageNote, wording.SayProblem(p))
			}
			s.all = entries
			s.filter()
		})
	})
}

func listStills(store *stills.Store, trash bool) (entries []stills.Entry, problems []stills.Problem, err error) {
	if !trash {
		return store.List()
	}
	thrown, err := store.Trash()
	for _, t := range thrown {
		entries = append(entries, t.Entry)
	}
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
		s.d.relayPage()
	}
	if widgets.SetWords(s.words, words) {
		s.d.relayPage()
	}
	s.grid.UnselectAll()
	s.grid.Refresh()
	s.d.trace.state(s.d)
}

// fill shows still i in an item.
func (s *shelf) fill(i widget.GridWrapItemID, o fyne.CanvasObject) {
	if i >= len(s.shown) {
		return
	}
	e := s.shown[i]
	item := o.(*widgets.ShelfItem)
	name := e.Name
	if name == "" {
		name = wording.TimeSay(e.Time)
	}
	gaps, rest := wording.SayShelf(e.Meta)
	if e.Trouble != nil {
		rest = strings.TrimPrefix(rest+", notes unread", ", ")
	}
	item.Set([]string{name, gaps, rest}, s.thumbs.get(e.ID, s.grey))
}

// Chosen opens a still, compares with it, or brings it back from the trash.
func (s *shelf) chosen(i widget.GridWrapItemID) {
	s.grid.UnselectAll()
	s.d.focusMirror() // keys work on the picture
	if i >= len(s.shown) {
		return
	}
	id := s.shown[i].ID
	switch {
	case s.trash:
		s.d.askRestore(s.shown[i])
	case s.d.comparing == compareAsked:
		s.d.compareWith(id)
	default:
		s.d.OpenStill(id)
	}
}
