package main

import (
	"context"
	"fmt"
	"image"
	"image/png"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"app.tonedesk/capture"
	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// TestFigures measures the built window from outside and prints a line for each figure,
// with the one to reach. It takes minutes and wants a quiet machine, so it only runs where
// TONEDESK_FIGURES is the number of seconds for which memory is watched.
func TestFigures(t *testing.T) {
	seconds, err := strconv.Atoi(os.Getenv("TONEDESK_FIGURES"))
	if err != nil {
		t.Skip("TONEDESK_FIGURES is not set")
	}
	t.Run("start", figureStart)
	t.Run("latency of isolated changes", func(t *testing.T) { figureLatency(t, "Watch", 0, 0, 25*time.Millisecond) })
	t.Run("latency at 10 a second", func(t *testing.T) { figureLatency(t, "Watch", 0, 10, 35*time.Millisecond) })
	t.Run("latency at 60 a second", func(t *testing.T) { figureLatency(t, "Watch", 60, 60, 35*time.Millisecond) })
	t.Run("latency beside families", func(t *testing.T) { figureLatency(t, "Structure", 10, 0, 150*time.Millisecond) })
	t.Run("stroke", figureStroke)
	t.Run("unchanged", figureUnchanged)
	for _, chip := range []bool{false, true} {
		t.Run(fmt.Sprint("under the pointer, chip ", chip), func(t *testing.T) { figurePointer(t, chip) })
	}
	for _, perSecond := range []int{10, 30, 60} {
		t.Run(fmt.Sprint("busy ", perSecond), func(t *testing.T) { figureBusy(t, perSecond, dabs, 20) })
	}
	t.Run("busy, whole pictures", func(t *testing.T) { figureBusy(t, 30, wholePictures, 40) })
	t.Run("memory", func(t *testing.T) { // both at once: what they hold doesn't depend on that
		t.Run("changing", func(t *testing.T) { figureChanging(t, "Watch", 30, time.Duration(seconds)*time.Second) })
		t.Run("structure", func(t *testing.T) { figureChanging(t, "Structure", 10, time.Duration(seconds)*time.Second) })
	})
}

// row prints a line of the table.
func row(what, measured, reach string) {
	fmt.Printf("FIGURE | %s | %s | %s |\n", what, measured, reach)
}

func figureScreen(t *testing.T) (*xvfbtest.Server, *xvfbtest.Painter) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1920, Height: 1080, WindowManager: true})
	painter := server.Painter()
	painter.Window(image.Rect(0, 0, 1280, 720), 0x808080)
	return server, painter
}

func figureSettings(page string, perSecond int) string {
	return fmt.Sprintf(`{"version": 1, "page": "%s", "per_second": %d, "region": {"x": 10, "y": 30, "width": 1260, "height": 680}, "place": {"x": 1400, "y": 60, "width": 380, "height": 760}}`, page, perSecond)
}

// figureStart starts the program again and again for one user, and an empty window of the toolkit in
// turns with it. The first start of all is apart: the graphics library compiles its programs then, and
// keeps them in the user's cache.
func figureStart(t *testing.T) {
	server, _ := figureScreen(t)
	home, empty := t.TempDir(), buildEmpty(t)
	desktest.Program(t) // building it is no start
	var ours, none []time.Duration
	for range 9 {
		none = append(none, emptyStart(t, server, home, empty))
		ours = append(ours, ourStart(t, server, home))
	}
	first := ours[0]
	ours, none = ours[1:], none[1:]
	slices.Sort(ours)
	slices.Sort(none)
	at, beside := ours[len(ours)/2], none[len(none)/2]
	row(fmt.Sprintf("built program to first frame, median of %d; an empty window's; the first start of all", len(ours)),
		fmt.Sprintf("%v; %v; %v", at.Round(time.Millisecond), beside.Round(time.Millisecond), first.Round(time.Millisecond)), "300 ms")
	if at > 300*time.Millisecond {
		t.Errorf("%v", at)
	}
}

// ourStart is the time from the program's start to the line of its trace that shows a picture.
func ourStart(t *testing.T, server *xvfbtest.Server, home string) time.Duration {
	trace := filepath.Join(home, "trace")
	_ = os.Remove(trace) // there is none before the first
	shown := make(chan time.Duration, 1)
	start := time.Now()
	go func() {
		for deadline := start.Add(20 * time.Second); time.Now().Before(deadline); time.Sleep(2 * time.Millisecond) {
			if data, _ := os.ReadFile(trace); strings.Contains(string(data), `"event":"shown"`) {
				break
			}
		}
		shown <- time.Since(start)
	}()
	w := desktest.OpenIn(t, server, home, figureSettings("Watch", 10), nil)
	took := <-shown
	w.Quit()
	return took
}

// buildEmpty builds the empty window.
func buildEmpty(t *testing.T) (path string) {
	path = filepath.Join(t.TempDir(), "empty")
	if out, err := exec.Command("go", "build", "-o", path, "./testdata/emptywindow").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return path
}

// emptyStart is the time that an empty window takes to start, draw itself and end.
func emptyStart(t *testing.T, server *xvfbtest.Server, home, empty string) time.Duration {
	cmd := exec.Command(empty, "once")
	cmd.Env = append(server.Env(), "HOME="+home, "XDG_CACHE_HOME="+filepath.Join(home, "cache"), "FYNE_SCALE=1")
	start := time.Now()
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return time.Since(start)
}

// figureStroke draws on a still of 1920x1080 and reads the screen back at the pointer. Beside it a change
// is timed from the same process to the screen, with nothing to be drawn: what the measuring takes.
func figureStroke(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1920, Height: 1080, WindowManager: true})
	path := filepath.Join(t.TempDir(), "grey.png")
	grey := image.NewGray(image.Rect(0, 0, 1920, 1080))
	for i := range grey.Pix {
		grey.Pix[i] = 120
	}
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, grey); err != nil {
		t.Fatal(err)
	}
	w := desktest.OpenOn(t, server, `{"version": 1, "page": "Stills", "width": 1500, "height": 900}`, nil, path)
	l := w.WaitFor("the page", func(l desktest.Shown) bool { return l.Parts[1] > 100 && l.Bounds.Dx() == 1920 })
	w.ClickIn(l.Parts[0]+l.Parts[2]/2, l.Parts[1]+l.Parts[3]/2)
	w.WaitFor("the tools", func(l desktest.Shown) bool { return len(l.Tools) > 0 && l.Tools[0][1] > 100 })
	takeTool(w, 1)
	backend := desktest.Screen(t, server)
	inside := w.InsideAt()
	lines := w.Lines()
	m := lines[len(lines)-1].Mirror
	x, y := int(m[0]+m[2]/8), int(m[1]+m[3]/2)
	w.Do("mousemove", "--window", w.ID, fmt.Sprint(x), fmt.Sprint(y), "mousedown", "1")
	painter := server.Painter()
	var times, bare []time.Duration
	for i := range 60 {
		x += 10
		at := inside.Add(image.Pt(x-1, y-1))
		stream, err := backend.Open(context.Background(), image.Rectangle{Min: at, Max: at.Add(image.Pt(2, 2))})
		if err != nil {
			t.Fatal(err)
		}
		var f capture.Frame
		if _, err := stream.Grab(context.Background(), &f); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(50+rand.IntN(50)) * time.Millisecond) // at any phase of the toolkit's turns
		start := time.Now()
		painter.Point(inside.Add(image.Pt(x, y)))
		untilChanged(t, stream, &f)
		times = append(times, time.Since(start))
		_ = stream.Close()
		bare = append(bare, bareChange(t, backend, painter, i))
	}
	w.Do("mouseup", "1")
	got := percentiles(times)
	row("a stroke behind the pointer, still of 1920x1080, 50th, 95th, 99th percentile of 60; the measuring alone",
		milliseconds(got)+"; "+milliseconds(percentiles(bare)), "95th 30 ms")
	if got[1] > 30*time.Millisecond {
		t.Errorf("%v", got[1])
	}
	w.Quit()
}

// bareChange is how long it takes until a change that another process paints is seen.
func bareChange(t *testing.T, backend capture.Backend, painter *xvfbtest.Painter, i int) time.Duration {
	stream, err := backend.Open(context.Background(), image.Rect(1917, 1077, 1919, 1079)) // right of and below the window
	if err != nil {
		t.Fatal(err)
	}
	defer stream.Close()
	var f capture.Frame
	if _, err := stream.Grab(context.Background(), &f); err != nil {
		t.Fatal(err)
	}
	start := time.Now()
	painter.Fill(image.Rect(1910, 1070, 1920, 1080), quietGreys[i%2])
	untilChanged(t, stream, &f)
	return time.Since(start)
}

// untilChanged waits until what a stream shows is another than in f.
func untilChanged(t *testing.T, stream capture.Stream, f *capture.Frame) {
	t.Helper()
	for start := time.Now(); ; time.Sleep(time.Millisecond) {
		changed, err := stream.Grab(context.Background(), f)
		if err != nil {
			t.Fatal(err)
		}
		if changed {
			return
		}
		if time.Since(start) > 5*time.Second {
			t.Fatal("the change never showed")
		}
	}
}

// processor returns the time that a process has used up.
func processor(t *testing.T, pid int) time.Duration {
	t.Helper()
	data, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
	if err != nil {
		t.Fatal(err)
	}
	fields := strings.Fields(string(data[strings.LastIndexByte(string(data), ')')+1:]))
	user, _ := strconv.Atoi(fields[11]) // utime and stime, in hundredths of a second (proc(5))
	system, _ := strconv.Atoi(fields[12])
	return time.Duration(user+system) * 10 * time.Millisecond
}

// resident returns a process's resident memory in MiB.
func resident(t *testing.T, pid int) float64 {
	t.Helper()
	data, err := os.ReadFile(fmt.Sprintf("/proc/%d/statm", pid))
	if err != nil {
		t.Fatal(err)
	}
	pages, _ := strconv.Atoi(strings.Fields(string(data))[1])
	return float64(pages*os.Getpagesize()) / (1 << 20)
}

// share returns how much of one core a process uses over d, in percent.
func share(t *testing.T, pid int, d time.Duration, meanwhile func()) float64 {
	before, start := processor(t, pid), time.Now()
	for time.Since(start) < d {
		meanwhile()
	}
	return 100 * float64(processor(t, pid)-before) / float64(time.Since(start))
}

func figureUnchanged(t *testing.T) {
	server, _ := figureScreen(t)
	empty := buildEmpty(t)
	cmd := exec.Command(empty)
	cmd.Env = append(server.Env(), "HOME="+t.TempDir(), "FYNE_SCALE=1")
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	defer func() { _ = cmd.Process.Kill(); _ = cmd.Wait() }()
	w := desktest.OpenOn(t, server, figureSettings("Watch", 10), nil)
	w.WaitFor("nothing changing", func(l desktest.Shown) bool { return l.State == "unchanged" })
	w.Do("mousemove", "1350", "1000")
	time.Sleep(3 * time.Second) // starting is over
	wait := func() { time.Sleep(30 * time.Second) }
	done := make(chan float64)
	go func() { done <- share(t, cmd.Process.Pid, 30*time.Second, wait) }()
	ours := share(t, w.Cmd.Process.Pid, 30*time.Second, wait)
	none := <-done
	row("unchanged picture, 10 a second: processor, and an empty window's", fmt.Sprintf("%.2f %%, %.2f %%", ours, none), "0.3 % more")
	if ours > none+0.3 {
		t.Errorf("%.2f %% against %.2f %%", ours, none)
	}
	w.Quit()
}

// figurePointer measures the processor's share while the pointer moves outside of what is watched and
// what lies under it is read, with the chip or without.
func figurePointer(t *testing.T, chip bool) {
	server, _ := figureScreen(t)
	settings := strings.TrimSuffix(figureSettings("Watch", 0), "}") + fmt.Sprintf(`, "under_pointer": true, "pointer_chip": %v}`, chip)
	w := desktest.OpenOn(t, server, settings, nil)
	w.WaitFor("a reading", func(l desktest.Shown) bool { return l.Pointer.Looks > 0 && l.State == "unchanged" })
	x := 0
	move := func() {
		x++
		w.Do("mousemove", fmt.Sprint(20+x*7%1300), fmt.Sprint(920+x*3%120)) // so far from the region that the chip isn't over it
		time.Sleep(40 * time.Millisecond)                                   // its speed
	}
	share(t, w.Cmd.Process.Pid, 3*time.Second, move) // starting is over
	used := share(t, w.Cmd.Process.Pid, 15*time.Second, move)
	row(fmt.Sprintf("reading under the pointer, which moves 25 times a second at most, chip %v: processor", chip), fmt.Sprintf("%.1f %% of a core", used), "5 %")
	if used > 5 {
		t.Errorf("%.1f %% of a core", used)
	}
	w.Quit()
}

// dabs and wholePictures are what is painted: a dab of 64 x 64, or all of the region.
func dabs(i int) image.Rectangle {
	return image.Rect(0, 0, 64, 64).Add(image.Pt(20+i*7%1100, 40+i*5%500))
}
func wholePictures(int) image.Rectangle { return image.Rect(0, 0, 1280, 720) }

// figureBusy measures the processor's share while a region of 1260 x 680 changes so often, at the
// automatic rate.
func figureBusy(t *testing.T, perSecond int, where func(i int) image.Rectangle, reach float64) {
	server, painter := figureScreen(t)
	w := desktest.OpenOn(t, server, figureSettings("Watch", 0), nil)
	w.WaitFor("the region", func(l desktest.Shown) bool { return l.Event == "shown" && l.Bounds.Dx() == 1260 })
	tick := time.NewTicker(time.Second / time.Duration(perSecond))
	defer tick.Stop()
	i := 0
	change := func() {
		<-tick.C
		i++
		c := uint32(0x606060 + i*2%64*0x010101) // greys near each other: whole pictures don't flash
		painter.Fill(where(i), c)
	}
	share(t, w.Cmd.Process.Pid, 3*time.Second, change) // starting is over
	used := share(t, w.Cmd.Process.Pid, 15*time.Second, change)
	what := where(0).Size()
	row(fmt.Sprintf("%d changes a second of %dx%d, automatic rate: processor, %.0f MiB held", perSecond, what.X, what.Y, resident(t, w.Cmd.Process.Pid)),
		fmt.Sprintf("%.0f %% of a core", used), fmt.Sprintf("%.0f %%", reach))
	if used > reach {
		t.Errorf("%.0f %% of a core", used)
	}
	w.Quit()
}

// figureChanging watches what the program holds while the picture changes, and its share of a core.
func figureChanging(t *testing.T, page string, perSecond int, long time.Duration) {
	t.Parallel()
	server, painter := figureScreen(t)
	w := desktest.OpenOn(t, server, figureSettings(page, perSecond), nil)
	w.WaitFor("the region", func(l desktest.Shown) bool { return l.Event == "shown" && l.Bounds.Dx() == 1260 })
	tick := time.NewTicker(time.Second / time.Duration(perSecond))
	defer tick.Stop()
	i := 0
	change := func() {
		<-tick.C
		i++
		painter.Fill(image.Rect(i*7%1200, i*5%600, i*7%1200+80, i*5%600+80), uint32(i*0x030507)&0xffffff)
	}
	share(t, w.Cmd.Process.Pid, 140*time.Second, change) // textures of texts live a minute or two: from here on it is steady
	before := resident(t, w.Cmd.Process.Pid)
	used := share(t, w.Cmd.Process.Pid, long, change)
	after := resident(t, w.Cmd.Process.Pid)
	row(fmt.Sprintf("%d changes a second of 1260x680, page %s: processor", perSecond, page), fmt.Sprintf("%.0f %% of a core", used), "60 %")
	row(fmt.Sprintf("memory after 140 s and after %v more", long), fmt.Sprintf("%.0f, %.0f MiB", before, after), "no growth")
	if used > 60 || after > before*1.05 {
		t.Errorf("%.0f %% of a core, %.0f MiB before, %.0f after", used, before, after)
	}
	w.Quit()
}
