package wayland

import (
	"image"
	"testing"
)

// asked counts how often a picture is asked for.
type asked int

func (a *asked) next() { *a++ }

// A compositor may say that a picture is there of which it had no memory, or that has another layout than
// was asked for: none is read then, and it is asked again.
func TestReadyWithoutPicture(t *testing.T) {
	there := layout{xrgb8888, image.Pt(8, 6), 32}
	larger := layout{xrgb8888, image.Pt(80, 60), 320}
	for _, tt := range []struct {
		name   string
		memory memory
		said   layout
	}{
		{"no memory", memory{}, there},
		{"nothing at all", memory{}, layout{}},
		{"another layout", memory{layout: there, bytes: make([]byte, there.bytes())}, larger},
	} {
		t.Run(tt.name, func(t *testing.T) {
			again := new(asked)
			r := &Stream{session: new(session), tokens: make(chan struct{}, 1), memory: tt.memory, way: again}
			r.came(turned{layout: tt.said})
			if r.full || *again != 1 {
				t.Errorf("there is a picture: %v, asked again %d times", r.full, *again)
			}
		})
	}
}
