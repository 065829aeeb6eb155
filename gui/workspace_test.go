package gui

import (
	"image"
	"image/color"
	"image/draw"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// inWorkspace is a canvas of half the picture's pixels, moved by some.
func inWorkspace(by image.Point) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, 400, 300))
	draw.Draw(img, img.Rect, image.NewUniform(color.NRGBA{90, 90, 90, 255}), image.Point{}, draw.Src)
	canvas := image.Rect(50, 50, 350, 250).Add(by)
	draw.Draw(img, canvas, image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.Draw(img, canvas.Inset(30), image.NewUniform(color.NRGBA{200, 120, 80, 255}), image.Point{}, draw.Src)
	return img
}

// newWorkspaceDesk watches a canvas in a workspace, as a region of the screen.
func newWorkspaceDesk(t *testing.T) *Desk {
	d := newTestDesk(t, settings.Defaults())
	d.setup.Source = setup.Source{Kind: setup.SourceRegion, Region: image.Rect(0, 0, 400, 300)}
	d.see(t, inWorkspace(image.Point{}))
	return d
}

// pressOffer presses the message's button of that name.
func pressOffer(t *testing.T, d *Desk, name string) {
	t.Helper()
	for _, o := range test.LaidOutObjects(d.parts.message) {
		if b, ok := o.(*widgets.PictureButton); ok && b.Visible() && b.Words() == name {
			test.Tap(b)
			return
		}
	}
	t.Fatalf("there is no %q", name)
}

func (d *Desk) asksOfWorkspace() bool { return d.Messages.Said[host.MessageWorkspace] != "" }

// The workspace is left out by one tap, which can be undone; it isn't asked about again, unless
// the canvas moves.
func TestWorkspaceIsLeftOutByOneTap(t *testing.T) {
	d := newWorkspaceDesk(t)
	if got := d.Messages.Said[host.MessageWorkspace]; !strings.Contains(got, "50"+wording.Nbsp+"%") {
		t.Fatalf("it says %q", got)
	}
	pressOffer(t, d, "Leave it out")
	d.see(t, inWorkspace(image.Point{}))
	if r := d.worker.Last().Reading; r.Counted != 300*200 || d.asksOfWorkspace() {
		t.Errorf("%d pixels are counted, want %d; asked again: %v", r.Counted, 300*200, d.asksOfWorkspace())
	}
	if under := d.parts.bar.Source.Tip(); !strings.Contains(under, "50"+wording.Nbsp+"% counted") {
		t.Errorf("the source bar says %q", under)
	}
	d.Undo()
	d.see(t, inWorkspace(image.Point{}))
	if r := d.worker.Last().Reading; r.Counted != 400*300 || d.asksOfWorkspace() {
		t.Errorf("after undo %d pixels are counted; asked again: %v", r.Counted, d.asksOfWorkspace())
	}
	d.Redo()
	d.see(t, inWorkspace(image.Pt(20, 10)))
	if !d.asksOfWorkspace() {
		t.Fatal("the canvas moved, and nothing is asked")
	}
	pressOffer(t, d, "Leave it out")
	d.see(t, inWorkspace(image.Pt(20, 10)))
	if r := d.worker.Last().Reading; r.Counted != 300*200 || r.Histogram[0] != 0 || len(d.setup.Workspace) != 4 {
		t.Errorf("after it moved %d pixels are counted, without %v", r.Counted, d.setup.Workspace)
	}
}

// Who wants it counted isn't asked again about this source, wherever the canvas goes; Esc says
// the same, and another source is another question.
func TestWorkspaceIsCountedOnRequest(t *testing.T) {
	for _, how := range []string{"button", "Esc"} {
		d := newWorkspaceDesk(t)
		if how == "Esc" {
			d.TypedKey(fyne.KeyEscape)
		} else {
			pressOffer(t, d, "Count it")
		}
		for _, by := range []image.Point{{}, {30, 20}} {
			d.see(t, inWorkspace(by))
			if r := d.worker.Last().Reading; r.Counted != 400*300 || d.asksOfWorkspace() {
				t.Errorf("%s, moved by %v: %d pixels are counted; asked again: %v", how, by, r.Counted, d.asksOfWorkspace())
			}
		}
		d.setup.Source.Region = image.Rect(0, 0, 400, 300).Add(image.Pt(500, 0))
		if d.see(t, inWorkspace(image.Point{})); !d.asksOfWorkspace() {
			t.Errorf("%s: another source isn't asked about", how)
		}
	}
}

// A canvas that goes away takes its question with it, and the demo painting asks nothing.
func TestWorkspaceQuestionGoes(t *testing.T) {
	d := newWorkspaceDesk(t)
	whole := inWorkspace(image.Point{})
	draw.Draw(whole, whole.Rect, image.NewUniform(color.White), image.Point{}, draw.Src)
	if d.see(t, whole); d.asksOfWorkspace() {
		t.Error("without a workspace it is still asked about")
	}
	d.setup.Source = setup.Source{Kind: setup.SourceDemo}
	if d.see(t, inWorkspace(image.Point{})); d.asksOfWorkspace() {
		t.Error("it asks about a picture that shows no program")
	}
}
