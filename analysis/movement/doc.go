// Package movement tells how the whole picture was moved between two readings: the painter
// panned, zoomed, turned or mirrored the canvas. Where it isn't known how, or another picture
// is shown, it says so. A brush stroke is no movement.
//
// # Method
//
// Both pictures are reduced to cells, a few pixels wide, at six sizes. Where hardly a cell has
// changed, that is all. Otherwise
//
//   - corners are found in both (Shi and Tomasi 1994), described by the patch around them,
//     turned as the picture slopes there (Brown, Szeliski and Winder 2005), in four tones, and
//     known again by how many of these differ, also in the mirrored picture: each by the few that
//     look most like it, of either picture, since many pictures are alike in several places;
//   - pairs of matches, and single ones where the canvas keeps its size and lies by quarters,
//     are guesses at a similarity, of which those count that most matches agree with (random
//     sample consensus, Fischler and Bolles 1981, but with all pairs, so that the same pictures
//     always get the same answer);
//   - the best are bettered by least squares on the slopes, coarse, then fine (Lucas and Kanade
//     1981), what differs too much counting for little (biweight, Beaton and Tukey 1974); one
//     that neither zooms nor turns freely, within what can be told, is taken to be exactly so;
//   - the outcome is checked against both pictures, place by place: edges that were there have
//     to be there, and tones have to agree, but for what strokes may cover; and nothing quite
//     different may explain nearly as much, as in a picture that is alike in many places, or
//     turned or mirrored in itself, about the centre and the axes of its edges.
//
// What fails this is unknown where hardly an edge is left where it was, in no part of the
// picture, though both have edges, and nothing was just filled or cleared; or where a transform
// explains much, but not enough. Else the picture lies still. Where all its edges went, as behind
// a plain desktop or under a fill, it is gone: it is kept, and what is seen next is compared with it.
//
// Phase correlation of the spectra (De Castro and Morandi 1987, Reddy and Chatterji 1996) was
// not taken: it needs most of the picture in both, and a canvas panned by half of the view and
// zoomed leaves a quarter or less (our choice; both were not measured beside each other).
//
// The limits are our choice. What can't be seen: what leaves no trace, as a pan along stripes;
// a picture of ramps that is mirrored; a region of which a third of the edges are a program's
// fixed panels counts as painted in part. The other way round, a sole object moved on a plain
// ground counts as a pan, and a layer that hides all edges there were as another picture.
package movement
