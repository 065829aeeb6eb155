// Package testkit is what tests of the analysis share that knows nothing of the analysis:
// painted pictures as bytes, tables of published values, counted allocations.
package testkit
