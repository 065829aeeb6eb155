//go:build !linux

package main

// onDisplayLost has nothing to watch for: on this system the display outlives its programs.
func onDisplayLost(func()) {}
