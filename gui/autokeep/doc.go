// Package autokeep keeps the picture as a still every few minutes while it changes, where the painter
// has switched that on, within the room that these stills may take.
package autokeep
