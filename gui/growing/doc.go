// Package growing shows in the page of stills how a picture grew, read from its stills in the
// background.
package growing
