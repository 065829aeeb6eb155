// Package menus has the window's menus of what can be watched and of the views, with what they
// show of the picture. It knows values and callbacks, and not the controller.
package menus
