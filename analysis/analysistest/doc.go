// Package analysistest has the pictures, colours and clock that the tests of the analysis' rooms
// share.
package analysistest
