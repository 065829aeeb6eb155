//go:build !windows

package wording

// systemReasons are what errors of this system alone mean: none here.
var systemReasons []reason
