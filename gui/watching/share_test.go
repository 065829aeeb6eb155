package watching

import (
	"context"
	"errors"
	"fmt"
	"image"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/capture"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// sharing is a session in which the desktop shares the screen.
type sharing struct {
	capture.Backend
	answer func(context.Context) error // the painter's, or the desktop's
	parts  []image.Rectangle           // that were opened
}

func (s *sharing) Ask(ctx context.Context, _ uint64) (uint64, error) {
	if err := s.answer(ctx); err != nil {
		return 0, fmt.Errorf("ask: %w", err)
	}
	return 7, nil
}

func (s *sharing) Share(_ context.Context, number uint64, part image.Rectangle) (capture.Stream, error) {
	if number != 7 {
		return nil, capture.ErrNotShared
	}
	s.parts = append(s.parts, part)
	return nil, nil
}

// Where the desktop shares the screen, choosing a region has it ask. What is shared is watched then,
// or a part of it; a no is answered in passing, and what went wrong by a sentence. Asked again it ends.
func TestShareIsAsked(t *testing.T) {
	shared := setup.Source{Kind: setup.SourceShared, Window: 7}
	for _, tt := range []struct {
		name   string
		answer func(*Ways) func(context.Context) error
		want   setup.Source
		note   string
		fails  string
	}{
		{"yes", func(*Ways) func(context.Context) error { return func(context.Context) error { return nil } }, shared, "", ""},
		{"no", func(*Ways) func(context.Context) error {
			return func(context.Context) error { return capture.ErrGivenUp }
		}, setup.Source{}, wording.SayNothingShared.String(), ""},
		{"asked again", func(w *Ways) func(context.Context) error {
			return func(ctx context.Context) error {
				w.PickRegion()
				if ctx.Err() == nil {
					return errors.New("it goes on")
				}
				return capture.ErrGivenUp
			}
		}, setup.Source{}, wording.SayNothingShared.String(), ""},
		{"no portal", func(*Ways) func(context.Context) error {
			return func(context.Context) error { return capture.ErrNoPortal }
		}, setup.Source{}, "", wording.ExplainSharing("share the screen", capture.ErrNoPortal)},
	} {
		t.Run(tt.name, func(t *testing.T) {
			w, watched := newTestWays(t)
			s := &sharing{}
			w.screen.pick = func() (capture.Backend, error) { return s, nil }
			w.Spawn = func(f func()) { f() }
			s.answer = func(ctx context.Context) error {
				if w.Messages.Said[host.MessagePointing] != wording.SayAsksWhatToShare.String() {
					t.Errorf("meanwhile it says %q", w.Messages.Said[host.MessagePointing])
				}
				return tt.answer(w)(ctx)
			}
			w.PickRegion()
			if *watched != tt.want || w.shares.end.Load() != nil {
				t.Errorf("it watches %+v, still asking: %v", *watched, w.shares.end.Load() != nil)
			}
			if said := w.Messages.Said; said[host.MessageNote] != tt.note || said[host.MessageError] != tt.fails || said[host.MessagePointing] != "" {
				t.Errorf("it says %q", said)
			}
		})
	}
}

// Where the desktop shares several screens with every program, they are listed, and the one that is tapped
// is watched.
func TestShareOfSeveralScreens(t *testing.T) {
	w, watched := newTestWays(t)
	w.App.Settings().SetTheme(widgets.NewTheme(settings.ThemeDark, 100))
	w.Below = func() fyne.Position { return fyne.Position{} }
	w.Tips = widgets.NewTips(func(time.Duration, func()) func() { return func() {} })
	w.Changed = func() {}
	s := &sharing{answer: func(context.Context) error {
		return &capture.Several{Screens: []capture.Screen{{Number: 3, Name: "DP-1", Size: image.Pt(1920, 1080)}, {Number: 4, Name: "DP-2", Size: image.Pt(800, 600)}}}
	}}
	w.screen.pick = func() (capture.Backend, error) { return s, nil }
	w.Spawn = func(f func()) { f() }
	w.Window.Resize(fyne.NewSize(380, 760))
	was := *watched
	w.PickRegion()
	if w.Menu() == nil || *watched != was || w.Messages.Said[host.MessageError] != "" {
		t.Fatalf("it watches %+v, and says %q", *watched, w.Messages.Said)
	}
	w.Menu().TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	w.Menu().TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	w.Menu().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if want := (setup.Source{Kind: setup.SourceShared, Window: 4}); *watched != want {
		t.Errorf("it watches %+v, want %+v", *watched, want)
	}
}

// A part of what is shared is opened as such; what was shared in another session is told so.
func TestShareIsOpened(t *testing.T) {
	w, _ := newTestWays(t)
	s := &sharing{}
	w.screen.pick = func() (capture.Backend, error) { return s, nil }
	part := image.Rect(10, 20, 90, 80)
	if _, err := w.way(setup.Source{Kind: setup.SourceShared, Window: 7, Region: part})(t.Context()); err != nil || len(s.parts) != 1 || s.parts[0] != part {
		t.Errorf("opened %v, %v", s.parts, err)
	}
	w.screen = screen{pick: func() (capture.Backend, error) { return plainBackend{}, nil }}
	if _, err := w.way(setup.Source{Kind: setup.SourceShared})(t.Context()); !errors.Is(err, capture.ErrNotShared) {
		t.Errorf("in another session: %v, want ErrNotShared", err)
	}
}

// plainBackend is a way to a screen that can be read without asking.
type plainBackend struct{ capture.Backend }
