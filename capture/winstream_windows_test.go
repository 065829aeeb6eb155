package capture

import (
	"errors"
	"image"
	"os/exec"
	"testing"
	"time"
)

// A window of another program is listed, read as large as its inside is, and told as closed. Needs a
// desktop with Notepad, which Wine has too.
func TestWindowsFollow(t *testing.T) {
	program := exec.Command("notepad.exe")
	if err := program.Start(); err != nil {
		t.Skip("no program to follow:", err)
	}
	defer program.Process.Kill()
	b := windowsBackend{}
	var w Window
	for end := time.Now().Add(30 * time.Second); w.ID == 0; time.Sleep(50 * time.Millisecond) {
		list, err := b.Windows(t.Context())
		if err != nil || time.Now().After(end) {
			t.Fatalf("listed: %+v, %v", list, err)
		}
		for _, one := range list {
			if one.Class == "notepad" && !one.Rect.Empty() { // it is being opened until then
				w = one
			}
		}
	}
	at, found, err := b.WindowAt(t.Context(), w.Rect.Min.Add(image.Pt(20, 20)))
	if err != nil || !found || at.ID != w.ID {
		t.Errorf("at its inside: %+v, %v, %v", at, found, err)
	}
	s, err := b.Follow(t.Context(), Window{Title: w.Title, Class: w.Class}, image.Rectangle{})
	if err != nil {
		t.Fatal(err)
	}
	var f Frame
	changed, err := s.Grab(t.Context(), &f)
	if err != nil || !changed || f.Size != w.Rect.Size() || f.Layout != BGRX || s.Window().ID != w.ID {
		list, late := b.Windows(t.Context())
		t.Fatalf("read: %v, %v, %v of %+v; it was %+v; listed now: %+v, %v", changed, err, f.Size, s.Window(), w, list, late)
	}
	t.Logf("%+v, middle %v", w, f.Pix[f.Stride*(f.Size.Y/2)+4*(f.Size.X/2):][:4])
	begun := time.Now()
	for range 20 {
		if _, err := s.Grab(t.Context(), &f); err != nil {
			t.Fatal(err)
		}
	}
	t.Logf("%v a read of %v", time.Since(begun)/20, f.Size)
	if err := program.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	_ = program.Wait()
	for end := time.Now().Add(30 * time.Second); !errors.Is(err, ErrNoWindow); time.Sleep(50 * time.Millisecond) {
		if _, err = s.Grab(t.Context(), &f); time.Now().After(end) {
			t.Fatalf("closed: %v", err)
		}
	}
}
