package wire

import (
	"bytes"
	"errors"
	"testing"

	"pgregory.net/rapid"

	_ "app.tonedesk/analysis/lawtest" // the same cases every time
)

// words writes numbers as the machine does.
func words(v ...uint32) (b []byte) {
	for _, n := range v {
		b = order.AppendUint32(b, n)
	}
	return b
}

// Messages lie in memory as the protocol's document draws them (WL, "Wire Format").
func TestBytes(t *testing.T) {
	for _, tt := range []struct {
		name string
		m    Message
		want []byte
	}{
		{"wl_display.get_registry", New(1, 1).Uint(2), words(1, 12<<16|1, 2)},
		{"a number below zero", New(7, 3).Int(-2), words(7, 12<<16|3, 0xfffffffe)},
		{"a text fills up with zeros, and counts its end", New(2, 0).Text("wl_shm"), append(words(2, 20<<16, 7), "wl_shm\x00\x00"...)},
		{"an array of five bytes", New(9, 5).Array([]byte("abcde")), append(words(9, 20<<16|5, 5), "abcde\x00\x00\x00"...)},
	} {
		got, err := tt.m.Bytes()
		if err != nil || !bytes.Equal(got, tt.want) {
			t.Errorf("%s: %x, %v, want %x", tt.name, got, err, tt.want)
		}
	}
	if _, err := New(1, 1).Array(make([]byte, most)).Bytes(); !errors.Is(err, ErrDamaged) {
		t.Errorf("one that is too long: %v", err)
	}
}

// What is written is read, in order, and nothing is left.
func TestWrittenIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		object, op := rapid.Uint32().Draw(t, "object"), rapid.Uint16().Draw(t, "op")
		u, i := rapid.Uint32().Draw(t, "u"), rapid.Int32().Draw(t, "i")
		s := rapid.StringMatching(`[a-zü ]{0,20}`).Draw(t, "s")
		array := rapid.SliceOfN(rapid.Byte(), 0, 40).Draw(t, "array")
		b, err := New(object, op).Uint(u).Text(s).Array(array).Int(i).Bytes()
		if err != nil {
			t.Fatal(err)
		}
		m, rest, ok, err := Cut(append(b, 1, 2, 3))
		if !ok || err != nil || len(rest) != 3 || m.Object != object || m.Op != op {
			t.Fatalf("%+v, %d left, %v, %v", m, len(rest), ok, err)
		}
		a := m.Arguments()
		if gu, gs, ga, gi := a.Uint(), a.Text(), a.Array(), a.Int(); gu != u || gs != s || !bytes.Equal(ga, array) || gi != i || a.Err() != nil {
			t.Errorf("%d %q %x %d, %v", gu, gs, ga, gi, a.Err())
		}
		if a.Uint(); !errors.Is(a.Err(), ErrDamaged) {
			t.Error("there is one more")
		}
	})
}

// Whatever comes, messages are cut off whole and put together are what came; what is read of them lies
// within them, and what isn't there is an error and zero.
func FuzzMessages(f *testing.F) {
	f.Add(words(1, 12<<16|1, 2), []byte{0})
	f.Add(append(words(2, 32<<16, 1, 7), "wl_shm\x00\x00\x01\x00\x00\x00"...), []byte{0, 2, 0})
	f.Add(words(3, 7<<16, 1), []byte{3})
	f.Add(words(3, 16<<16, 0xffffffff, 5), []byte{2, 3})
	f.Fuzz(func(t *testing.T, b []byte, reads []byte) {
		var again []byte
		rest := b
		for {
			m, after, ok, err := Cut(rest)
			if err != nil && !errors.Is(err, ErrDamaged) || ok && err != nil {
				t.Fatalf("%v, %v", ok, err)
			}
			if !ok {
				break
			}
			one, err := m.Bytes()
			if err != nil {
				t.Fatal(err)
			}
			again, rest = append(again, one...), after
			read(t, m, reads)
		}
		if !bytes.Equal(append(again, rest...), b) {
			t.Error("put together it is another")
		}
	})
}

// read reads a message's arguments as is said.
func read(t *testing.T, m Message, reads []byte) {
	a, left := m.Arguments(), len(m.Body)
	for _, kind := range reads {
		failed := a.Err() != nil
		size := 0
		switch kind % 4 {
		case 0:
			if a.Uint() != 0 && failed {
				t.Error("a number after the end")
			}
		case 1:
			a.Int()
		case 2:
			size = len(a.Text())
		case 3:
			size = len(a.Array())
		}
		if size > left || failed && size > 0 {
			t.Errorf("%d bytes of %d, failed before: %v", size, left, failed)
		}
		left = len(a.rest)
	}
	if a.Err() != nil && !errors.Is(a.Err(), ErrDamaged) {
		t.Errorf("%v is no word", a.Err())
	}
}
