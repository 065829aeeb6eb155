// Package ora writes OpenRaster files, the open exchange format for pictures in layers:
// a zip archive with a description of the stack, a PNG file a layer, the picture as a whole
// and a small one. Source: OpenRaster, Baseline (openraster.org, version 0.0.5): File Layout
// and Layer Stack.
//
// They are read by package capture, which takes the picture as a whole.
package ora
