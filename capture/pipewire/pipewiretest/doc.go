// Package pipewiretest is for tests: a PipeWire server of a test's own, and screens that send
// pictures to it as a desktop does.
package pipewiretest
