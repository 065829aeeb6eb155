// Package profile reads ICC profiles of three primaries and their curves as colour spaces, and writes
// such. What works by lookup tables it refuses: a table is no space of primaries, and to read it as
// one would be wrong in silence.
//
// Sources:
//
//   - ICC4: ICC.1:2022, Image technology colour management (profile version 4.4).
//   - ICC2: ICC.1:2001-04, File format for color profiles (version 2.4).
//   - BRADFORD: the linear Bradford transform, ICC4, annex E; CSS Color Module Level 4, sample code.
//
// Both by memory, and by what Little CMS makes of the same profiles, in the tests.
package profile
