package series_test

import (
	"errors"
	"image"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/growth"
	_ "app.tonedesk/analysis/lawtest"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/series"
)

var evening = time.Date(2026, 3, 1, 20, 0, 0, 0, time.UTC)

// halves is a picture of two greys.
func halves(left, right uint8) analysis.Pixels {
	const w, h = 40, 20
	p := analysis.Pixels{Pix: make([]byte, 4*w*h), Stride: 4 * w, Width: w, Height: h}
	for i := range w * h {
		v := right
		if i%w < w/2 {
			v = left
		}
		copy(p.Pix[4*i:], []byte{v, v, v, 255})
	}
	return p
}

func from(path string, at image.Rectangle) stills.Source {
	return stills.Source{Kind: stills.FromPicture, Path: path, Region: files.RectOf(at)}
}

// keep keeps pictures of a source, a minute apart, and returns their entries, oldest first.
func keep(t *testing.T, source stills.Source, pictures ...analysis.Pixels) (*stills.Store, []stills.Entry) {
	t.Helper()
	store := stills.New(stills.Folders{Data: filepath.Join(t.TempDir(), "stills")})
	for i, p := range pictures {
		if _, err := store.Keep(p, stills.Meta{Time: evening.Add(time.Duration(i) * time.Minute), Source: source}, nil); err != nil {
			t.Fatal(err)
		}
	}
	list, _, err := store.List()
	if err != nil {
		t.Fatal(err)
	}
	return store, series.Of(list, source)
}

var asked = series.Asked{Rules: families.DefaultRules()}

// Stills of one source belong together, oldest first, and none of another.
func TestOf(t *testing.T) {
	here, whole := image.Rect(0, 0, 40, 20), from("a.png", image.Rect(0, 0, 40, 20))
	list := []stills.Entry{
		{ID: "3", Meta: stills.Meta{Time: evening.Add(2 * time.Hour), Source: whole}},
		{ID: "other", Meta: stills.Meta{Time: evening, Source: from("b.png", here)}},
		{ID: "2", Meta: stills.Meta{Time: evening.Add(time.Hour), Source: from("a.png", image.Rect(10, 10, 90, 90))}},
		{ID: "away", Meta: stills.Meta{Time: evening, Source: from("a.png", image.Rect(50, 50, 90, 90))}},
		{ID: "1", Meta: stills.Meta{Time: evening, Source: whole}},
	}
	var got []string
	for _, e := range series.Of(list, whole) {
		got = append(got, e.ID)
	}
	if !slices.Equal(got, []string{"1", "2", "3"}) {
		t.Errorf("%q", got)
	}
}

// What is thinned keeps its ends, its order and the one that is meant, and is as long as it may be.
func TestThin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := make([]int, rapid.IntRange(0, 60).Draw(t, "count"))
		for i := range list {
			list[i] = i
		}
		most, keep := rapid.IntRange(3, 20).Draw(t, "most"), rapid.IntRange(0, 59).Draw(t, "keep")
		thin := series.Thin(list, most, keep)
		if len(thin) != min(len(list), most) || !slices.IsSorted(thin) || len(slices.Compact(slices.Clone(thin))) != len(thin) {
			t.Fatalf("%v", thin)
		}
		if n := len(list); n > 0 && (thin[0] != 0 || thin[len(thin)-1] != n-1 || keep < n && !slices.Contains(thin, keep)) {
			t.Fatalf("%v of %d with %d", thin, n, keep)
		}
	})
}

// A series is what its stills are; one that is damaged is told of and left out, and what was read is
// not read again as long as it stays the same.
func TestReader(t *testing.T) {
	store, list := keep(t, from("a.png", image.Rect(0, 0, 40, 20)), halves(40, 200), halves(60, 200), halves(90, 200))
	r := &series.Reader{Store: store}
	_, moments, err := r.Read(list, asked, nil, nil)
	if err != nil || len(moments) != 3 {
		t.Fatalf("%d moments: %v", len(moments), err)
	}
	for i, p := range []analysis.Pixels{halves(40, 200), halves(60, 200), halves(90, 200)} {
		want := growth.Measure{Rules: families.DefaultRules()}.Of(p, time.Time{})
		if math.Abs(moments[i].Value-want.Value) > 1e-9 || !moments[i].At.Equal(evening.Add(time.Duration(i)*time.Minute)) {
			t.Errorf("moment %d is %v at %v, want %v", i, moments[i].Value, moments[i].At, want.Value)
		}
	}
	picture := store.Files(list[1].ID)[0]
	if err := os.WriteFile(picture, []byte("no picture"), 0o600); err != nil {
		t.Fatal(err)
	}
	if of, _, err := r.Read(list, asked, nil, nil); err != nil || len(of) != 3 {
		t.Errorf("read again: %d, %v", len(of), err)
	}
	var failed []string
	other := asked
	other.NoGround = true // so that all is read anew
	of, _, err := r.Read(list, other, nil, func(e stills.Entry, err error) {
		if errors.Is(err, stills.ErrDamaged) {
			failed = append(failed, e.ID)
		}
	})
	if err != nil || len(of) != 2 || !slices.Equal(failed, []string{list[1].ID}) {
		t.Errorf("read %d, failed %v: %v", len(of), failed, err)
	}
	if of, _, err := r.Read(list, asked, nil, nil); err == nil || len(of) != 1 {
		t.Errorf("without anybody to tell: read %d, %v", len(of), err)
	}
	if of, _, _ := r.Read(list, asked, func(done int) bool { return done < 1 }, nil); len(of) != 1 {
		t.Errorf("read %d after it was given up", len(of))
	}
}
