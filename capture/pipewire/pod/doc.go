// Package pod puts together and takes apart what PipeWire's client and server say of formats and
// memory: values with their size and type before them, as far as pictures need them.
package pod
