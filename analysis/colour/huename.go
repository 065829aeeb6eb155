package colour

// hueSector is a stretch of the hue circle that has a name.
type hueSector struct {
	name string
	from float64 // degrees; it reaches to where the next begins
}

// hueSectors run once round the Oklch hue circle. Each limit lies midway between the hues of the
// named colours on either side, rounded to whole degrees; that a name reaches half-way to the next is
// common practice, no source. Published are the colours and their names: where orange ends, the
// centroids vivid orange #f38400 (57.7 degrees) and vivid yellow #f3c300 (90.7) of the ISCC-NBS system
// (Kelly 1958, Central Notations for the Revised ISCC-NBS Color-Name Blocks, in its usual sRGB codes),
// since CSS4's yellow is a lemon that has orange reach over gold; all others of CSS4 (red 29.2, orange
// 70.7, yellow 109.8, lime 142.5, cyan 194.8, blue 264.1, blueviolet 301.4, magenta 328.4).
var hueSectors = [8]hueSector{
	{"red", 359}, {"orange", 50}, {"yellow", 74}, {"green", 126},
	{"cyan", 169}, {"blue", 229}, {"violet", 283}, {"magenta", 315},
}

// HueName returns the name of an Oklch hue in degrees, [0, 360): red, orange, yellow, green,
// cyan, blue, violet or magenta.
func HueName(hue float64) string { return hueSectors[sectorOf(hue)].name }

// sectorOf returns the index of the sector in which a hue lies.
func sectorOf(hue float64) int {
	last := 0 // red, which runs over 0
	for i := 1; i < len(hueSectors); i++ {
		if hue >= hueSectors[i].from && hue < hueSectors[0].from {
			last = i
		}
	}
	return last
}

// HueToward returns the name of the hue that a turn from one Oklch hue to another leads to:
// that of the second or, where both have one name, the next in the direction of the turn;
// rising is from red toward yellow.
func HueToward(from, to float64, rising bool) string {
	first, last := sectorOf(from), sectorOf(to)
	if first == last {
		step := 1
		if !rising {
			step = len(hueSectors) - 1
		}
		last = (last + step) % len(hueSectors)
	}
	return hueSectors[last].name
}
