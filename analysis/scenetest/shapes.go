package scenetest

import (
	"math"
	"math/rand/v2"
)

// Shapes lie in -1 to 1 each way, y down.

func disc() outline {
	out := make(outline, 96)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(len(out)))
		out[i] = point{cos, sin}
	}
	return out
}

// corners joins the points, each a corner of a curve that runs straight between them.
func corners(points ...point) outline {
	var twice []point
	for _, p := range points {
		twice = append(twice, p, p)
	}
	return smooth(twice...)
}

// mirrored runs down the right profile and back up the left one.
func mirrored(right ...point) outline {
	all := append([]point{}, right...)
	for i := len(right) - 1; i >= 0; i-- {
		all = append(all, point{-right[i].x, right[i].y})
	}
	return smooth(all...)
}

func head() outline {
	return mirrored(point{0.35, -0.97}, point{0.8, -0.7}, point{0.97, -0.15}, point{0.86, 0.35}, point{0.55, 0.8}, point{0.16, 0.99})
}

// hair is a mop that lies over a head's top and sides.
func hair() outline {
	return smooth(point{0, -1}, point{0.55, -0.92}, point{0.93, -0.5}, point{1, 0.1}, point{0.9, 0.8}, point{0.74, 0.95},
		point{0.72, 0.4}, point{0.62, 0}, point{0.3, -0.22}, point{0.05, -0.15}, point{-0.25, -0.3}, point{-0.6, -0.02},
		point{-0.7, 0.45}, point{-0.76, 0.9}, point{-0.92, 0.75}, point{-1, 0.1}, point{-0.92, -0.5}, point{-0.5, -0.93})
}

func neck() outline {
	return corners(point{-0.7, -1}, point{0.7, -1}, point{0.8, 0.6}, point{1, 1}, point{-1, 1}, point{-0.8, 0.6})
}

func torso() outline {
	return smooth(point{-0.3, -0.95}, point{0.3, -0.95}, point{0.85, -0.8}, point{1, -0.45}, point{0.78, 0.1}, point{0.72, 0.5},
		point{0.85, 1}, point{0.85, 1}, point{-0.85, 1}, point{-0.85, 1}, point{-0.72, 0.5}, point{-0.78, 0.1}, point{-1, -0.45}, point{-0.85, -0.8})
}

func sleeve() outline {
	return smooth(point{-0.7, -1}, point{0.2, -0.95}, point{0.85, -0.4}, point{1, 0.3}, point{0.9, 1}, point{0.9, 1},
		point{0.05, 1}, point{0.05, 1}, point{-0.1, 0.3}, point{-0.6, -0.1}, point{-1, -0.6})
}

func skirt() outline {
	return smooth(point{-0.42, -1}, point{-0.42, -1}, point{0.42, -1}, point{0.42, -1}, point{0.75, 0}, point{1, 0.86}, point{0.7, 0.98},
		point{0.4, 0.88}, point{0.1, 1}, point{-0.25, 0.9}, point{-0.6, 1}, point{-1, 0.85}, point{-0.72, 0})
}

func cloak() outline {
	return smooth(point{0, -1}, point{0.4, -0.9}, point{0.62, -0.4}, point{0.8, 0.3}, point{1, 0.95}, point{0.5, 1},
		point{0.1, 0.93}, point{-0.4, 1}, point{-0.95, 0.9}, point{-0.85, 0.2}, point{-0.6, -0.4}, point{-0.4, -0.9})
}

func boot() outline {
	return smooth(point{-0.7, -1}, point{-0.7, -1}, point{0.15, -1}, point{0.15, -1}, point{0.2, 0.1}, point{0.75, 0.4}, point{1, 0.75},
		point{0.95, 1}, point{0.95, 1}, point{-0.75, 1}, point{-0.75, 1}, point{-0.8, 0.2})
}

func pot() outline {
	return mirrored(point{0.35, -1}, point{0.5, -0.95}, point{0.42, -0.78}, point{0.6, -0.55}, point{0.97, -0.05}, point{0.9, 0.5}, point{0.55, 0.92}, point{0.3, 1})
}

func jug() outline {
	return mirrored(point{0.5, -1}, point{0.6, -0.97}, point{0.55, -0.6}, point{0.8, 0}, point{0.9, 0.55}, point{0.75, 0.95}, point{0.4, 1})
}

func bowl() outline {
	return corners(point{-1, -0.9}, point{1, -0.9}, point{0.93, -0.2}, point{0.66, 0.5}, point{0.35, 0.9}, point{-0.35, 0.9}, point{-0.66, 0.5}, point{-0.93, -0.2})
}

func apple() outline {
	return smooth(point{0, -0.78}, point{0.4, -0.97}, point{0.88, -0.66}, point{1, -0.05}, point{0.8, 0.6}, point{0.38, 0.98},
		point{0, 0.88}, point{-0.38, 0.98}, point{-0.8, 0.6}, point{-1, -0.05}, point{-0.88, -0.66}, point{-0.4, -0.97})
}

func pear() outline {
	return mirrored(point{0.16, -1}, point{0.32, -0.8}, point{0.42, -0.35}, point{0.8, 0.1}, point{0.97, 0.5}, point{0.7, 0.93}, point{0.2, 1})
}

func lemon() outline {
	return smooth(point{-1, 0}, point{-0.8, -0.22}, point{-0.5, -0.75}, point{0, -0.97}, point{0.5, -0.75}, point{0.8, -0.22}, point{1, 0},
		point{0.8, 0.25}, point{0.5, 0.78}, point{0, 0.98}, point{-0.5, 0.78}, point{-0.8, 0.25})
}

func leaf() outline {
	return smooth(point{-1, 0.1}, point{-1, 0.1}, point{-0.5, -0.7}, point{0.1, -0.95}, point{0.65, -0.6}, point{1, 0}, point{1, 0},
		point{0.6, 0.55}, point{0.05, 0.85}, point{-0.5, 0.65})
}

func hat() outline {
	return smooth(point{-1, 0.7}, point{-0.55, 0.45}, point{-0.5, -0.3}, point{-0.3, -0.9}, point{0.2, -0.97}, point{0.45, -0.5}, point{0.55, 0.4},
		point{1, 0.6}, point{0.7, 0.95}, point{0, 1}, point{-0.7, 0.98})
}

func mushroom() outline {
	return smooth(point{-1, 0.6}, point{-0.9, -0.1}, point{-0.5, -0.75}, point{0, -1}, point{0.5, -0.75}, point{0.9, -0.1}, point{1, 0.6},
		point{0.5, 0.9}, point{0, 1}, point{-0.5, 0.9})
}

func stem() outline {
	return corners(point{-0.6, -1}, point{0.6, -1}, point{0.55, 0}, point{0.9, 1}, point{-0.9, 1}, point{-0.55, 0})
}

func box() outline { return sharp(point{-1, -1}, point{1, -1}, point{1, 1}, point{-1, 1}) }

// house is two walls seen over a corner at x = 0.2.
func house() outline {
	return sharp(point{-1, -0.8}, point{0.2, -0.68}, point{1, -0.85}, point{1, 0.7}, point{0.2, 1}, point{-1, 0.8})
}

// roof is two slopes over the same corner.
func roof() outline {
	return sharp(point{-1, 0.55}, point{-0.5, -0.9}, point{0.55, -1}, point{1, 0.4}, point{0.2, 1}, point{-1, 0.8})
}

func gable() outline { return sharp(point{0, -1}, point{1, 1}, point{-1, 1}) }

func tower() outline { return sharp(point{-0.9, -1}, point{0.9, -1}, point{1, 1}, point{-1, 1}) }

func fish() outline {
	return smooth(point{-1, -0.55}, point{-1, -0.55}, point{-0.55, -0.2}, point{0, -0.8}, point{0.6, -0.7}, point{1, 0.05}, point{1, 0.05},
		point{0.6, 0.6}, point{0, 0.75}, point{-0.55, 0.15}, point{-1, 0.6}, point{-1, 0.6}, point{-0.8, 0})
}

func bell() outline {
	return mirrored(point{0.12, -1}, point{0.45, -0.75}, point{0.55, 0}, point{0.75, 0.6}, point{1, 0.85}, point{0.7, 1})
}

// lump is a rounded shape of its own for every seed: rocks, crowns of trees, clouds.
func lump(seed uint64, bumps int, rough float64) outline {
	rng := rand.New(rand.NewPCG(seed, 3))
	points := make([]point, bumps)
	for i := range points {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(bumps))
		r := 1 - rough*rng.Float64()
		points[i] = point{r * cos, r * sin}
	}
	return smooth(points...)
}

// rock is a lump with edges.
func rock(seed uint64, sides int) outline {
	rng := rand.New(rand.NewPCG(seed, 4))
	points := make(outline, sides)
	for i := range points {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5*rng.Float64()) / float64(sides))
		r := 1 - 0.22*rng.Float64()
		points[i] = point{r * cos, r * sin}
	}
	return points
}
