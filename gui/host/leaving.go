package host

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/language"
)

// Leaver ends the program when the painter asks for it: what is still to be saved is saved
// first, and where that fails the painter is asked, so that nothing is lost in silence.
type Leaver struct {
	*Host
	Save      func() error              // saves all there is to save; it may take long
	Lost      func(why error) string    // says what would be lost
	Elsewhere func(folder string) error // writes what can't be saved into another folder; it may take long
	End       func()                    // ends the program
	saving    bool
}

// leaveTitle heads the question.
const leaveTitle language.Words = "Not all is saved"

// Leave ends the program once all is saved, or asks.
func (l *Leaver) Leave() {
	if !l.saving && l.Asks() != leaveTitle.String() {
		l.try(language.Say("Saving what is left to save"), l.Save)
	}
}

// try saves in one way or another, without holding up the window, and ends the program.
func (l *Leaver) try(say string, save func() error) {
	l.saving = true
	l.Messages.Note(say)
	l.Background(func() error { return Within(SaveMost, save) }, func(err error) {
		l.saving = false
		if err == nil {
			l.End()
			return
		}
		l.Messages.Clear(MessageNote)
		fyne.LogError("saving at the end", err)
		l.ask(err)
	})
}

// ask says what would be lost, and lets the painter choose.
func (l *Leaver) ask(why error) {
	words := widget.NewLabel(l.Lost(why))
	words.Wrapping = fyne.TextWrapWord
	l.Question(leaveTitle.String(), words, nil,
		Choice{language.Say("Try again"), l.Leave},
		Choice{language.Say("Save elsewhere…"), func() { l.elsewhere(why) }},
		Choice{language.Say("Quit all the same"), l.End},
		Choice{language.Say("Go on working"), nil},
	)
}

// elsewhere lets the painter choose a folder for what can't be saved where it belongs.
func (l *Leaver) elsewhere(why error) {
	l.AskFolder("", func(folder string) {
		if folder == "" {
			l.ask(why)
			return
		}
		l.try(language.Say("Saving in %s", folder), func() error { return l.Elsewhere(folder) })
	})
}
