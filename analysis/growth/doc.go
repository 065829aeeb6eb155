// Package growth says how a picture grew: over a series of readings it follows the groups' shares
// and gaps, the key, the murk, the local colours, the lost edges and the distance from a target,
// each as a line over time, and finds where a line turned.
//
// A Moment is what was measured of one picture. Of makes a Series of several: as many groups in
// all of them (groups.go), local colours known again by their colours and their places (match.go),
// and of each line the turning point (turn.go).
//
// It describes. A line that falls is no worse than one that rises.
//
// # Sources
//
//   - CIEDE2000, value, tones: see package colour.
//   - Rules and the limits in match.go say where each of them comes from.
//   - CSV: RFC 4180, Common Format and MIME Type for CSV Files, 2005.
package growth
