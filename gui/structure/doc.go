// Package structure has what the page of structure is about and the desk does not keep
// itself: local colours with their light and shadow sides, what the painter says of them, what
// they say of the light, and the target.
package structure
