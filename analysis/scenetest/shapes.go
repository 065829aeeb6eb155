package scenetest

import (
	"math"
	"math/rand/v2"
	"slices"
)

// Shapes lie in -1 to 1 each way, y down.
var (
	disc = around(96, func() float64 { return 0 }, func() float64 { return 1 })
	head = mirrored(outline{{0.35, -0.97}, {0.8, -0.7}, {0.97, -0.15}, {0.86, 0.35}, {0.55, 0.8}, {0.16, 0.99}})
	// hair is a mop that lies over a head's top and sides.
	hair = smooth(outline{{0, -1}, {0.55, -0.92}, {0.93, -0.5}, {1, 0.1}, {0.9, 0.8}, {0.74, 0.95}, {0.72, 0.4},
		{0.62, 0}, {0.3, -0.22}, {0.05, -0.15}, {-0.25, -0.3}, {-0.6, -0.02}, {-0.7, 0.45}, {-0.76, 0.9}, {-0.92, 0.75},
		{-1, 0.1}, {-0.92, -0.5}, {-0.5, -0.93}})
	neck  = corners(outline{{-0.7, -1}, {0.7, -1}, {0.8, 0.6}, {1, 1}, {-1, 1}, {-0.8, 0.6}})
	torso = smooth(outline{{-0.3, -0.95}, {0.3, -0.95}, {0.85, -0.8}, {1, -0.45}, {0.78, 0.1}, {0.72, 0.5}, {0.85, 1},
		{0.85, 1}, {-0.85, 1}, {-0.85, 1}, {-0.72, 0.5}, {-0.78, 0.1}, {-1, -0.45}, {-0.85, -0.8}})
	sleeve = smooth(outline{{-0.7, -1}, {0.2, -0.95}, {0.85, -0.4}, {1, 0.3}, {0.9, 1}, {0.9, 1}, {0.05, 1}, {0.05, 1},
		{-0.1, 0.3}, {-0.6, -0.1}, {-1, -0.6}})
	skirt = smooth(outline{{-0.42, -1}, {-0.42, -1}, {0.42, -1}, {0.42, -1}, {0.75, 0}, {1, 0.86}, {0.7, 0.98},
		{0.4, 0.88}, {0.1, 1}, {-0.25, 0.9}, {-0.6, 1}, {-1, 0.85}, {-0.72, 0}})
	cloak = smooth(outline{{0, -1}, {0.4, -0.9}, {0.62, -0.4}, {0.8, 0.3}, {1, 0.95}, {0.5, 1}, {0.1, 0.93}, {-0.4, 1},
		{-0.95, 0.9}, {-0.85, 0.2}, {-0.6, -0.4}, {-0.4, -0.9}})
	boot = smooth(outline{{-0.7, -1}, {-0.7, -1}, {0.15, -1}, {0.15, -1}, {0.2, 0.1}, {0.75, 0.4}, {1, 0.75}, {0.95, 1},
		{0.95, 1}, {-0.75, 1}, {-0.75, 1}, {-0.8, 0.2}})
	pot = mirrored(outline{{0.35, -1}, {0.5, -0.95}, {0.42, -0.78}, {0.6, -0.55}, {0.97, -0.05}, {0.9, 0.5},
		{0.55, 0.92}, {0.3, 1}})
	jug  = mirrored(outline{{0.5, -1}, {0.6, -0.97}, {0.55, -0.6}, {0.8, 0}, {0.9, 0.55}, {0.75, 0.95}, {0.4, 1}})
	bowl = corners(outline{{-1, -0.9}, {1, -0.9}, {0.93, -0.2}, {0.66, 0.5}, {0.35, 0.9}, {-0.35, 0.9}, {-0.66, 0.5},
		{-0.93, -0.2}})
	apple = smooth(outline{{0, -0.78}, {0.4, -0.97}, {0.88, -0.66}, {1, -0.05}, {0.8, 0.6}, {0.38, 0.98}, {0, 0.88},
		{-0.38, 0.98}, {-0.8, 0.6}, {-1, -0.05}, {-0.88, -0.66}, {-0.4, -0.97}})
	pear  = mirrored(outline{{0.16, -1}, {0.32, -0.8}, {0.42, -0.35}, {0.8, 0.1}, {0.97, 0.5}, {0.7, 0.93}, {0.2, 1}})
	lemon = smooth(outline{{-1, 0}, {-0.8, -0.22}, {-0.5, -0.75}, {0, -0.97}, {0.5, -0.75}, {0.8, -0.22}, {1, 0},
		{0.8, 0.25}, {0.5, 0.78}, {0, 0.98}, {-0.5, 0.78}, {-0.8, 0.25}})
	leaf = smooth(outline{{-1, 0.1}, {-1, 0.1}, {-0.5, -0.7}, {0.1, -0.95}, {0.65, -0.6}, {1, 0}, {1, 0}, {0.6, 0.55},
		{0.05, 0.85}, {-0.5, 0.65}})
	hat = smooth(outline{{-1, 0.7}, {-0.55, 0.45}, {-0.5, -0.3}, {-0.3, -0.9}, {0.2, -0.97}, {0.45, -0.5}, {0.55, 0.4},
		{1, 0.6}, {0.7, 0.95}, {0, 1}, {-0.7, 0.98}})
	mushroom = smooth(outline{{-1, 0.6}, {-0.9, -0.1}, {-0.5, -0.75}, {0, -1}, {0.5, -0.75}, {0.9, -0.1}, {1, 0.6},
		{0.5, 0.9}, {0, 1}, {-0.5, 0.9}})
	stem = corners(outline{{-0.6, -1}, {0.6, -1}, {0.55, 0}, {0.9, 1}, {-0.9, 1}, {-0.55, 0}})
	box  = outline{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}
	// house is two walls seen over a corner at x = 0.2.
	house = outline{{-1, -0.8}, {0.2, -0.68}, {1, -0.85}, {1, 0.7}, {0.2, 1}, {-1, 0.8}}
	// roof is two slopes over the same corner.
	roof  = outline{{-1, 0.55}, {-0.5, -0.9}, {0.55, -1}, {1, 0.4}, {0.2, 1}, {-1, 0.8}}
	tower = outline{{-0.9, -1}, {0.9, -1}, {1, 1}, {-1, 1}}
	fish  = smooth(outline{{-1, -0.55}, {-1, -0.55}, {-0.55, -0.2}, {0, -0.8}, {0.6, -0.7}, {1, 0.05}, {1, 0.05},
		{0.6, 0.6}, {0, 0.75}, {-0.55, 0.15}, {-1, 0.6}, {-1, 0.6}, {-0.8, 0}})
	bell = mirrored(outline{{0.12, -1}, {0.45, -0.75}, {0.55, 0}, {0.75, 0.6}, {1, 0.85}, {0.7, 1}})
)

// corners joins the points, each a corner of a curve that runs straight between them.
func corners(points outline) outline {
	var twice outline
	for _, p := range points {
		twice = append(twice, p, p)
	}
	return smooth(twice)
}

// mirrored runs down the right profile and back up the left one.
func mirrored(right outline) outline {
	all := slices.Clone(right)
	for _, p := range slices.Backward(right) {
		all = append(all, point{-p.x, p.y})
	}
	return smooth(all)
}

// around sets so many points around the middle: turn and radius say where, turn in shares of
// the way from one to the next.
func around(count int, turn, radius func() float64) outline {
	points := make(outline, count)
	for i := range points {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + turn()) / float64(count))
		r := radius()
		points[i] = point{r * cos, r * sin}
	}
	return points
}

// lump is a rounded shape of its own for every seed: rocks, crowns of trees, clouds.
func lump(seed uint64, bumps int, rough float64) outline {
	rng := rand.New(rand.NewPCG(seed, 3))
	return smooth(around(bumps, func() float64 { return 0 }, func() float64 { return 1 - rough*rng.Float64() }))
}

// rock is a lump with edges.
func rock(seed uint64, sides int) outline {
	rng := rand.New(rand.NewPCG(seed, 4))
	return around(sides, func() float64 { return 0.5 * rng.Float64() }, func() float64 { return 1 - 0.22*rng.Float64() })
}
