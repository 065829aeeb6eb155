package analysis

// The value scale cut into even bands.
func init() { register(4, View{"bands", "Bands", paintBands}) }

// Limits of Look.Bands.
const (
	MinBands = 2
	MaxBands = 10
)

// paintBands cuts the values 0 to 10 into look.Bands equal steps, and shows each as the
// grey of its middle value. A value on an edge belongs to the lighter band.
func paintBands(dst []byte, src *Reduced, look Look) {
	bands := max(MinBands, min(MaxBands, look.Bands))
	var edges [MaxBands - 1]uint32
	var greys [256]uint8
	for i := range bands {
		greys[i] = GreyOf(Lightness(YOfValue(10 * (float64(i) + 0.5) / float64(bands))))
	}
	for i := range bands - 1 {
		edges[i] = lightFrom(YOfValue(10 * float64(i+1) / float64(bands)))
	}
	var reached steps
	reached.set(edges[:bands-1])
	paintTones(dst, src, &reached, &greys)
}
