// Package xconn keeps the one connection to an X server that this program makes
// through the X client library (package xgb).
//
// One, because that library keeps its tables of events and errors in global maps
// without a lock: a second connection that sets itself up while the first reads
// can end the process. So everybody who talks to X borrows the connection here
// (Acquire, Release), extensions are registered before its reader starts, and a new
// connection waits until the old one's reader has ended.
//
// The handshake is our own: so a wait for a server that doesn't answer can be
// ended, a refusal is told from an absence, and a connection can be cut while the
// server hangs.
//
// # Sources
//
//   - X11: X Window System Protocol, X Version 11, Release 7.7 (X.Org, 2012),
//     chapter 8 "Connection Setup", appendix B "Protocol Encoding".
//   - XAU: Xau(3) and Xsecurity(7), X.Org: the authority file and its matching.
package xconn
