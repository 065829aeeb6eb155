// Package analysistest has the pictures and colours that the tests of the analysis' rooms
// share.
package analysistest
