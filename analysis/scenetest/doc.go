// Package scenetest draws drawings and paintings by code, with their families of light and
// shadow known from masks, and scores what a finder of families says about them.
//
// It knows nothing of how families are found. A painter's picture is forms laid over each
// other; each form has a local colour, painted as a light side and a shadow side that meet
// along a hard or soft edge (the terminator), perhaps with a core-shadow accent between
// them, reflected light, a line around and tiny details on top. Grain and JPEG come last,
// after the truth has been taken.
//
// Names gives the named scenes, Named paints one of them, Random paints one from a seed.
// Kind does so within one of the kinds that Kinds names: each holds what a finder of sides
// easily fails on, and among them are pictures without any family.
// Seeds FirstOpen to LastOpen are for working with. Seeds FirstHeldOut to LastHeldOut are
// held out: nothing may ever be tuned on them.
//
// The package imports analysis and families, so that only outside tests (package
// families_test) can use it there.
//
// The rules of light and shadow are the trade's: common practice, no source.
package scenetest
