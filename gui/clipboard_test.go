package gui

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"slices"
	"testing"

	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/settings"
)

func TestCopyImage(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	var copied []byte
	d.clipboard.Put = func(png []byte) error { copied = png; return nil }
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	img.SetNRGBA(7, 9, color.NRGBA{1, 2, 3, 4})
	d.clipboard.CopyImage(img)
	got, err := png.Decode(bytes.NewReader(copied))
	if err != nil {
		t.Fatal(err)
	}
	same, ok := got.(*image.NRGBA)
	if !ok || same.Rect != img.Rect || !bytes.Equal(same.Pix, img.Pix) {
		t.Errorf("another picture was copied: %T, %v", got, got.Bounds())
	}
	if got := d.Messages.Said[host.MessageNote]; got != "Copied the picture" {
		t.Errorf("said %q", got)
	}
}

func TestCopyImageFails(t *testing.T) {
	for _, tt := range []struct {
		err  error
		want string
	}{
		{native.ErrOtherDisplay, "Can't copy the picture: another display than this window's is watched; save it as a file instead."},
		{native.ErrUnsupported, "Can't copy the picture: there is no way to do it on this system; save it as a file instead."},
		{native.ErrClipboardBusy, "Can't copy the picture: another program has the clipboard; try again in a moment."},
	} {
		d := newTestDesk(t, settings.Defaults())
		d.clipboard.Put = func([]byte) error { return fmt.Errorf("copy a picture: %w", tt.err) }
		d.clipboard.CopyImage(guitest.Halves(guitest.Light, guitest.Shadow))
		if got := d.Messages.Said[host.MessageError]; got != tt.want {
			t.Errorf("said %q, want %q", got, tt.want)
		}
	}
	d := newTestDesk(t, settings.Defaults())
	d.clipboard.Put = func([]byte) error { t.Error("what is no picture was copied"); return nil }
	d.clipboard.CopyImage(image.NewNRGBA(image.Rectangle{}))
	if got := d.Messages.Said[host.MessageError]; len(got) < 10 || got[:10] != "Can't copy" {
		t.Errorf("without pixels: said %q", got)
	}
}

// The picture that was asked for last is on the clipboard, though another was ready later.
func TestCopyImageLastWins(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	var jobs []func()
	d.Spawn = func(f func()) { jobs = append(jobs, f) }
	var sizes []image.Point
	d.clipboard.Put = func(file []byte) error {
		c, err := png.DecodeConfig(bytes.NewReader(file))
		sizes = append(sizes, image.Pt(c.Width, c.Height))
		return err
	}
	d.clipboard.CopyImage(image.NewNRGBA(image.Rect(0, 0, 5, 5)))
	d.clipboard.CopyImage(image.NewNRGBA(image.Rect(0, 0, 3, 3)))
	slices.Reverse(jobs)
	for _, f := range jobs {
		f()
	}
	if len(sizes) != 1 || sizes[0] != image.Pt(3, 3) {
		t.Errorf("copied %v, want the second alone", sizes)
	}
}
