package waylandtest

import (
	"errors"
	"fmt"
	"image"
	"net"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"golang.org/x/sys/unix"

	"app.tonedesk/capture/wayland/wire"
)

// Interfaces that a fake can offer.
const (
	Shm     = "wl_shm"
	Output  = "wl_output"
	Place   = "zxdg_output_manager_v1"
	WLR     = "zwlr_screencopy_manager_v1"
	EXT     = "ext_image_copy_capture_manager_v1"
	Sources = "ext_output_image_capture_source_manager_v1"
)

// Acts says how a fake behaves.
type Acts struct {
	Offers  map[string]uint32 // interfaces and their versions, but for outputs
	Screens []string          // names; each has number 100 and so on in the offer
	Format  uint32            // of pixels, as wl_shm numbers them
	Others  []uint32          // EXT: more formats, before it
	Size    image.Point       // of a screen, as it lies in memory
	Turn    uint32            // as wl_output.transform numbers it
	Invert  bool              // WLR: the last row comes first
	Fails   int               // so many copies fail first
	Reason  uint32            // EXT: why they do
	Silent  string            // a request, such as "sync", that nothing comes of
	Says    []byte            // sent at once, in place of everything
}

// Fake is a compositor that does what it is told. It holds its clients to the rules of the protocol.
type Fake struct {
	t      testing.TB
	Socket string

	mu      sync.Mutex
	acts    Acts
	pixel   [4]byte // what a screen shows, but for its first pixel in memory, which is white
	picture int     // counts what it shows
	clients []*client
	Asked   map[string]int // how often something was asked for
}

// StartFake starts a fake, which ends with the test.
func StartFake(t testing.TB, acts Acts) *Fake {
	t.Helper()
	dir, err := os.MkdirTemp("", "fake") // a socket's path is short
	if err != nil {
		t.Fatal(err)
	}
	f := &Fake{t: t, Socket: filepath.Join(dir, "wayland"), acts: acts, picture: 1, Asked: map[string]int{}}
	listener, err := net.Listen("unix", f.Socket)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		listener.Close()
		f.End()
		os.RemoveAll(dir)
	})
	go func() {
		for {
			conn, err := listener.Accept()
			if err != nil {
				return
			}
			f.serve(conn.(*net.UnixConn))
		}
	}()
	return f
}

// Change changes how it behaves, and shows one colour more: what clients wait for.
func (f *Fake) Change(pixel [4]byte, set func(*Acts)) {
	f.mu.Lock()
	defer f.mu.Unlock()
	size := f.acts.Size
	if set != nil {
		set(&f.acts)
	}
	f.pixel = pixel
	f.picture++
	for _, c := range f.clients {
		if f.acts.Size != size {
			c.needs()
		}
		c.answer()
	}
}

// Unplug takes the first screen away.
func (f *Fake) Unplug() { f.each(func(c *client) { c.send(wire.New(2, 1).Uint(100)) }) }

// Stop stops all copying by EXT.
func (f *Fake) Stop() {
	f.each(func(c *client) {
		for id, o := range c.objects {
			if o.kind == "session" {
				c.send(wire.New(id, 5))
			}
		}
	})
}

// Blame sends an error to every client.
func (f *Fake) Blame() { f.each(func(c *client) { c.send(wire.New(1, 0).Uint(7, 3).Text("not so")) }) }

// End ends all connections.
func (f *Fake) End() { f.each(func(c *client) { c.socket.Close() }) }

// Count returns how often something was asked for.
func (f *Fake) Count(what string) int {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.Asked[what]
}

// Waited reports whether a client waits for the next picture.
func (f *Fake) Waited() (waits bool) {
	f.each(func(c *client) {
		for _, o := range c.objects {
			waits = waits || o.waits
		}
	})
	return waits
}

func (f *Fake) each(do func(*client)) {
	f.mu.Lock()
	defer f.mu.Unlock()
	for _, c := range f.clients {
		do(c)
	}
}

// client is a connection, and what its objects are.
type client struct {
	*Fake
	socket  *wire.Socket
	objects map[uint32]*thing
	last    uint32 // object
	copied  int    // the picture that it had last
}

// thing is an object of a client.
type thing struct {
	kind    string
	file    int         // of a pool, or of a buffer
	size    image.Point // of a buffer
	stride  int
	format  uint32
	room    int    // bytes of a pool
	buffer  uint32 // a picture's
	waits   bool   // a picture was asked for
	waitFor int    // the number of the picture that it waits for
	screen  int    // an output's, from 0
}

// serve serves a connection until it ends.
func (f *Fake) serve(conn *net.UnixConn) {
	f.mu.Lock()
	c := &client{Fake: f, socket: wire.NewSocket(conn), objects: map[uint32]*thing{1: {kind: "display"}}, last: 1}
	f.clients = append(f.clients, c)
	says := f.acts.Says
	f.mu.Unlock()
	if says != nil {
		_, _ = conn.Write(says)
	}
	go func() {
		for {
			m, err := c.socket.Receive()
			f.mu.Lock()
			if err != nil {
				c.socket.DropFiles()
				f.mu.Unlock()
				return
			}
			if says == nil {
				c.take(m)
			}
			f.mu.Unlock()
		}
	}()
}

func (c *client) send(m wire.Message) { _ = c.socket.Send(nil, m) } // it may have gone

// wrong says that a client broke a rule.
func (c *client) wrong(format string, args ...any) { c.t.Errorf("the client: "+format, args...) }

// add makes an object, whose number is a free one or the next, as the protocol's own library wants it.
func (c *client) add(id uint32, kind string) *thing {
	if c.objects[id] != nil || id > c.last+1 || id < 2 {
		c.wrong("object %d of kind %s, after %d", id, kind, c.last)
	}
	c.last = max(c.last, id)
	c.objects[id] = &thing{kind: kind}
	return c.objects[id]
}

// drop ends an object.
func (c *client) drop(id uint32) {
	delete(c.objects, id)
	c.send(wire.New(1, 1).Uint(id))
}

// take does what is asked for.
func (c *client) take(m wire.Message) {
	o := c.objects[m.Object]
	if o == nil {
		c.wrong("request %d to object %d, which there isn't", m.Op, m.Object)
		return
	}
	do, ok := requests[request{o.kind, m.Op}]
	if !ok {
		c.wrong("request %d to an object of kind %s", m.Op, o.kind)
		return
	}
	c.Asked[do.name]++
	if do.name == c.acts.Silent {
		return
	}
	a := m.Arguments()
	do.do(c, m.Object, o, a)
	if a.Err() != nil {
		c.wrong("%s: %v", do.name, a.Err())
	}
}

// request is a request to an object of a kind.
type request struct {
	kind string
	op   uint16
}

// deed is what comes of it.
type deed struct {
	name string
	do   func(c *client, id uint32, o *thing, a *wire.Arguments)
}

func destroy(c *client, id uint32, _ *thing, _ *wire.Arguments) { c.drop(id) }

// requests are those that a fake knows, by the protocols' own numbers.
var requests map[request]deed

func init() {
	requests = map[request]deed{
		{"display", 0}: {"sync", func(c *client, _ uint32, _ *thing, a *wire.Arguments) {
			id := a.Uint()
			c.add(id, "callback")
			c.send(wire.New(id, 0).Uint(1))
			c.drop(id)
		}},
		{"display", 1}: {"get_registry", func(c *client, _ uint32, _ *thing, a *wire.Arguments) {
			id := a.Uint()
			c.add(id, "registry")
			number := uint32(10)
			for of, version := range c.acts.Offers {
				number++
				c.send(wire.New(id, 0).Uint(number).Text(of).Uint(version))
			}
			for i := range c.acts.Screens {
				c.send(wire.New(id, 0).Uint(100 + uint32(i)).Text(Output).Uint(1))
			}
		}},
		{"registry", 0}: {"bind", bind},
		{Shm, 0}: {"create_pool", func(c *client, _ uint32, _ *thing, a *wire.Arguments) {
			pool := c.add(a.Uint(), "pool")
			pool.room = int(a.Int())
			var err error
			if pool.file, err = c.socket.File(); err != nil {
				c.wrong("create_pool: %v", err)
			}
		}},
		{"pool", 0}: {"create_buffer", func(c *client, _ uint32, pool *thing, a *wire.Arguments) {
			b := c.add(a.Uint(), "buffer")
			from := int(a.Int())
			b.size, b.stride, b.format = image.Pt(int(a.Int()), int(a.Int())), int(a.Int()), a.Uint()
			if from != 0 || b.stride*b.size.Y > pool.room {
				c.wrong("a buffer of %v from %d in %d bytes", b.size, from, pool.room)
			}
			b.file, pool.file = pool.file, -1
		}},
		{"pool", 1}: {"destroy_pool", destroy},
		{"buffer", 0}: {"destroy_buffer", func(c *client, id uint32, b *thing, _ *wire.Arguments) {
			unix.Close(b.file)
			c.drop(id)
		}},
		{Place, 1}: {"get_xdg_output", func(c *client, _ uint32, _ *thing, a *wire.Arguments) {
			id, of := a.Uint(), a.Uint()
			c.add(id, "place")
			i := c.objects[of].screen
			c.send(wire.New(id, 0).Int(int32(-100*i), 0))
			c.send(wire.New(id, 1).Int(int32(c.acts.Size.X/2), int32(c.acts.Size.Y/2))) // its own measure has half the points
			c.send(wire.New(id, 3).Text(c.acts.Screens[i]))
		}},
		{WLR, 0}: {"capture_output", func(c *client, _ uint32, _ *thing, a *wire.Arguments) {
			id := a.Uint()
			if a.Int() != 0 {
				c.wrong("it wants the pointer in the picture")
			}
			c.add(id, "picture")
			s := c.acts.Size
			c.send(wire.New(id, 0).Uint(c.acts.Format, uint32(s.X), uint32(s.Y), uint32(4*s.X+16)))
			c.send(wire.New(id, 6))
		}},
		{"picture", 0}: {"copy", func(c *client, id uint32, p *thing, a *wire.Arguments) { c.wait(id, p, a.Uint(), 0) }},
		{"picture", 1}: {"destroy_picture", destroy},
		{"picture", 2}: {"copy_with_damage", func(c *client, id uint32, p *thing, a *wire.Arguments) { c.wait(id, p, a.Uint(), c.copied+1) }},
		{Sources, 0}:   {"create_source", func(c *client, _ uint32, _ *thing, a *wire.Arguments) { c.add(a.Uint(), "source") }},
		{EXT, 0}: {"create_session", func(c *client, _ uint32, _ *thing, a *wire.Arguments) {
			c.add(a.Uint(), "session")
			if a.Uint(); a.Uint() != 0 {
				c.wrong("it wants the pointer in the picture")
			}
			c.needs()
		}},
		{"session", 0}: {"create_frame", func(c *client, _ uint32, _ *thing, a *wire.Arguments) { c.add(a.Uint(), "frame") }},
		{"frame", 0}:   {"destroy_frame", destroy},
		{"frame", 1}:   {"attach_buffer", func(c *client, _ uint32, p *thing, a *wire.Arguments) { p.buffer = a.Uint() }},
		{"frame", 2}:   {"damage_buffer", func(c *client, _ uint32, p *thing, a *wire.Arguments) { a.Int(); a.Int(); a.Int(); a.Int() }},
		{"frame", 3}:   {"capture", func(c *client, id uint32, p *thing, _ *wire.Arguments) { c.wait(id, p, p.buffer, c.copied+1) }},
	}
}

// bind makes an object of an offer.
func bind(c *client, _ uint32, _ *thing, a *wire.Arguments) {
	number, of, version, id := a.Uint(), a.Text(), a.Uint(), a.Uint()
	o := c.add(id, of)
	if most := c.acts.Offers[of]; of != Output && (version > most || version == 0) {
		c.wrong("%s of version %d, which is offered in %d", of, version, most)
	}
	if of == Output {
		o.screen = int(number - 100)
		s := c.acts.Size
		c.send(wire.New(id, 0).Int(0, 0, 300, 200, 0).Text("Made up").Text("Screen").Uint(c.acts.Turn))
		c.send(wire.New(id, 1).Uint(0).Int(9999, 9999, 60000)) // a mode that isn't the one of now
		c.send(wire.New(id, 1).Uint(1).Int(int32(s.X), int32(s.Y), 60000))
	}
}

// needs tells sessions of EXT what memory pictures need.
func (c *client) needs() {
	for id, o := range c.objects {
		if o.kind != "session" {
			continue
		}
		c.send(wire.New(id, 0).Uint(uint32(c.acts.Size.X), uint32(c.acts.Size.Y)))
		for _, f := range append(c.acts.Others, c.acts.Format) {
			c.send(wire.New(id, 1).Uint(f))
		}
		c.send(wire.New(id, 4))
	}
}

// wait notes that a picture is waited for, and sends it if it is there.
func (c *client) wait(id uint32, p *thing, buffer uint32, number int) {
	if c.objects[buffer] == nil || c.objects[buffer].kind != "buffer" || p.waits {
		c.wrong("a copy into object %d, waiting %v", buffer, p.waits)
		return
	}
	p.buffer, p.waits, p.waitFor = buffer, true, number
	c.answer()
}

// answer sends pictures that are waited for, and are there.
func (c *client) answer() {
	for id, p := range c.objects {
		if !p.waits || p.waitFor > c.picture || c.acts.Silent == "ready" {
			continue
		}
		p.waits = false
		if err := c.copy(p); err != nil || c.acts.Fails > 0 {
			c.acts.Fails--
			c.fail(id, p)
			continue
		}
		c.copied = c.picture
		if p.kind == "picture" {
			flags := uint32(0)
			if c.acts.Invert {
				flags = 1
			}
			c.send(wire.New(id, 1).Uint(flags))
			c.send(wire.New(id, 4).Uint(0, 0, 1, 1))
			c.send(wire.New(id, 2).Uint(0, 1, 2))
			continue
		}
		c.send(wire.New(id, 0).Uint(c.acts.Turn))
		c.send(wire.New(id, 1).Int(0, 0, 1, 1))
		c.send(wire.New(id, 2).Uint(0, 1, 2))
		c.send(wire.New(id, 3))
	}
}

func (c *client) fail(id uint32, p *thing) {
	if p.kind == "picture" {
		c.send(wire.New(id, 3))
		return
	}
	c.send(wire.New(id, 4).Uint(c.acts.Reason))
}

// copy paints into a buffer.
func (c *client) copy(p *thing) error {
	b := c.objects[p.buffer]
	if b == nil || b.size != c.acts.Size || b.format != c.acts.Format {
		return errors.New("a buffer of another kind")
	}
	memory, err := unix.Mmap(b.file, 0, b.stride*b.size.Y, unix.PROT_READ|unix.PROT_WRITE, unix.MAP_SHARED)
	if err != nil {
		c.wrong("%v", fmt.Errorf("map a buffer: %w", err))
		return err
	}
	defer unix.Munmap(memory)
	for y := range b.size.Y {
		for x := range b.size.X {
			copy(memory[y*b.stride+4*x:], c.pixel[:])
		}
	}
	copy(memory, []byte{255, 255, 255, 255})
	return nil
}
