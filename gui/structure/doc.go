// Package structure has what the page of structure is about and the desk does not keep
// itself: local colours with their light and shadow sides, and the target.
package structure
