// Fit fits the weights of the finder of local colours (analysis/families) on drawings and painted
// scenes, and says how well the way of fitting does on pictures that were held out.
//
// All pictures are cut into ten parts. For each part, both models are fitted on the other nine
// and tried on it: those figures, and the calibration, are what to expect of other pictures. The
// weights that are written are fitted on all. It is deterministic: the same pictures give the
// same weights.
package main
