package gui

import (
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/pictures"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// openStructure shows the structure page.
func openStructure(t *testing.T, d *Desk) *structurePage {
	t.Helper()
	d.openPage(pageIndex(settings.PageStructure))
	p, ok := d.page().(*structurePage)
	if !ok {
		t.Fatal("the structure page is not open")
	}
	return p
}

// searchNow searches in what was offered last, on this goroutine.
func (d *Desk) searchNow(t *testing.T) {
	t.Helper()
	ran := false
	for d.families.Search.RunOnce() { // a picture, and a question, where both wait
		ran = true
	}
	if !ran {
		t.Fatal("no picture was offered")
	}
}

// form is a light ground with a form on it, painted as a light and a shadow side.
func form() *image.NRGBA {
	img := guitest.Halves(color.NRGBA{0xd8, 0xdc, 0xe0, 255}, color.NRGBA{0xd8, 0xdc, 0xe0, 255})
	for y := range 300 {
		for x := range 400 {
			dx, dy := float64(x-200)/120, float64(y-150)/110
			switch {
			case dx*dx+dy*dy > 1:
			case dx < 0.15:
				img.SetNRGBA(x, y, guitest.Light)
			default:
				img.SetNRGBA(x, y, guitest.Shadow)
			}
		}
	}
	return img
}

func TestStructureFindsAForm(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openStructure(t, d)
	d.see(t, form())
	d.searchNow(t)
	if n := len(d.families.FoundList()); n != 1 {
		t.Fatalf("%d families, want the form", n)
	}
	row := p.families.Rows()[0]
	if !strings.HasPrefix(row.Text().Tones, "2.2"+wording.Nbsp+"tones") { // (CIE15, D1535)
		t.Errorf("the row says %q", row.Text().Tones)
	}
	row.MouseIn(&desktop.MouseEvent{})
	over := d.Mirror.Overlay(widgets.OverlayOutline)
	if over == nil {
		t.Fatal("pointing at the row outlines nothing")
	}
	drawn := 0
	for i := 3; i < len(over.Pix); i += 4 {
		if over.Pix[i] != 0 {
			drawn++
		}
	}
	if whole := len(over.Pix) / 4; drawn < whole/200 || drawn > whole/10 {
		t.Errorf("%d of %d pixels are drawn, want a border", drawn, whole)
	}
	row.MouseOut()
	if d.Mirror.Overlay(widgets.OverlayOutline) != nil {
		t.Error("the outline stays when the pointer leaves")
	}
	row.Tapped(&fyne.PointEvent{})
	d.see(t, form())
	if got := d.pairWords().Title; got != "B is 2.2"+wording.Nbsp+"tones darker" {
		t.Errorf("after a click the sentence is %q", got)
	}
	d.Undo()
	if len(d.setup.Places) != 0 {
		t.Errorf("%d spots after undo", len(d.setup.Places))
	}
}

// One click on a form sets its local colour by hand, a click after it corrects the side that is
// nearer in lightness, each a step of undo.
func TestFamilyByHand(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openStructure(t, d)
	img := form()
	d.see(t, img)
	d.searchNow(t)
	click := func(x, y int) {
		t.Helper()
		press(d.Mirror, image.Pt(x, y), 0)
		d.searchNow(t) // which answers
		d.see(t, img)
	}
	d.TypedRune('h')
	click(260, 150) // on the shadow
	if len(d.families.Manual) != 1 || d.families.Manual[0].Light.Colour.Hex() != "#e2ab85" || d.families.Manual[0].Shadow.Colour.Hex() != "#b26a5c" {
		t.Fatalf("families set by hand: %+v", d.families.Manual)
	}
	if got := p.families.Rows()[0].Text(); !strings.HasPrefix(got.Tones, "2.2"+wording.Nbsp+"tones") || got.Cross == "" || got.Keep != "" { // (CIE15, D1535)
		t.Errorf("the row says %+v", got)
	}
	if n := len(d.Mirror.Marks()); n != 2 || d.asking != askBetter {
		t.Errorf("%d marks in the mirror, want both sides; asked for is %v", n, d.asking)
	}
	light := d.setup.Families[0].Light.At
	click(250, 180) // nearer to the shadow
	if f := d.setup.Families[0]; f.Shadow.At != image.Pt(250, 180) || f.Light.At != light {
		t.Errorf("corrected it lies at %+v", f)
	}
	click(150, 150) // nearer to the light
	if f := d.setup.Families[0]; f.Light.At != image.Pt(150, 150) || f.Shadow.At != image.Pt(250, 180) {
		t.Errorf("corrected again it lies at %+v", f)
	}
	d.TypedKey(fyne.KeyEscape)
	if d.asking != askNothing || len(d.setup.Families) != 1 {
		t.Error("Esc does not end it")
	}
	drag(d.Mirror, image.Pt(150, 150), image.Pt(270, 200)) // the light side is carried onto the shadow
	d.see(t, img)
	if got := d.families.Manual[0].Tones; math.Abs(got) > 1e-9 {
		t.Errorf("both sides on the same colour are %.2f tones apart", got)
	}
	d.Undo()
	d.Undo()
	d.Undo()
	if f := d.setup.Families[0]; f.Light.At != light || f.Shadow.At != image.Pt(260, 150) {
		t.Errorf("after undo it lies at %+v", f)
	}
	d.see(t, img)
	p.families.Rows()[0].TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
	if len(d.setup.Families) != 0 {
		t.Error("Delete does not take it away")
	}
}

// Where no other side is seen, or no picture was searched, the second click is that side.
func TestFamilyByTwoClicks(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	openStructure(t, d)
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.see(t, img)
	d.TypedRune('h')
	press(d.Mirror, image.Pt(300, 100), 0) // the shadow first: the picture says which is lighter
	d.TypedKey(fyne.KeyEscape)
	for d.families.Search.RunOnce() { // the answer comes too late
	}
	if d.asking != askNothing {
		t.Error("what was given up goes on")
	}
	d.families.Forget()
	d.watch(setup.Source{Kind: setup.SourcePicture, Path: "another.png"})
	d.TypedRune('h')
	press(d.Mirror, image.Pt(300, 100), 0)
	d.searchNow(t)
	if d.asking != askOther {
		t.Fatalf("asked for is %v, want the other side", d.asking)
	}
	press(d.Mirror, image.Pt(100, 100), 0)
	d.see(t, img)
	if len(d.families.Manual) != 1 || d.families.Manual[0].Light.Colour.Hex() != "#e2ab85" || d.asking != askNothing {
		t.Fatalf("families set by hand: %+v", d.families.Manual)
	}
	drag(d.Mirror, image.Pt(20, 20), image.Pt(60, 60)) // measures: nothing is asked for
	d.TypedRune('h')
	drag(d.Mirror, image.Pt(20, 20), image.Pt(60, 60))
	if d.asking != askOther {
		t.Fatalf("after an area asked for is %v, want the other side", d.asking)
	}
}

func TestBordersByHand(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.see(t, img) // on the page of the spread
	s := d.parts.spread
	x := func(lightness float64) fyne.PointEvent {
		return fyne.PointEvent{Position: fyne.NewPos(s.X(lightness), 20)}
	}
	s.MouseDown(&desktop.MouseEvent{PointEvent: x(s.Borders()[0]), Button: desktop.MouseButtonPrimary})
	for _, to := range []float64{60, 80, 90} {
		s.Dragged(&fyne.DragEvent{PointEvent: x(to)})
	}
	s.DragEnd()
	d.see(t, img)
	groups := d.worker.Last().Reading.Chosen().Groups()
	if len(groups) != 2 || math.Abs(groups[0].To-90) > 0.4 || groups[0].Share != 1 { // within a bin
		t.Errorf("groups %+v, want all of the picture under 90", groups)
	}
	p := openStructure(t, d)
	d.see(t, img)
	if p.groups.Count().ChosenWord() != "By hand" {
		t.Errorf("%q is chosen where the borders are set by hand", p.groups.Count().ChosenWord())
	}
	d.Undo() // the drag is one step
	d.see(t, img)
	if len(d.setup.Borders) != 0 || p.groups.Count().Chosen() != 0 || p.groups.Count().ChosenWord() != "Automatic" {
		t.Errorf("borders %v after undo", d.setup.Borders)
	}
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if len(d.setup.Borders) != 1 {
		t.Fatal("an arrow key moves no edge")
	}
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
	if len(d.setup.Borders) != 0 {
		t.Error("Delete does not give the edges back")
	}
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	steps := len(d.history.Past)
	p.groups.Count().Choose(2)
	d.see(t, img)
	if d.settings.Groups != 3 || p.groups.Count().Chosen() != 2 || len(d.setup.Borders) != 0 || len(d.history.Past) != steps+1 {
		t.Errorf("%d groups are asked for, want 3, with borders %v after %d steps", d.settings.Groups, d.setup.Borders, len(d.history.Past)-steps)
	}
	if d.Undo(); len(d.setup.Borders) != 1 || d.settings.Groups != 0 {
		t.Errorf("undone, there are borders %v by hand, else %d groups; want one, and as many as the picture needs", d.setup.Borders, d.settings.Groups)
	}
	if d.Redo(); len(d.setup.Borders) != 0 || d.settings.Groups != 3 {
		t.Errorf("done again, there are borders %v by hand, else %d groups, want 3", d.setup.Borders, d.settings.Groups)
	}
	d.Undo()
	was := d.settings
	d.settings.Groups = 2 // chosen in the settings
	if d.chosen(was); len(d.setup.Borders) != 0 || d.settings.Groups != 2 {
		t.Error("a number of groups in the settings leaves borders set by hand")
	}
	if d.Undo(); len(d.setup.Borders) != 1 || d.settings.Groups != 0 {
		t.Errorf("a number chosen in the settings, undone, leaves borders %v, %d groups", d.setup.Borders, d.settings.Groups)
	}
}

// The groups can be of the picture without its ground, and the page says which.
func TestGroupsWithoutTheGround(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	p := openStructure(t, d)
	d.see(t, form())
	if p.groups.Ground.On() || strings.Contains(strings.Join(p.groups.Words(), " "), "ground") || strings.Contains(p.sentence().Right, "ground") {
		t.Errorf("the whole picture is asked for, and the card says %q, the sentence %q", p.groups.Words(), p.sentence().Right)
	}
	test.Tap(p.groups.Ground)
	d.see(t, form())
	reading := d.worker.Last().Reading
	// The form is an ellipse of 120 by 110 in 400 by 300: 34.6 % of the picture.
	if got := reading.GroundShare(); math.Abs(got-(1-math.Pi*120*110/400/300)) > 0.005 || !d.settings.NoGround {
		t.Errorf("a ground of %.3f is left out", got)
	}
	if !p.groups.Ground.On() || !strings.Contains(strings.Join(p.groups.Words(), " "), "Without the ground, 65") || !strings.HasSuffix(p.sentence().Right, "without the ground") {
		t.Errorf("without the ground the card says %q, the sentence %q", p.groups.Words(), p.sentence().Right)
	}
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	if got := d.worker.Last().Reading; got.Ground == analysis.GroundLeftOut && got.GroundShare() > 0.51 {
		t.Errorf("of halves a ground of %.3f is left out", got.GroundShare())
	}
	test.Tap(p.groups.Ground)
	d.see(t, form())
	if d.worker.Last().Reading.GroundShare() != 0 {
		t.Error("the ground stays left out")
	}
}

func TestTarget(t *testing.T) {
	path := filepath.Join(t.TempDir(), "plan.png")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	black, white := color.NRGBA{0, 0, 0, 255}, color.NRGBA{255, 255, 255, 255}
	if err := png.Encode(f, guitest.Halves(white, white)); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	d := newTestDesk(t, settings.Defaults())
	p := openStructure(t, d)
	plan, err := pictures.ReadTarget(path, analysis.Options{}, analysis.White)
	if err != nil {
		t.Fatal(err)
	}
	d.target.Set(&setup.Target{Name: "plan.png", Path: path, Plan: plan})
	img := guitest.Halves(black, white)
	d.see(t, img)
	// half of the picture is ten tones away (D1535: black is 0, white 10)
	if got := p.target.Text(); got.Name != "plan.png" || !strings.Contains(got.Distance, "5.0"+wording.Nbsp+"tones") {
		t.Errorf("the target's words are %+v", got)
	}
	if d.settings.Target != path {
		t.Error("the target is not kept")
	}
	d.openPage(pageIndex(settings.PageWatch))
	d.see(t, img)
	if d.parts.spread.State().Target == nil {
		t.Error("the target is not on the spread")
	}
	d.openPage(pageIndex(settings.PageStructure))
	d.target.Take()
	d.see(t, img)
	d.see(t, img)
	if got := p.target.Text(); !strings.Contains(got.Distance, "0.0"+wording.Nbsp+"tones") || d.settings.Target != "" {
		t.Errorf("to itself a picture stands so: %+v", got)
	}
	small := d.setup.Target.Picture
	if c := small.RGBAAt(1, small.Rect.Dy()/2); small.Rect.Dx() < 2*small.Rect.Dy()/2 || c.R != 0 || small.RGBAAt(small.Rect.Dx()-2, 1).R != 255 {
		t.Errorf("its small picture is %v, black is %v", small.Rect, c)
	}
	d.target.Set(nil)
	if d.Undo(); d.setup.Target == nil {
		t.Error("taking the target away can't be undone")
	}
	if _, err := pictures.ReadTarget(filepath.Join(t.TempDir(), "none.png"), analysis.Options{}, analysis.White); err == nil {
		t.Error("a target that isn't there is read")
	}
}

func TestKnobs(t *testing.T) {
	s := settings.Defaults()
	s.View = "bands"
	d := newTestDesk(t, s)
	d.TypedRune('+')
	if got := d.settings.Knobs["bands"]; got != 6 {
		t.Errorf("%g bands after +, want 6", got)
	}
	for range 9 {
		d.TypedRune('+')
	}
	if got := d.settings.Knobs["bands"]; got != 10 {
		t.Errorf("%g bands at the end, want 10", got)
	}
	d.setView(settings.ViewGrey)
	d.TypedRune('-')
	if got := d.settings.Knobs["bands"]; got != 10 {
		t.Errorf("a view without a knob turns that of another to %g", got)
	}
}

// The target of the last time is there again, and a still can be one.
func TestTargetComesBack(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	d.targetStill(d.marker.Still().ID)
	if d.setup.Target == nil || d.settings.TargetStill != d.marker.Still().ID {
		t.Fatal("the still is no target")
	}
	again := NewDesk(d.App, Options{Settings: d.settings, Keeper: d.options.Keeper, Stills: d.Store, Screen: d.options.Screen, background: d.options.background})
	t.Cleanup(again.worker.Close)
	if again.setup.Target == nil || again.setup.Target.Still != d.marker.Still().ID || len(again.history.Past) != 0 {
		t.Errorf("at the next start the target is %+v, with %d steps to undo", again.setup.Target, len(again.history.Past))
	}
}

// In a wide window groups and local colours follow the spread on Watch, and leave it again with the
// width; the spread keeps its least height.
func TestWideWatchHasTheCards(t *testing.T) {
	s := settings.Defaults()
	s.Width, s.Height = 1100, 760
	d := newTestDesk(t, s)
	img := guitest.Halves(guitest.Light, guitest.Shadow)
	d.see(t, img)
	p := d.page().(*watchPage)
	if !p.wantsFamilies() || p.cards.groupsBox.Position().Y < d.parts.spread.Position().Y+d.parts.spread.Size().Height || d.parts.spread.Size().Height < 80 {
		t.Errorf("wide: cards %v at %v below a spread of %v", p.wantsFamilies(), p.cards.groupsBox.Position(), d.parts.spread.Size())
	}
	d.Window.Resize(fyne.NewSize(380, 760))
	d.see(t, img)
	if p.wantsFamilies() || p.cards.groupsBox.Visible() {
		t.Error("narrow, the cards are there still")
	}
}
