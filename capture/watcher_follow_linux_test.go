package capture

import (
	"context"
	"errors"
	"image"
	"testing"
	"time"

	"app.tonedesk/capture/xvfbtest"
)

// A watcher says how a followed window does, and goes on by itself.
func TestWatcherFollowsAWindow(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 800, Height: 600, WindowManager: true})
	painter, b := server.Painter(), openTest(t, server)
	id, window := openLeaf(t, server, painter, b)
	pictures, states := make(chan [3]byte, 1000), make(chan Status, 1000)
	w := NewWatcher(Watch{
		Open: func(ctx context.Context) (Stream, error) {
			return b.(Follower).Follow(ctx, window, image.Rectangle{})
		},
		Frame:     func(f *Frame, _ bool) { pictures <- at(*f, 10, 10) },
		Status:    func(s Status) { states <- s },
		PerSecond: MaxRate,
	})
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- w.Run(ctx) }()
	defer func() { cancel(); <-ended }()
	picture := func(want [3]byte) { wait(t, pictures, func(c [3]byte) bool { return c == want }) }
	state := func(want State, why error) {
		wait(t, states, func(s Status) bool { return s.State == want && errors.Is(s.Err, why) })
	}
	picture(ground)
	painter.Paint(id, image.Rect(0, 0, 200, 150), 0xff0000)
	picture(red)
	painter.Iconify(id)
	state(Minimised, ErrMinimised)
	painter.Show(id)
	state(Live, nil)
	painter.Destroy(id)
	state(Gone, ErrNoWindow)
	again := leaf
	again.Pixel = 0x00ff00
	painter.Open(again)
	picture([3]byte{0, 255, 0})
	state(Live, nil)
	state(Unchanged, nil)
	server.Stop()
	state(NotAnswering, ErrNotAnswering)
	server.Continue()
	state(Unchanged, nil)
}

// wait takes values until one is wanted.
func wait[T any](t *testing.T, from <-chan T, wanted func(T) bool) {
	t.Helper()
	late := time.After(20 * time.Second)
	for {
		select {
		case v := <-from:
			if wanted(v) {
				return
			}
		case <-late:
			t.Fatal("waited in vain")
		}
	}
}
