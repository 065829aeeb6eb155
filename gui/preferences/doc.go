// Package preferences is the page of the settings: what each is called, how it is set, and in what
// words it is said. It knows the settings and callbacks, and not the controller.
package preferences
