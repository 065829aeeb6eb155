package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// seenLines leaves those lines of a longer text empty, and hidden, that are out of sight: the toolkit
// (2.7.1) measures all of them for every frame, and draws them, which for 4,000 letters takes longer than
// all else. What is typed, selected and copied is the toolkit's text, which stays whole. On the
// Fyne goroutine only.
type seenLines struct {
	rows  *container.Scroll   // what scrolls them
	all   *widget.RichText    // the toolkit's text
	at    fyne.CanvasObject   // the cursor
	text  fyne.WidgetRenderer // of it, beside its own, with the same lines
	drawn []*canvas.Text      // one for each line
	words []string            // what stands in each where it is seen
	of    linesFor
}

// linesFor is what lines depend on. Lines of one height and size are as many.
type linesFor struct {
	text                string
	height, width, size float32
	letters             int // whose widths are known
}

// newSeenLines returns the lines of an entry that has been drawn; nil if the toolkit builds it
// otherwise than we know: then all of them are drawn, as ever.
func newSeenLines(rows *container.Scroll) *seenLines {
	content, is := rows.Content.(fyne.Widget)
	if !is {
		return nil
	}
	var texts []*widget.RichText
	var cursor fyne.CanvasObject
	for _, o := range content.CreateRenderer().Objects() {
		switch o := o.(type) {
		case *widget.RichText:
			texts = append(texts, o)
		case *canvas.Rectangle:
			cursor = o
		}
	}
	if len(texts) != 2 || cursor == nil { // the placeholder and the text
		return nil
	}
	return &seenLines{rows: rows, all: texts[1], at: cursor, text: texts[1].CreateRenderer()}
}

// typed has the toolkit break and draw another text, once: by itself it breaks it three times more, twice
// of them since the text has another height then, which it is given here.
func (s *seenLines) typed() {
	s.all.Refresh()
	s.all.BaseWidget.Resize(s.all.MinSize().Max(s.rows.Size())) // without breaking it once more
	s.rows.Content.Refresh()
}

// changed finds the lines anew if the text has changed, which the toolkit has laid out by now, and
// shows those in sight.
func (s *seenLines) changed(text string) {
	size := theme.TextSize()
	now := linesFor{text, s.rows.Content.MinSize().Height, s.rows.Size().Width, size, len(widthsOf(size).others)}
	if now == s.of {
		s.show()
		return
	}
	if now.height != s.of.height || now.size != s.of.size {
		s.text.Refresh() // it has more lines, or fewer
	}
	s.of = now
	s.drawn, s.words = s.drawn[:0], s.words[:0]
	for _, o := range s.text.Objects() {
		if line, is := o.(*canvas.Text); is {
			s.drawn, s.words = append(s.drawn, line), append(s.words, line.Text)
		}
	}
	s.show()
}

// moved shows the lines in sight after the cursor or what scrolls them has moved, or the toolkit has
// changed the text by itself, as from its menu.
func (s *seenLines) moved(text string) {
	if text != s.of.text {
		s.of = linesFor{}
	}
	s.changed(text)
}

// show fills the lines in sight, and empties and hides the others.
func (s *seenLines) show() {
	top := s.rows.Offset.Y
	foot := top + s.rows.Size().Height
	for i, line := range s.drawn {
		words, y := "", line.Position().Y
		line.Hidden = y >= foot || y+line.Size().Height <= top // else it would be drawn, empty
		if !line.Hidden {
			words = s.words[i]
		}
		if line.Text != words {
			line.Text = words
			line.Refresh()
		}
	}
}
