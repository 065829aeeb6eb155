// Package keeping has the parts of the page of stills: the pictures that were kept, and the notes
// on the one that is open.
package keeping
