// Package fixed counts light in whole numbers: the fast passes over pixels add it up
// exactly, whatever the order, and look lightness up by its thresholds.
package fixed
