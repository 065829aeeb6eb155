package views

import "app.tonedesk/analysis/reduce"

// Two values, dark and light, by the picture's own groups: the notan.
var twoToneView = View{Key: "two-tone", Name: "Two-tone", Paint: func(dst []byte, src *reduce.Picture, look Look) {
	paintGroups(dst, src, look.Reading, 2)
}}
