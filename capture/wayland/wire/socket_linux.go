package wire

import (
	"fmt"
	"io"
	"net"
	"sync"
	"syscall"
	"time"
)

// sendTime is how long the other end may leave a message lying. Our choice.
const sendTime = 5 * time.Second

// Socket carries messages both ways. One goroutine may receive while others send.
type Socket struct {
	conn  *net.UnixConn
	send  sync.Mutex
	bytes []byte // received, and not yet a whole message
	room  []byte // for what comes next
	files []int  // that came, and nobody has taken
}

// NewSocket takes over a connection.
func NewSocket(conn *net.UnixConn) *Socket {
	return &Socket{conn: conn, room: make([]byte, most+1)}
}

// Send sends messages, and with them open files, which stay the caller's.
func (s *Socket) Send(files []int, messages ...Message) error {
	var all []byte
	for _, m := range messages {
		b, err := m.Bytes()
		if err != nil {
			return err
		}
		all = append(all, b...)
	}
	s.send.Lock()
	defer s.send.Unlock()
	if err := s.conn.SetWriteDeadline(time.Now().Add(sendTime)); err != nil {
		return err
	}
	var with []byte
	if len(files) > 0 {
		with = syscall.UnixRights(files...)
	}
	n, _, err := s.conn.WriteMsgUnix(all, with, nil)
	if err == nil && n < len(all) {
		_, err = s.conn.Write(all[n:])
	}
	return err
}

// Receive waits for the next message; its body is good until the next Receive. The error wraps ErrDamaged,
// io.EOF where the other end has gone, or is the system's.
func (s *Socket) Receive() (Message, error) {
	for {
		m, rest, ok, err := Cut(s.bytes)
		if ok || err != nil {
			s.bytes = rest
			return m, err
		}
		if err := s.fill(); err != nil {
			return Message{}, err
		}
	}
}

// mostFiles bounds the files that came and weren't taken. Our choice; the protocol's own library takes 28
// at once.
const mostFiles = 28

// fill receives some bytes.
func (s *Socket) fill() error {
	s.bytes = append([]byte(nil), s.bytes...) // the message before them lies in the same memory
	with := make([]byte, syscall.CmsgSpace(mostFiles*word))
	n, m, _, _, err := s.conn.ReadMsgUnix(s.room, with)
	if m > 0 {
		s.keep(with[:m])
	}
	if err != nil {
		return err
	}
	if n == 0 {
		return io.EOF
	}
	s.bytes = append(s.bytes, s.room[:n]...)
	return nil
}

// keep keeps the files that came; too many are closed.
func (s *Socket) keep(with []byte) {
	messages, err := syscall.ParseSocketControlMessage(with)
	if err != nil {
		return
	}
	for _, m := range messages {
		files, err := syscall.ParseUnixRights(&m)
		if err == nil {
			s.files = append(s.files, files...)
		}
	}
	for len(s.files) > mostFiles {
		syscall.Close(s.files[0])
		s.files = s.files[1:]
	}
}

// File returns the file that came first and wasn't taken; it is the caller's then. Whoever receives calls it.
func (s *Socket) File() (int, error) {
	if len(s.files) == 0 {
		return 0, fmt.Errorf("%w: without its file", ErrDamaged)
	}
	f := s.files[0]
	s.files = s.files[1:]
	return f, nil
}

// DropFiles closes the files that came. Whoever receives calls it.
func (s *Socket) DropFiles() {
	for _, f := range s.files {
		syscall.Close(f)
	}
	s.files = nil
}

// Close ends the connection, and what waits for it.
func (s *Socket) Close() error { return s.conn.Close() }
