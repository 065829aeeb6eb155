//go:build !unix

package plainfile

const dontWait = 0
