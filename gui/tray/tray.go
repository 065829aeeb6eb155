package tray

import (
	"context"
	"errors"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/wording"
)

// Acts are what the menu does. They are called on the Fyne goroutine.
type Acts struct {
	Show   func() // shows the window where it is hidden, else hides it
	Freeze func()
	Keep   func()
	Quit   func()
}

var (
	// errNoBus says that there is no way to a tray here.
	errNoBus = errors.New("no session bus")
	// errNoTray says that nothing shows a tray now; something may later.
	errNoTray = errors.New("nobody shows a tray")
)

// askMost is how long the desktop may take to say whether it has a tray. Our choice: it is asked
// before the window's loop begins.
const askMost = time.Second

// Begin puts the entry into the tray, before the toolkit's loop begins. Where there is no way to one
// nothing is done and nothing said; where nobody shows one now, it comes once somebody does.
func Begin(h *host.Host, acts Acts) {
	app, ok := h.App.(desktop.App)
	if ok && !errors.Is(ask(), errNoBus) { // without a bus the toolkit would break down at its end
		app.SetSystemTrayMenu(menu(acts))
	}
}

// ask is offered, in bounded time.
func ask() error {
	ctx, done := context.WithTimeout(context.Background(), askMost)
	defer done()
	return offered(ctx)
}

// menu is the entry's. The last item is what the toolkit would add by itself, with an end of its own.
func menu(acts Acts) *fyne.Menu {
	quit := fyne.NewMenuItem(wording.SayTrayQuit.String(), acts.Quit)
	quit.IsQuit = true
	return fyne.NewMenu("", fyne.NewMenuItem(wording.SayTrayShow.String(), acts.Show), fyne.NewMenuItem(wording.SayTrayFreeze.String(), acts.Freeze),
		fyne.NewMenuItem(wording.SayTrayKeep.String(), acts.Keep), fyne.NewMenuItemSeparator(), quit)
}

// Tell says what becomes of the setting, once it was switched.
func Tell(h *host.Host, on bool) {
	if !on {
		h.Messages.Note(wording.SayTrayGoes.String())
		return
	}
	var none error
	h.Background(func() error { none = ask(); return nil }, func(error) {
		if none != nil {
			h.Messages.Note(wording.SayTrayNone.String())
			return
		}
		h.Messages.Note(wording.SayTrayComes.String())
	})
}
