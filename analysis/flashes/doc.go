// Package flashes says whether pictures that follow each other flash, and how long the next
// one has to wait so that they don't.
//
// It is pure: pictures are reduced to the luminance of a few cells, times are given.
//
// # Source
//
// WCAG22: W3C Web Content Accessibility Guidelines 2.2 (2024), success criterion 2.3.1 and
// "general flash and red flash thresholds". A flash is a pair of opposing changes of relative
// luminance of 10 % or more of the largest, where the darker picture is below 0.80. Three
// flashes, which are six changes, are allowed in any one second, unless they cover less than
// a quarter of the field of sight; here, of the picture. Red flashes are not looked for.
package flashes
