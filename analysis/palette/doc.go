// Package palette says with which colours a picture is painted, by its share of each, and
// which steps of the value scale it leaves empty.
package palette
