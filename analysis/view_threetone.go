package analysis

// Three values, dark, middle and light, by the picture's own groups.
func init() {
	register(6, View{Key: "three-tone", Name: "Three-tone", Paint: func(dst []byte, src *Reduced, look Look) {
		paintGroups(dst, src, look.Reading, 3)
	}})
}
