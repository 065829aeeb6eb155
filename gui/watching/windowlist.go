package watching

import (
	"context"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/capture"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/menus"
	"app.tonedesk/gui/wording"
)

// listWait is how long the list of windows may take.
const listWait = 5 * time.Second

// ListWindows lists the windows that can be followed, at a point of the window, and follows the
// one that is tapped.
func (w *Ways) ListWindows(at fyne.Position) {
	own := uint64(w.Handle())
	var list []menus.Window
	now := w.Now()
	w.Background(func() error {
		ctx, cancel := context.WithTimeout(context.Background(), listWait)
		defer cancel()
		return w.screen.follower(func(f capture.Follower) error {
			if s := w.screen.window; s != nil && now.Window == 0 { // of several of one name, which it is
				now.Window = s.Window().ID
			}
			windows, err := f.Windows(ctx, own)
			for _, found := range windows {
				list = append(list, menus.Window{From: sourceOf(found), Minimised: found.Minimised, Width: found.Rect.Dx(), Height: found.Rect.Dy()})
			}
			return err
		})
	}, func(err error) {
		switch {
		case err != nil:
			w.Messages.Fail(wording.ExplainFollowing("list the windows", err))
			fyne.LogError("listing windows", err)
		case len(list) == 0:
			if w.Shares() {
				w.Messages.Note(wording.SayNoX11Window.String())
				return
			}
			w.Messages.Note(language.Say("No window is open to follow"))
		default:
			w.OpenMenu(menus.Windows{List: list, Now: now, Follow: w.Watch, Point: w.pointing()}.Rows(), at, nil)
		}
	})
}

// AskWindow lists them where the window has them.
func (w *Ways) AskWindow() { w.ListWindows(w.Below()) }
