package widgets

import (
	"cmp"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/icons"
)

// Hint is a pictogram with a line of words and a quiet one below, and a switch or nothing.
type Hint struct {
	Icon   icons.Name
	Words  string
	Short  string // the same where Words finds no room; "": Words
	Note   string
	Switch *Switch // at the right; nil for none
}

// Hints is a panel of hints below each other, with quiet lines at its foot.
type Hints struct {
	drawn
	hints []Hint
	lines []string

	back, rule *canvas.Rectangle
	icons      []*canvas.Image
	words      [][wordLines]*canvas.Text
	notes      [][hintLines]*canvas.Text
	foot       [][hintLines]*canvas.Text
}

// NewHints returns a panel.
func NewHints(hints []Hint, lines ...string) *Hints {
	h := &Hints{hints: hints, lines: lines}
	h.back, h.rule = add(&h.drawn, newPanelBox()), h.addBox()
	for _, hint := range hints {
		h.icons = append(h.icons, h.addIcon())
		var words [wordLines]*canvas.Text
		for i := range words {
			words[i] = h.addText(TextSize, fyne.TextStyle{})
		}
		h.words, h.notes = append(h.words, words), append(h.notes, h.addLines())
		if hint.Switch != nil {
			add(&h.drawn, hint.Switch)
		}
	}
	for range lines {
		h.foot = append(h.foot, h.addLines())
	}
	h.draw(h)
	return h
}

// hintLines is how many lines what stands below the words may have: large text needs three.
const hintLines = 3

// wordLines is how many the words themselves may have.
const wordLines = 3

func (h *Hints) addLines() (lines [hintLines]*canvas.Text) {
	for i := range lines {
		lines[i] = h.addText(SmallSize, fyne.TextStyle{})
	}
	return lines
}

func (h *Hints) write(size fyne.Size, of colours) {
	fillEdged(h.back, ColorNamePanel, of)
	fill(h.rule, of(ColorNameRule))
	show(h.rule, len(h.lines) > 0 && len(h.hints) > 0)
	for i, hint := range h.hints {
		picture(h.icons[i], hint.Icon, theme.ColorNameForeground)
		words := h.wordsOf(i, size.Width)
		for at, t := range h.words[i] {
			say(t, nth(words, at), of(theme.ColorNameForeground))
		}
		lines := h.noteOf(i, size.Width)
		for at, t := range h.notes[i] {
			say(t, nth(lines, at), of(ColorNameQuiet))
		}
	}
	for i := range h.lines {
		lines := h.footOf(i, size.Width)
		for at, t := range h.foot[i] {
			say(t, nth(lines, at), of(ColorNameQuiet))
		}
	}
}

// hintWords is where the words of a hint begin.
func hintWords() float32 { return 3.5*Step + IconSize() }

// room is the width of a hint's words.
func (h *Hints) room(i int, width float32) float32 {
	room := width - hintWords() - Step
	if s := h.hints[i].Switch; s != nil {
		room -= s.MinSize().Width + Step
	}
	return max(room, 1)
}

// wordsOf breaks the words of a hint into lines, where the short ones find no room either.
func (h *Hints) wordsOf(i int, width float32) []string {
	hint := h.hints[i]
	if width == 0 {
		return []string{hint.Words}
	}
	room := h.room(i, width)
	return brokenLines(longestFitting(room, TextSize(), hint.Words, cmp.Or(hint.Short, hint.Words)), room, wordLines, textWidth)
}

// noteOf breaks the quiet words of a hint into lines, footOf those of a line at the foot.
func (h *Hints) noteOf(i int, width float32) []string {
	return brokenLines(h.hints[i].Note, h.room(i, width), len(h.notes[i]), smallWidth)
}

func (h *Hints) footOf(i int, width float32) []string {
	if width == 0 {
		return h.lines[i : i+1]
	}
	return brokenLines(h.lines[i], width-3*Step, len(h.foot[i]), smallWidth)
}

// high is the height of a hint in a width.
func (h *Hints) high(i int, width float32) float32 {
	lines := float32(1)
	if width > 0 {
		lines = float32(len(h.noteOf(i, width)))
	}
	return max(round(float32(len(h.wordsOf(i, width)))*nameLine()+lines*noteLine()+Step), Row())
}

func (h *Hints) place(size fyne.Size) {
	h.back.Resize(size)
	y, icon := Step/2, IconSize()
	for i, hint := range h.hints {
		high := h.high(i, size.Width)
		put(h.icons[i], fyne.NewPos(1.5*Step, y+(high-icon)/2), fyne.NewSquareSize(icon))
		top := y + Step/2
		for at, t := range h.words[i] {
			placeText(t, hintWords(), top+float32(at)*nameLine())
		}
		top += float32(len(h.wordsOf(i, size.Width))) * nameLine()
		for at, t := range h.notes[i] {
			placeText(t, hintWords(), top+float32(at)*noteLine())
		}
		if s := hint.Switch; s != nil {
			put(s, fyne.NewPos(size.Width-Step-s.MinSize().Width, y), fyne.NewSize(s.MinSize().Width, high))
		}
		y += high
	}
	put(h.rule, fyne.NewPos(1.5*Step, y+Step/2), fyne.NewSize(size.Width-3*Step, 1))
	y += Step
	for i := range h.foot {
		for at, t := range h.foot[i] {
			placeText(t, 1.5*Step, y+float32(at)*noteLine())
		}
		y += float32(len(h.footOf(i, size.Width))) * noteLine()
	}
}

func (h *Hints) minSize() fyne.Size {
	high := Step
	for i := range h.hints {
		high += h.high(i, h.Size().Width)
	}
	if len(h.lines) > 0 {
		high += Step
	}
	for i := range h.lines {
		high += float32(len(h.footOf(i, h.Size().Width))) * noteLine()
	}
	return fyne.NewSize(0, high)
}
