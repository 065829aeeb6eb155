// Package guitest has what tests of the window and of its widgets share.
package guitest
