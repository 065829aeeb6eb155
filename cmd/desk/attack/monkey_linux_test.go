package attack

import (
	"context"
	"fmt"
	"image"
	"image/color"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// What the window may take while a monkey plays with it; our choice.
const (
	monkeyMemory   = 260 // MB
	monkeyHandles  = 100
	monkeySegments = 16 // the toolkit's driver and what is watched take six
	flatWithin     = 10 // MB between the first and the last third of the second half
)

// A monkey plays with pointer and keys: the program doesn't end but by its own Quit, answers
// all the time, says nothing on standard error, talks to nobody, and takes no more and more.
func TestMonkey(t *testing.T) {
	t.Parallel()
	y, silent := newTally("rounds of a monkey"), newTally("answers within 500 ms meanwhile")
	server, painter, id := desktest.ScreenWithPatches(t)
	home, r := t.TempDir(), chance(7)
	m := &monkey{t: t, server: server, painter: painter, home: home, r: r}
	m.open(desktest.WatchPatches)
	for end := time.Now().Add(time.Duration(times(8, 600)) * time.Second); time.Now().Before(end); {
		if r.IntN(4) == 0 {
			painter.Repaint(id, desktest.Patches(desktest.LightSkin, [2]color.NRGBA{desktest.LightSkin, desktest.ShadowSkin}[r.IntN(2)]))
		}
		y.try(t, m.round()...)
		silent.try(t, m.answers()...)
	}
	_ = m.w.Cmd.Process.Kill()
	y.measure("at most %d MB, %d handles, %d segments; quit and begun again %d times", m.most.memory, m.most.handles, m.most.segments, m.quits)
	silent.measure("%s", &m.answered)
	if long() {
		m.flat(t, y)
	}
}

// monkey plays with one window after the other.
type monkey struct {
	t       *testing.T
	server  *xvfbtest.Server
	painter *xvfbtest.Painter
	home    string
	r       *rand.Rand
	w       *desktest.Window
	quits   int
	most    footprint
	memory  []int    // MB, a round each, of the window that is open
	did     []string // in the last round

	answered answered
}

func (m *monkey) open(settings string) {
	m.w = desktest.OpenIn(m.t, m.server, m.home, settings, nil)
	m.memory = nil
}

// round does some forty things by chance, and says what came of it.
func (m *monkey) round() (faults []string) {
	if m.r.IntN(5) == 0 { // else the keys go where they went
		_, _ = m.w.Tool("xdotool", "windowactivate", m.w.ID)
	}
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
	defer cancel()
	script := m.script()
	m.did = script
	m.w.Script(ctx, script)
	if how, ended := m.w.Ended(0); ended {
		if how != nil || m.w.Said() != "" {
			return []string{fmt.Sprintf("it ended with %v and said %q\nafter %s\n%s", how, m.w.Said(), strings.Join(script, "; "), m.w.Messages())}
		}
		m.quits++
		m.open("")
		return nil
	}
	now := footprintOf(m.w.Cmd.Process.Pid)
	m.memory = append(m.memory, now.memory)
	m.most = footprint{max(m.most.memory, now.memory), max(m.most.handles, now.handles), max(m.most.segments, now.segments)}
	if odd := network(m.w.Cmd.Process.Pid); len(odd) > 0 {
		faults = append(faults, fmt.Sprintf("it talks to others: %v", odd))
	}
	if said := m.w.Said(); said != "" {
		faults = append(faults, fmt.Sprintf("it said %q", said))
	}
	if messages := m.w.Messages(); strings.Contains(messages, "goroutine ") {
		faults = append(faults, "it kept a stack: "+messages)
	}
	if now.handles > monkeyHandles || now.memory > monkeyMemory || now.segments > monkeySegments {
		faults = append(faults, fmt.Sprintf("it holds %d handles, %d segments and %d MB", now.handles, now.segments, now.memory))
	}
	return faults
}

// monkeyKeys are the keys that it presses: all that do something but Ctrl+Q, and some that
// don't.
var monkeyKeys = slices.Concat(
	strings.Split("abcdefghijklmnopqrstuvwxyz0123456789", ""),
	[]string{"plus", "minus", "Tab", "shift+Tab", "Return", "space", "Escape", "Escape", "Delete", "BackSpace", "F1", "F5"},
	[]string{"Left", "Right", "Up", "Down", "shift+Left", "shift+Down", "Next", "Prior", "Home", "End", "shift+v", "shift+b", "shift+space"},
	[]string{"ctrl+o", "ctrl+s", "ctrl+z", "ctrl+y", "ctrl+plus", "ctrl+minus", "ctrl+0", "ctrl+Left", "ctrl+Next", "ctrl+Prior", "ctrl+comma", "ctrl+a", "ctrl+v", "ctrl+c", "ctrl+x"},
)

// script is what the monkey does next.
func (m *monkey) script() (script []string) {
	size := m.size()
	at := func() string {
		return fmt.Sprintf("mousemove --window %s %d %d", m.w.ID, m.r.IntN(size.X), m.r.IntN(size.Y))
	}
	for range 40 {
		switch m.r.IntN(8) {
		case 0, 1, 2:
			script = append(script, "key "+monkeyKeys[m.r.IntN(len(monkeyKeys))])
		case 3, 4:
			script = append(script, at(), "click 1")
		case 5:
			script = append(script, at(), "mousedown 1", at(), at(), "mouseup 1")
		case 6:
			script = append(script, at(), fmt.Sprintf("click --repeat %d %d", 1+m.r.IntN(4), []int{3, 4, 5, 1}[m.r.IntN(4)]))
		case 7: // a key before the button is let go
			script = append(script, at(), "mousedown 1", at(), "key "+monkeyKeys[m.r.IntN(len(monkeyKeys))], at(), "mouseup 1")
		}
		script = append(script, "sleep 0.02")
	}
	return script
}

// size is that of the window's inside.
func (m *monkey) size() image.Point {
	var width, height int
	out, _ := m.w.Tool("xdotool", "getwindowgeometry", "--shell", m.w.ID)
	for line := range strings.Lines(out) {
		_, _ = fmt.Sscanf(line, "WIDTH=%d", &width)
		_, _ = fmt.Sscanf(line, "HEIGHT=%d", &height)
	}
	return image.Pt(max(width, 1), max(height, 1))
}

// answers asks the program for a sign of life. A window that has just ended is no fault.
func (m *monkey) answers() []string {
	if late, err := m.answered.ask(m.w, m.painter); err == nil && late != "" {
		return []string{late + " after " + strings.Join(m.did, "; ")}
	}
	return nil
}

// flat fails where memory grows in the second half of the time.
func (m *monkey) flat(t *testing.T, y *tally) {
	mean := func(of []int) (sum int) {
		for _, n := range of {
			sum += n
		}
		return sum / max(len(of), 1)
	}
	half := m.memory[len(m.memory)/2:]
	third := len(half) / 3
	before, after := mean(half[:third]), mean(half[len(half)-third:])
	t.Logf("memory, a round each: %v", m.memory)
	if after > before+flatWithin {
		y.try(t, fmt.Sprintf("memory grew from %d to %d MB in the second half", before, after))
	}
}
