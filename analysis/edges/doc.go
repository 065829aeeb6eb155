// Package edges finds lost edges: borders that colour alone carries, and which vanish in grey; the
// opposite, edges that lightness alone carries; and borders whose sides are of one lightness,
// where a drawn line holds them. "Found and lost edges" are the trade's words (common practice,
// no source).
//
// It works on a picture of Longest cells: noise, grain and what JPEG leaves are gone there by the
// mean of their light, a brush's soft edge is an edge and not a slope, lengths are shares of the
// picture however large it is, and the views have a reduced picture anyway. What it can't see is a
// form, or a gap between two edges, narrower than about four cells, a hundredth of the picture.
//
// Both sides are read some cells away from the border (across.go), so that softness and a line
// between them don't count. What is wider than about a fiftieth of the picture is a gradient, no
// edge. Cheap whole-number distances in L*a*b* come first, without ever deciding anything; what
// they leave is middled to marks (marks.go), and these are held against the options by exact
// formulas. Marks that lie near each other with the same two colours are an edge (chains.go).
//
// It describes: a lost edge is no mistake, and many a picture lives by its own.
//
// # Sources
//
//   - CIEDE2000, tones: see package colour.
//   - The options say where each of them comes from.
package edges
