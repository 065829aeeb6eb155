package views

import "app.tonedesk/analysis/reduce"

// Three values, dark, middle and light, by the picture's own groups.
var threeToneView = View{Key: "three-tone", Name: "Three-tone", Paint: func(dst []byte, src *reduce.Picture, look Look) {
	paintGroups(dst, src, look.Reading, 3)
}}
