package stills

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"errors"
	"image"
	"image/png"
	"io/fs"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/profile"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/stills/notes"
)

// noise is a small opaque picture of its own for every seed.
func noise(seed int) analysis.Pixels {
	const w, h = 120, 90
	random := rand.New(rand.NewPCG(uint64(seed), 1))
	p := analysis.Pixels{Pix: make([]byte, 4*w*h), Stride: 4 * w, Width: w, Height: h}
	for i := 0; i < len(p.Pix); i += 4 {
		binary.LittleEndian.PutUint32(p.Pix[i:], random.Uint32()|0xff000000)
	}
	return p
}

var noon = time.Date(2026, 3, 4, 12, 0, 0, 0, time.UTC)

func metaFor(seed int) Meta {
	return Meta{
		Name: strconv.Itoa(seed), Time: noon.Add(time.Duration(seed) * time.Second), Display: "sRGB",
		Source:  Source{Kind: FromScreen, Region: files.Rect{X: 10, Y: 20, Width: 120, Height: 90}},
		LeftOut: LeftOutOf(nil), Reading: FiguresOf(analysis.Read(noise(seed), analysis.Options{})),
	}
}

// storeAt returns a store in folders of the test's own.
func storeAt(t testing.TB) *Store {
	dir := t.TempDir()
	return New(Folders{Data: filepath.Join(dir, "data", "stills"), Cache: filepath.Join(dir, "cache")})
}

func keep(t testing.TB, s *Store, seed int, list ...notes.Note) string {
	t.Helper()
	id, err := s.Keep(noise(seed), metaFor(seed), list)
	if err != nil {
		t.Fatal(err)
	}
	return id
}

// ids lists the stills, which must be all right.
func ids(t testing.TB, s *Store) []string {
	t.Helper()
	list, problems, err := s.List()
	if err != nil || len(problems) != 0 {
		t.Fatalf("%v, %v", problems, err)
	}
	all := []string{}
	for _, e := range list {
		all = append(all, e.ID)
	}
	return all
}

func equal(a, b []string) bool { return strings.Join(a, " ") == strings.Join(b, " ") }

func TestKeepAndOpen(t *testing.T) {
	s := storeAt(t)
	if got := ids(t, s); len(got) != 0 {
		t.Fatalf("a folder that isn't there has %v", got)
	}
	id := keep(t, s, 7, notesFor(2)...)
	checkStill(t, New(s.folders), id, 7, 2)
	still, err := s.Open(id)
	if err != nil {
		t.Fatal(err)
	}
	want := metaFor(7)
	got := still.Meta
	if got.Name != "7" || !got.Time.Equal(want.Time) || got.Source != want.Source || got.Display != "sRGB" ||
		got.Width != 120 || got.Height != 90 || got.Notes.Count != 2 || *got.Reading.Lightness.Mean != *want.Reading.Lightness.Mean {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// Pictures of both layouts and with transparent pixels come back byte for byte; the byte
// without meaning becomes opaque.
func TestPicturesComeBack(t *testing.T) {
	s := storeAt(t)
	clear := noise(1)
	for i := 3; i < len(clear.Pix); i += 4 {
		clear.Pix[i] = byte(i)
	}
	bgrx := noise(2)
	bgrx.Layout = analysis.BGRX
	for i := 3; i < len(bgrx.Pix); i += 4 {
		bgrx.Pix[i] = byte(i)
	}
	part := noise(3).Crop(image.Rect(10, 10, 50, 41))
	for name, p := range map[string]analysis.Pixels{"clear": clear, "bgrx": bgrx, "part": part} {
		id, err := s.Keep(p, metaFor(1), nil)
		if err != nil {
			t.Fatal(err)
		}
		still, err := s.Open(id)
		if err != nil {
			t.Fatal(err)
		}
		if still.Picture.Width != p.Width || still.Picture.Height != p.Height {
			t.Fatalf("%s has %d x %d pixels", name, still.Picture.Width, still.Picture.Height)
		}
		for y := range p.Height {
			for x := range p.Width {
				r, g, b, c := p.At(x, y)
				r2, g2, b2, c2 := still.Picture.At(x, y)
				if c != c2 || c && (r != r2 || g != g2 || b != b2) {
					t.Fatalf("%s: pixel %d,%d is %d,%d,%d, want %d,%d,%d", name, x, y, r2, g2, b2, r, g, b)
				}
				if p.Layout == analysis.RGBA && p.Pix[y*p.Stride+4*x+3] != still.Picture.Pix[y*still.Picture.Stride+4*x+3] {
					t.Fatalf("%s: the alpha of pixel %d,%d is lost", name, x, y)
				}
			}
		}
	}
	for _, p := range []analysis.Pixels{{}, {Width: 3, Height: 3, Stride: 12}, {Width: 0, Height: 5}} {
		if _, err := s.Keep(p, metaFor(1), nil); !errors.Is(err, ErrPicture) {
			t.Errorf("%+v gives %v", p, err)
		}
	}
}

// The picture file says sRGB, right behind its header (W3C PNG Specification, Third Edition,
// 5.6 and 11.3.2.5): length 1, "sRGB", intent 0 (perceptual), and the check sum that such a
// chunk has in every file (from memory).
func TestPictureSaysSRGB(t *testing.T) {
	s := storeAt(t)
	data := fileText(t, filepath.Join(s.Folder(keep(t, s, 1)), pictureFile))
	if got, want := data[33:46], "\x00\x00\x00\x01sRGB\x00\xae\xce\x1c\xe9"; got != want {
		t.Errorf("behind the header: % x, want % x", got, want)
	}
}

// Everything is the owner's alone.
func TestModes(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("modes are a matter of Unix")
	}
	s := storeAt(t)
	id := keep(t, s, 1, notesFor(1)...)
	if err := s.Rename(id, "other"); err != nil {
		t.Fatal(err)
	}
	if err := s.Delete(keep(t, s, 2)); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Thumbnail(id, false); err != nil {
		t.Fatal(err)
	}
	files := 0
	for _, root := range []string{filepath.Dir(s.folders.Data), s.folders.Cache} {
		err := filepath.WalkDir(root, func(path string, e fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			info, err := e.Info()
			want := fs.FileMode(0o600)
			if e.IsDir() {
				want = 0o700
			} else {
				files++
			}
			if err == nil && info.Mode().Perm() != want {
				t.Errorf("%s has mode %v", path, info.Mode())
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if files < 6 {
		t.Errorf("only %d files", files)
	}
}

func TestListOrderSearchRename(t *testing.T) {
	s := storeAt(t)
	old, young := keep(t, s, 10), keep(t, s, 20, notes.New(notes.Label{Size: 12}, "Softer Edge"))
	if got := ids(t, s); !equal(got, []string{young, old}) {
		t.Fatalf("%v, want the newest first", got)
	}
	if err := s.Rename(old, "Harbour at dusk"); err != nil {
		t.Fatal(err)
	}
	for words, want := range map[string][]string{
		"": {young, old}, "HARBOUR": {old}, "dusk har": {old}, "soft edge": {young}, "dusk edge": {},
		"screen": {young, old},
	} {
		list, _, err := s.List()
		if err != nil {
			t.Fatal(err)
		}
		got := []string{}
		for _, e := range list {
			if e.Matches(words) {
				got = append(got, e.ID)
			}
		}
		if !equal(got, want) {
			t.Errorf("%q finds %v, want %v", words, got, want)
		}
	}
	if err := s.Rename("20260101-000000-aaaaaaaaaa", "x"); !errors.Is(err, ErrGone) {
		t.Errorf("renaming nothing gives %v", err)
	}
	for _, bad := range []string{"", "..", "../x", "trash", "20260101-000000-aaaaaaaaaa/../.."} {
		if err := s.Delete(bad); !errors.Is(err, ErrGone) {
			t.Errorf("deleting %q gives %v", bad, err)
		}
		if _, err := s.Open(bad); !errors.Is(err, ErrGone) {
			t.Errorf("opening %q gives %v", bad, err)
		}
		if err := s.Restore(bad); !errors.Is(err, ErrGone) {
			t.Errorf("restoring %q gives %v", bad, err)
		}
	}
}

func TestTrash(t *testing.T) {
	s := storeAt(t)
	a, b := keep(t, s, 1, notesFor(3)...), keep(t, s, 2)
	for range 2 { // deleted, restored, and deleted again
		for _, id := range []string{a, b} {
			if err := s.Delete(id); err != nil {
				t.Fatal(err)
			}
		}
		if got := ids(t, s); len(got) != 0 {
			t.Fatalf("deleted, and there: %v", got)
		}
		trash, err := s.Trash()
		if err != nil || len(trash) != 2 || trash[0].ID != b || trash[1].Notes.Count != 3 {
			t.Fatalf("trash %v, %v", trash, err)
		}
		if err := s.Restore(a); err != nil {
			t.Fatal(err)
		}
		checkStill(t, s, a, 1, 3)
		if err := s.Restore(a); !errors.Is(err, fs.ErrExist) {
			t.Errorf("restoring twice gives %v", err)
		}
		if err := s.Restore(b); err != nil {
			t.Fatal(err)
		}
		if err := s.Restore(b); !errors.Is(err, fs.ErrExist) {
			t.Errorf("restoring twice gives %v", err)
		}
	}
}

// What is damaged is named and set aside as it was, what is newer is named and left alone,
// and the rest opens.
func TestDamagedAndNewer(t *testing.T) {
	s := storeAt(t)
	good := keep(t, s, 1, notesFor(1)...)
	damage := map[string]func(folder string) error{
		"no JSON":     func(f string) error { return os.WriteFile(filepath.Join(f, metaName), []byte("{"), 0o600) },
		"no version":  func(f string) error { return os.WriteFile(filepath.Join(f, metaName), []byte("{}"), 0o600) },
		"no meta":     func(f string) error { return os.Remove(filepath.Join(f, metaName)) },
		"no picture":  func(f string) error { return os.Remove(filepath.Join(f, pictureFile)) },
		"empty":       func(f string) error { return os.Truncate(filepath.Join(f, pictureFile), 0) },
		"absurd size": func(f string) error { return edit(f, "\n  \"width\": 120", "\n  \"width\": 2000000000") },
	}
	for name, do := range damage {
		id := keep(t, s, 2)
		if err := do(s.Folder(id)); err != nil {
			t.Fatal(err)
		}
		list, problems, err := s.List()
		if err != nil || len(list) != 1 || list[0].ID != good || len(problems) != 1 {
			t.Fatalf("%s: %v, %v, %v", name, list, problems, err)
		}
		p := problems[0]
		if p.ID != id || !errors.Is(p, ErrDamaged) || p.Aside != filepath.Join(s.folders.Data, damagedDir, id) {
			t.Errorf("%s: %+v", name, p)
		}
		if _, err := os.Stat(p.Aside); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if got := ids(t, s); !equal(got, []string{good}) {
			t.Errorf("%s: afterwards %v", name, got)
		}
	}
	newer := keep(t, s, 3)
	if err := edit(s.Folder(newer), `"version": 1`, `"version": 2`); err != nil {
		t.Fatal(err)
	}
	before := contents(t, s.Folder(newer))
	for range 2 {
		list, problems, err := s.List()
		if err != nil || len(list) != 1 || len(problems) != 1 || !errors.Is(problems[0], ErrNewer) || problems[0].Aside != "" {
			t.Fatalf("newer: %v, %v, %v", list, problems, err)
		}
	}
	if _, err := s.Open(newer); !errors.Is(err, ErrNewer) {
		t.Errorf("opening a newer one gives %v", err)
	}
	if err := s.Rename(newer, "x"); !errors.Is(err, ErrNewer) {
		t.Errorf("renaming a newer one gives %v", err)
	}
	if contents(t, s.Folder(newer)) != before {
		t.Error("a newer still was changed")
	}
	checkStill(t, s, good, 1, 1)
}

// A picture cut short is found when it is opened, and set aside then.
func TestDamagedPicture(t *testing.T) {
	s := storeAt(t)
	id := keep(t, s, 1)
	if err := os.Truncate(filepath.Join(s.Folder(id), pictureFile), 2000); err != nil {
		t.Fatal(err)
	}
	var p Problem
	if _, err := s.Open(id); !errors.Is(err, ErrDamaged) || !errors.As(err, &p) || p.Aside == "" {
		t.Fatalf("%v", err)
	}
	if got := ids(t, s); len(got) != 0 {
		t.Errorf("still there: %v", got)
	}
}

// Damaged notes are set aside, newer ones are left alone; the picture opens all the same.
func TestDamagedNotes(t *testing.T) {
	s := storeAt(t)
	id := keep(t, s, 1, notesFor(1)...)
	path := filepath.Join(s.Folder(id), notesFile)
	if err := os.WriteFile(path, []byte("scribble"), 0o600); err != nil {
		t.Fatal(err)
	}
	still, err := s.Mark(id)
	if err != nil || !errors.Is(still.Trouble, notes.ErrDamaged) || len(still.Notes.Notes) != 0 {
		t.Fatalf("%v, %+v", err, still)
	}
	aside, err := filepath.Glob(path + ".damaged-*")
	if err != nil || len(aside) != 1 || fileText(t, aside[0]) != "scribble" {
		t.Fatalf("aside: %v, %v", aside, err)
	}
	if err := s.SaveNotes(still, notesFor(2)); err != nil {
		t.Fatal(err)
	}
	checkStill(t, s, id, 1, 2)
	still.Close()
	const newer = `{"version": 99, "notes": "in spirals"}`
	if err := os.WriteFile(path, []byte(newer), 0o600); err != nil {
		t.Fatal(err)
	}
	if still, err = s.Mark(id); err != nil || !errors.Is(still.Trouble, notes.ErrNewer) {
		t.Fatalf("%v, %+v", err, still)
	}
	defer still.Close() // Windows deletes no file that is open
	if err := s.SaveNotes(still, notesFor(1)); !errors.Is(err, notes.ErrNewer) {
		t.Errorf("saving over newer notes gives %v", err)
	}
	if err := s.Rename(id, "renamed"); err != nil {
		t.Error(err)
	}
	if fileText(t, path) != newer {
		t.Error("newer notes were changed")
	}
}

// Fields that a newer program of the same version added are still there after our changes.
func TestForeignMetaSurvives(t *testing.T) {
	s := storeAt(t)
	id := keep(t, s, 1)
	if err := edit(s.Folder(id), `"name": "1"`, `"paper": {"grain": 3}, "name": "1"`); err != nil {
		t.Fatal(err)
	}
	if err := s.Rename(id, "2"); err != nil {
		t.Fatal(err)
	}
	text := fileText(t, filepath.Join(s.Folder(id), metaName))
	if !strings.Contains(text, `"grain": 3`) || !strings.Contains(text, `"name": "2"`) {
		t.Errorf("%s", text)
	}
}

func TestLimit(t *testing.T) {
	s := storeAt(t)
	var all []string
	for seed := range 5 {
		all = append(all, keep(t, s, seed))
	}
	if err := s.Delete(all[2]); err != nil {
		t.Fatal(err)
	}
	c, err := s.Over(1 << 40)
	if err != nil || len(c.Removals) != 0 || c.Used != c.After || c.Used < 5*3*120*90 {
		t.Fatalf("%+v, %v", c, err)
	}
	one := c.Used / 5
	if c, err = s.Over(c.Used - one - one/2); err != nil || len(c.Removals) != 2 || !c.Removals[0].InTrash || c.Removals[0].ID != all[2] || c.Removals[1].ID != all[0] {
		t.Fatalf("%+v, %v", c, err)
	}
	if got := ids(t, s); len(got) != 4 {
		t.Fatal("asking removed something")
	}
	if err := s.Rename(all[0], "wanted after all"); err != nil {
		t.Fatal(err)
	}
	if n, err := s.Clear(c); n != 1 || !errors.Is(err, ErrChanged) {
		t.Errorf("removed %d, %v; want the trash only, and a word on what was changed", n, err)
	}
	if got := ids(t, s); !equal(got, []string{all[4], all[3], all[1], all[0]}) {
		t.Errorf("left: %v", got)
	}
	if c, err = s.Over(0); err != nil || len(c.Removals) != 3 {
		t.Fatalf("%+v, %v", c, err)
	}
	if n, err := s.Clear(c); n != 3 || err != nil {
		t.Errorf("removed %d, %v", n, err)
	}
	if got := ids(t, s); !equal(got, all[4:]) {
		t.Errorf("left: %v, want the newest", got)
	}
	if now, err := s.Over(0); err != nil || now.Used != c.After {
		t.Errorf("%d bytes are used, %d were foretold, %v", now.Used, c.After, err)
	}
}

// The folders follow the XDG Base Directory Specification 0.8: an absolute $XDG_DATA_HOME, else
// ~/.local/share.
func TestUserFolders(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("the convention of Linux")
	}
	t.Setenv("HOME", "/home/painter")
	for set, want := range map[string]string{
		"/data": "/data/tonedesk/stills", "": "/home/painter/.local/share/tonedesk/stills",
		"relative": "/home/painter/.local/share/tonedesk/stills",
	} {
		t.Setenv("XDG_DATA_HOME", set)
		t.Setenv("XDG_CACHE_HOME", "/cache")
		if f, err := UserFolders(); err != nil || f.Data != want || f.Cache != "/cache/tonedesk/stills" {
			t.Errorf("%q gives %+v, %v", set, f, err)
		}
	}
}

func TestThumbnail(t *testing.T) {
	s := storeAt(t)
	wide := analysis.Pixels{Pix: bytes.Repeat([]byte{200, 100, 50, 255}, 600*300), Stride: 2400, Width: 600, Height: 300}
	id, err := s.Keep(wide, metaFor(1), nil)
	if err != nil {
		t.Fatal(err)
	}
	img, err := s.Thumbnail(id, false)
	if err != nil || img.Rect.Size() != image.Pt(192, 96) {
		t.Fatalf("%v, %v", img, err)
	}
	if c := img.RGBAAt(100, 50); c.R != 200 || c.G != 100 || c.B != 50 || c.A != 255 {
		t.Errorf("colour %v", c)
	}
	if err := os.RemoveAll(s.Folder(id)); err != nil {
		t.Fatal(err)
	}
	grey, err := s.Thumbnail(id, true) // the still is gone: from the cache
	want := colour.GreyOf(analysis.SpotOf(colour.RGB{R: 200, G: 100, B: 50}).Lightness)
	if err != nil || grey.RGBAAt(100, 50).R != want || grey.RGBAAt(100, 50).G != want {
		t.Errorf("grey %v, %v, want %d", grey, err, want)
	}
	if err := os.WriteFile(s.cachePath(id), []byte("junk"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Thumbnail(id, true); !errors.Is(err, ErrGone) {
		t.Errorf("junk in the cache gives %v, want to look for the still", err)
	}
}

// edit replaces text in a folder's still.json.
func edit(folder, old, new string) error {
	path := filepath.Join(folder, metaName)
	text, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	if !strings.Contains(string(text), old) {
		return errors.New(old + " is not in " + string(text))
	}
	return os.WriteFile(path, []byte(strings.Replace(string(text), old, new, 1)), 0o600)
}

func fileText(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// contents returns all that is in a folder.
func contents(t *testing.T, folder string) string {
	t.Helper()
	var b strings.Builder
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		b.WriteString(e.Name() + fileText(t, filepath.Join(folder, e.Name())))
	}
	return b.String()
}

// age makes a file older.
func age(path string, by time.Duration) error {
	at := time.Now().Add(-by)
	return os.Chtimes(path, at, at)
}

// Five thousand stills: the first list after a start, then one with nothing new. Budget:
// 500 ms and 100 ms.
func BenchmarkList5000(b *testing.B) {
	s := storeAt(b)
	picture := noise(1).Crop(image.Rect(0, 0, 8, 8))
	for i := range 5000 {
		if err := s.keep(newID(noon), picture, metaFile{Meta: smallMeta(i)}, notes.Document{Notes: notesFor(3)}); err != nil {
			b.Fatal(err)
		}
	}
	b.Run("first", func(b *testing.B) {
		for b.Loop() {
			if list, _, err := New(s.folders).List(); err != nil || len(list) != 5000 {
				b.Fatal(len(list), err)
			}
		}
	})
	b.Run("again", func(b *testing.B) {
		for b.Loop() {
			if list, _, err := s.List(); err != nil || len(list) != 5000 {
				b.Fatal(len(list), err)
			}
		}
	})
}

func smallMeta(i int) Meta {
	m := metaFor(1)
	m.Time, m.Width, m.Height, m.Notes = noon.Add(time.Duration(i)*time.Minute), 8, 8, summaryOf(notesFor(3))
	return m
}

// A frame of 1920 x 1080 of a painting's kind: soft ramps with some grain. It is kept beside
// the window, which goes on; budget: half a second.
func BenchmarkKeep(b *testing.B) {
	const w, h = 1920, 1080
	random := rand.New(rand.NewPCG(1, 1))
	p := analysis.Pixels{Pix: make([]byte, 4*w*h), Stride: 4 * w, Width: w, Height: h}
	for i := range w * h {
		grey := uint8(i%w*200/w) + uint8(random.Uint32()%4)
		copy(p.Pix[4*i:], []byte{grey, grey / 2, uint8(i / w * 255 / h), 255})
	}
	s := storeAt(b)
	for b.Loop() {
		if _, err := s.Keep(p, metaFor(1), nil); err != nil {
			b.Fatal(err)
		}
	}
}

// Whatever lies in still.json: it is read or refused in words, and what is read is written
// and read again to the same.
func FuzzMeta(f *testing.F) {
	text, err := metaFile{Meta: metaFor(3)}.encode()
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text)
	f.Add([]byte(`{"version": 1, "width": 3, "height": 2, "Width": 4, "time": "2026-01-01T00:00:00Z", "left_out": {"lightness": [[-5, 900], [-9000000000000000, 9000000000000000]]}, "more": [1]}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		m, err := decodeMeta(text)
		if err != nil {
			if !errors.Is(err, ErrDamaged) && !errors.Is(err, ErrNewer) {
				t.Fatalf("%v is no word for %q", err, text)
			}
			return
		}
		m.LeftOut.Mask(noise(1))
		if out := m.LeftOut.Parts(); len(out.Tones) > 256 || len(out.Seeds) > analysis.MostSeeds {
			t.Fatalf("%d tones and %d colours are left out in %q", len(out.Tones), len(out.Seeds), text)
		}
		if e := (Entry{Meta: m.Meta}); !e.Matches("") || !e.Matches(m.Name) || !e.Matches(m.Source.Path) {
			t.Fatalf("it is not found by its own name in %q", text)
		}
		out, err := m.encode()
		if err != nil {
			t.Fatalf("%q can be read, not written: %v", text, err)
		}
		again, err := decodeMeta(out)
		if err != nil {
			t.Fatalf("%q becomes %q: %v", text, out, err)
		}
		if twice, err := again.encode(); err != nil || !bytes.Equal(out, twice) {
			t.Fatalf("%q becomes %q: %v", out, twice, err)
		}
	})
}

// A name that somebody else wrote and that is too long opens, is shown cut, and stays as it is
// on the disk until the still is called otherwise.
func TestLongName(t *testing.T) {
	s := storeAt(t)
	id := keep(t, s, 1)
	path := filepath.Join(s.Folder(id), metaName)
	long := strings.Repeat("ö", 10_000)
	m, err := metaIn(s.Folder(id))
	if err != nil {
		t.Fatal(err)
	}
	m.Name, m.name = long, long
	if err := s.writeMeta(id, m); err != nil {
		t.Fatal(err)
	}
	shown := strings.Repeat("ö", MostName) + "…"
	still, err := s.Mark(id)
	if err != nil || still.Meta.Name != shown {
		t.Fatalf("it is shown as %.50q, %v", still.Meta.Name, err)
	}
	written := func() string {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		var f struct{ Name string }
		if err := json.Unmarshal(text, &f); err != nil {
			t.Fatal(err)
		}
		return f.Name
	}
	if err := s.SaveNotes(still, notesFor(1)); err != nil || written() != long {
		t.Errorf("marked, the name has %d letters, %v", len([]rune(written())), err)
	}
	for name, want := range map[string]string{shown: long, " short\t": "short", "another " + long: "another " + long[:2*(MostName-8)] + "…"} {
		if err := s.Rename(id, name); err != nil || written() != want {
			t.Errorf("called %.20q it has the name %.20q, %v", name, written(), err)
		}
		if err := s.writeMeta(id, m); err != nil {
			t.Fatal(err)
		}
	}
}

// A still remembers its colours' space, and what is exported of it is sRGB,
// of the same lightness but for the rounding of its codes.
func TestStillsRememberTheirSpace(t *testing.T) {
	s := storeAt(t)
	other, err := profile.Read(profile.Write(colour.Gamma22))
	if err != nil {
		t.Fatal(err)
	}
	other.Name = "Left of the easel"
	for _, space := range []*colour.Space{nil, colour.DisplayP3, colour.AdobeRGB, other} {
		p := noise(5)
		p.Space = space
		id, err := s.Keep(p, metaFor(1), nil)
		if err != nil {
			t.Fatal(err)
		}
		still, err := s.Open(id)
		if err != nil {
			t.Fatal(err)
		}
		if got := still.Picture.Space; got != space.Known() {
			t.Errorf("kept in %s, it comes back in %s", space.Title(), got.Title())
		}
		p.Space = space.Known()
		if got, want := analysis.Read(still.Picture, analysis.Options{}).Histogram, analysis.Read(p, analysis.Options{}).Histogram; got != want {
			t.Errorf("%s: it reads otherwise", space.Title())
		}
		var file bytes.Buffer
		if err := WritePNG(&file, Annotated(p, nil)); err != nil {
			t.Fatal(err)
		}
		out, err := png.Decode(&file)
		if err != nil {
			t.Fatal(err)
		}
		r, g, b, _ := out.At(3, 4).RGBA()
		made := colour.RGB{R: uint8(r >> 8), G: uint8(g >> 8), B: uint8(b >> 8)}
		if own := p.Pixel(3, 4); math.Abs(space.LabOfCode(own).L-colour.SRGB.LabOfCode(made).L) > 0.6 { // a code of 8 bits
			t.Errorf("%v of %s is handed on as %v", own, space.Title(), made)
		}
	}
}
