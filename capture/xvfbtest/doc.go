// Package xvfbtest starts virtual X servers and X clients for tests, and only for
// them. A server is the test's own: the test may stop it, kill it and change its
// resolution, and it ends with the test.
//
// Clients run in processes of their own, since the client library allows one
// connection a process (see package xconn): a painter is the test binary itself,
// started once more.
//
// Without Xvfb a test is skipped, or fails where TONEDESK_NEED_X is 1; where it is 0, all are
// skipped. Packages may run side by side: no two servers have one name.
package xvfbtest
