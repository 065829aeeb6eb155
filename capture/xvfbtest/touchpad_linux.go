package xvfbtest

import (
	"bytes"
	"encoding/binary"
	"io"
	"net"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// An Xvfb has no touchpad. An Xorg can have one that a test drives, and a screen that is
// shown nowhere. Source: inputtestdrv(4), xf86-input-inputtest-protocol.h (xorg-server
// 21.1.7, in protocol version 1.1), xorg.conf(5).

const touchpadConfig = `
Section "ServerFlags"
	Option "AutoAddDevices" "false"
	Option "AutoAddGPU" "false"
EndSection
Section "Device"
	Identifier "card"
	Driver "dummy"
	VideoRam 64000
EndSection
Section "Monitor"
	Identifier "monitor"
	HorizSync 5-300
	VertRefresh 10-150
EndSection
Section "Screen"
	Identifier "screen"
	Device "card"
	Monitor "monitor"
	DefaultDepth 24
	SubSection "Display"
		Depth 24
		Modes "1920x1080"
	EndSubSection
EndSection
Section "InputDevice"
	Identifier "touchpad"
	Driver "inputtest"
	Option "SocketPath" "SOCKET"
	Option "DeviceType" "PointerGesture"
EndSection
Section "ServerLayout"
	Identifier "layout"
	Screen "screen"
	InputDevice "touchpad" "CorePointer"
EndSection
`

// touchpadServer returns what starts a server with a touchpad at a socket.
func touchpadServer(t testing.TB, socket string) []string {
	t.Helper()
	dir := t.TempDir()
	path := filepath.Join(dir, "xorg.conf")
	config := bytes.ReplaceAll([]byte(touchpadConfig), []byte("SOCKET"), []byte(socket))
	if err := os.WriteFile(path, config, 0o600); err != nil {
		t.Fatal(err)
	}
	return []string{"Xorg", "-config", path, "-configdir", dir, "-logfile", filepath.Join(dir, "log"),
		"-nolisten", "tcp", "-novtswitch", "-sharevts"}
}

// Kinds of messages to the touchpad, and what its pinches are called, as in XI2.h.
const (
	padVersion = 0
	padWait    = 1
	padPinch   = 7

	padPinchBegin  = 27
	padPinchUpdate = 28
	padPinchEnd    = 29
)

// Touchpad is what a test drives a server's touchpad with.
type Touchpad struct {
	t  testing.TB
	to net.Conn
}

// hasConsole says whether an Xorg can have the console that it wants.
func hasConsole() bool {
	console, err := os.OpenFile("/dev/tty0", os.O_RDWR, 0)
	if err != nil {
		return false
	}
	console.Close()
	return true
}

// Touchpad returns the touchpad of a server that has one; it can be taken once.
func (s *Server) Touchpad() *Touchpad {
	s.t.Helper()
	to, err := net.Dial("unix", s.pad)
	if err != nil {
		s.t.Fatalf("take the touchpad: %v", err)
	}
	s.t.Cleanup(func() { to.Close() })
	pad := &Touchpad{t: s.t, to: to}
	pad.send(padVersion, uint16(1), uint16(1))
	pad.answer()
	return pad
}

// Pinch puts two fingers down, moves them so that their distance takes each of scales of
// what it was while their middle moves by dx, dy pixels each time, and lifts them. The
// server has made events of it when Pinch returns.
func (p *Touchpad) Pinch(dx, dy float64, scales ...float64) {
	p.t.Helper()
	p.pinch(padPinchBegin, 0, 0, 1)
	last := 1.0
	for _, last = range scales {
		p.pinch(padPinchUpdate, dx, dy, last)
	}
	p.pinch(padPinchEnd, 0, 0, last)
	p.send(padWait)
	p.answer()
}

func (p *Touchpad) pinch(kind uint16, dx, dy, scale float64) {
	p.t.Helper()
	p.send(padPinch, kind, uint16(2), uint32(0), dx, dy, dx, dy, scale, 0.0)
}

// send sends a message: its length, its kind and what is in it.
func (p *Touchpad) send(kind uint32, values ...any) {
	p.t.Helper()
	length := 8
	for _, v := range values {
		length += binary.Size(v)
	}
	var b []byte
	for _, v := range append([]any{uint32(length), kind}, values...) {
		b, _ = binary.Append(b, binary.NativeEndian, v) // of numbers of a fixed size: no error
	}
	if _, err := p.to.Write(b); err != nil {
		p.t.Fatalf("drive the touchpad: %v", err)
	}
}

// answer reads one answer.
func (p *Touchpad) answer() {
	p.t.Helper()
	head := make([]byte, 8)
	err := p.to.SetReadDeadline(time.Now().Add(startTime))
	if err == nil {
		_, err = io.ReadFull(p.to, head)
	}
	if err == nil {
		_, err = io.CopyN(io.Discard, p.to, int64(binary.NativeEndian.Uint32(head))-8)
	}
	if err != nil {
		p.t.Fatalf("hear from the touchpad: %v", err)
	}
}
