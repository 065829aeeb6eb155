package watching

import (
	"context"
	"errors"
	"fmt"
	"image"

	"fyne.io/fyne/v2"

	"app.tonedesk/capture"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/menus"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// Shares reports whether the desktop asks what to share, in place of choosing a region, as Follows does.
func (w *Ways) Shares() bool {
	return w.screen.offers(func(b capture.Backend) bool { _, ok := b.(capture.Sharer); return ok })
}

// AskShare has the desktop ask what to share, and watches that. Asked twice, it gives up. Where the
// screen can be read without asking it lets the painter choose a region.
func (w *Ways) AskShare() {
	if end := w.shares.end.Load(); end != nil {
		(*end)()
		return
	}
	ctx, cancel := context.WithCancel(context.Background())
	w.shares.end.Store(&cancel)
	w.Messages.Offer(host.MessagePointing, wording.SayAsksWhatToShare.String(), host.MessageAct{Name: language.Say("End"), Do: cancel})
	own := uint64(w.Handle())
	var number uint64
	w.Background(func() error {
		s, err := w.screen.sharer()
		if err == nil {
			number, err = s.Ask(ctx, own)
		}
		return err
	}, func(err error) {
		cancel()
		w.shares.end.Store(nil)
		w.Messages.Clear(host.MessagePointing)
		var several *capture.Several
		switch {
		case err == nil:
			w.Watch(setup.Source{Kind: setup.SourceShared, Window: number})
		case errors.As(err, &several):
			w.OpenMenu(menus.Screens(screensOf(several), w.Watch), w.Below(), nil)
		case errors.Is(err, errReadable):
			w.region.pick()
		case errors.Is(err, capture.ErrGivenUp):
			w.Messages.Note(wording.SayNothingShared.String())
		default:
			w.Messages.Fail(wording.ExplainSharing("share the screen", err))
			fyne.LogError("sharing the screen", err)
		}
	})
}

// screensOf are the screens to choose from, as a menu has them.
func screensOf(several *capture.Several) (list []menus.Screen) {
	for _, s := range several.Screens {
		from := setup.Source{Kind: setup.SourceShared, Window: s.Number}
		list = append(list, menus.Screen{From: from, Name: s.Name, Width: s.Size.X, Height: s.Size.Y})
	}
	return list
}

// errReadable: the screen can be read without asking.
var errReadable = errors.New("nothing to ask")

// sharer returns the way to what the desktop shares. It is used while others use the screen, since the
// painter may think for minutes. The error wraps errReadable where there is no such way.
func (s *screen) sharer() (sharer capture.Sharer, err error) {
	err = s.use(func(b capture.Backend) error {
		var ok bool
		if sharer, ok = b.(capture.Sharer); !ok {
			return errReadable
		}
		return nil
	})
	return sharer, err
}

// share opens what the desktop shares, or a part of it.
func (s *screen) share(ctx context.Context, number uint64, part image.Rectangle) (capture.Stream, error) {
	sharer, err := s.sharer()
	if errors.Is(err, errReadable) { // of another session, and remembered
		err = fmt.Errorf("%w: %w", capture.ErrNotShared, err)
	}
	if err != nil {
		return nil, err
	}
	return sharer.Share(ctx, number, part)
}
