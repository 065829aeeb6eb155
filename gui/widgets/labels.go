package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// SmallLabel is a text in the small size that takes as many lines as it needs.
func SmallLabel() *widget.Label {
	l := widget.NewLabel("")
	l.Wrapping = fyne.TextWrapWord
	l.SizeName = theme.SizeNameCaptionText
	return l
}

// SetWords gives a label its words, and reports whether it asks for another height; the same
// words cost nothing.
func SetWords(l *widget.Label, words string) (resized bool) {
	if l.Text == words {
		return false
	}
	before := l.MinSize().Height
	l.SetText(words)
	return l.MinSize().Height != before
}

// OnPanel stands parts below each other on a panel.
func OnPanel(parts ...fyne.CanvasObject) *fyne.Container {
	return container.NewStack(NewPanel(), container.New(layout.NewCustomPaddedVBoxLayout(0), parts...))
}

// AtRight sets a button into the right end of a panel's heading.
func AtRight(o fyne.CanvasObject) fyne.CanvasObject {
	return container.New(layout.NewCustomPaddedLayout(0, 0, 0, Step/2), container.NewCenter(o))
}

// Inset keeps a part a step from the panel's sides.
func Inset(o fyne.CanvasObject) fyne.CanvasObject {
	return container.New(layout.NewCustomPaddedLayout(0, Step/2, Step, Step), o)
}

// Section is a panel with a heading, a button or nothing at its right, and parts below it.
func Section(heading string, act fyne.CanvasObject, parts ...fyne.CanvasObject) *fyne.Container {
	title := widget.NewLabel(heading)
	title.TextStyle.Bold = true
	head := container.NewBorder(nil, nil, title, act)
	all := []fyne.CanvasObject{head}
	for _, o := range parts {
		if _, words := o.(*widget.Label); !words {
			o = Inset(o)
		}
		all = append(all, o)
	}
	return OnPanel(all...)
}

// QuietWords is a small quiet line.
func QuietWords(words string) fyne.CanvasObject {
	l := SmallLabel()
	l.SetText(words)
	return container.New(layout.NewCustomPaddedLayout(-Step/2, -Step, -Step, -Step), l)
}
