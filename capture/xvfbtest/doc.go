// Package xvfbtest starts virtual X servers and X clients for tests, and only for
// them. A server is the test's own: the test may stop it, kill it and change its
// resolution, and it ends with the test.
//
// Clients run in processes of their own, since the client library allows one
// connection a process (see package xconn): a painter is the test binary itself,
// started once more.
//
// Without Xvfb a test is skipped, or fails where TONEDESK_NEED_X is 1.
package xvfbtest
