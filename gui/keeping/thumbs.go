package keeping

import (
	"image"
	"slices"

	"app.tonedesk/gui/host"
)

// mostThumbs is how many small pictures are kept in memory: some screens full.
const mostThumbs = 400

// thumbs holds small pictures of stills, and has those made that are asked for: the last
// asked for first, since that is what is in sight. Use it on the Fyne goroutine only.
type thumbs struct {
	*host.Host
	came  func(id string)
	have  map[thumbKey]*image.RGBA
	order []thumbKey // of have, the oldest first
	wait  []thumbKey // asked for, the last last
	busy  bool
}

type thumbKey struct {
	id   string
	grey bool
}

func newThumbs(h *host.Host, came func(id string)) thumbs {
	return thumbs{Host: h, came: came, have: map[thumbKey]*image.RGBA{}}
}

// get returns a small picture; nil if it has to be made first.
func (t *thumbs) get(id string, grey bool) *image.RGBA {
	key := thumbKey{id, grey}
	if img, ok := t.have[key]; ok {
		return img
	}
	t.wait = append(slices.DeleteFunc(t.wait, func(k thumbKey) bool { return k == key }), key)
	t.next()
	return nil
}

// next makes one that is waited for, if none is being made.
func (t *thumbs) next() {
	if t.busy || len(t.wait) == 0 {
		return
	}
	key := t.wait[len(t.wait)-1]
	t.wait = t.wait[:len(t.wait)-1]
	t.busy = true
	var img *image.RGBA
	t.Background(func() (err error) {
		img, err = t.Store.Thumbnail(key.id, key.grey)
		return err
	}, func(err error) {
		if err != nil {
			img = image.NewRGBA(image.Rect(0, 0, 1, 1)) // it has no picture; the list says why
		}
		t.busy = false
		t.put(key, img)
		t.came(key.id)
		t.next()
	})
}

// put keeps a small picture, and drops the oldest where there are too many.
func (t *thumbs) put(key thumbKey, img *image.RGBA) {
	t.have[key] = img
	t.order = append(t.order, key)
	if len(t.order) > mostThumbs {
		delete(t.have, t.order[0])
		t.order = t.order[1:]
	}
}
