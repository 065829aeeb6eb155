package xconn

import "net"

// replay is a connection whose handshake is done already: it swallows the request
// that the client library sends for a setup and reads the known answer to it, then
// the wire. So the library starts on a connection that we have opened our way.
type replay struct {
	net.Conn
	asked bool   // the library's request has been swallowed
	setup []byte // what is left of the answer
}

// Write sends b, except for the first time.
func (r *replay) Write(b []byte) (int, error) {
	if !r.asked {
		r.asked = true
		return len(b), nil
	}
	return r.Conn.Write(b)
}

// Read reads what is left of the answer first.
func (r *replay) Read(b []byte) (int, error) {
	if len(r.setup) > 0 {
		n := copy(b, r.setup)
		r.setup = r.setup[n:]
		return n, nil
	}
	return r.Conn.Read(b)
}
