// Package light says whether one light falls on a picture: whether the shadows of its local
// colours agree, what that light is, from where it seems to come, and what shadow it would give
// to another colour.
//
// One light and one surrounding light fall on the whole of a picture. So the linear light that a
// local colour sends back in the shadow is what it sends back in the light times the same three
// factors, one a channel, whatever the colour: the ratio.
//
// Nothing here judges a painter's choice: figures say how far a local colour's shadow lies from
// what the light of the others would make of it.
//
// # Sources
//
//   - KRIES: von Kries, Die Gesichtsempfindungen, 1905, and Chromatische Adaptation, 1902: a
//     change of light multiplies each channel by a factor of its own, the diagonal model (from
//     memory). He counts cones; here the display's linear channels stand for them.
//   - FOSTER: Foster, Nascimento, Relational colour constancy from invariant cone-excitation
//     ratios, Proc. R. Soc. Lond. B 257, 1994: that these ratios hardly depend on the surface
//     (from memory).
//   - CIRCULAR: Mardia, Jupp, Directional Statistics, 2000: mean direction, mean resultant
//     length, circular standard deviation (from memory).
//   - DAYLIGHT: CIE 15:2004, Colorimetry, 3rd ed.: the daylight locus (from memory).
package light
