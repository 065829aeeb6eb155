// Package everywhere owns the keys that work in every program while they are switched on: which key
// does which deed, what became of holding them, their rows in the settings, and where a spot comes
// to lie that is set by one. It knows the settings and callbacks, and not the controller.
package everywhere
