// Package setup has what the painter has set and what undo goes back to: what is watched, where
// spots lie, what isn't counted, the local colours set by hand, kept and refused, the target.
// All of it are values: a change makes another setup. It knows no toolkit.
package setup
