package colour

// The correlated colour temperatures, in kelvin, for which the daylight locus is defined (CIE15).
const (
	LeastDaylight = 4000
	MostDaylight  = 25000
)

// DaylightOf returns the linear red, green and blue of daylight of a correlated colour
// temperature in kelvin, of the display's white's luminance. Beyond the locus' ends it is that of
// the end; a NaN is the least. Source: CIE15, the daylight locus (from memory).
func DaylightOf(kelvin float64) (red, green, blue float64) {
	if !(kelvin > LeastDaylight) {
		kelvin = LeastDaylight
	}
	x, y := daylightLocus(min(kelvin, MostDaylight))
	return xyzToLight.times(x/y, 1, (1-x-y)/y)
}

// daylightLocus returns the chromaticity of daylight.
func daylightLocus(kelvin float64) (x, y float64) {
	t := 1000 / kelvin
	x = 0.237040 + t*(0.24748+t*(1.9018-t*2.0064))
	if kelvin <= 7000 {
		x = 0.244063 + t*(0.09911+t*(2.9678-t*4.6070))
	}
	return x, -3.000*x*x + 2.870*x - 0.275
}
