package analysis

// Three values, dark, middle and light, by the picture's own groups.
func init() {
	register(6, View{"three-tone", "Three-tone", func(dst []byte, src *Reduced, look Look) {
		paintGroups(dst, src, look.Reading, 3)
	}})
}
