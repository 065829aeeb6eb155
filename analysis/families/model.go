package families

import "math"

// Model is what a Finder weighs a picture's colours with: two logistic regressions. The
// weights are fitted, not chosen: see scripts/fit.
type Model struct {
	Link [linkFigures]float64 // whether two colours that touch are one local colour
	Sure [sureFigures]float64 // whether a local colour is painted as a light and a shadow
}

const (
	linkFigures = 20
	sureFigures = 18
)

// weigh returns the logit that weights give to figures.
func weigh(weights, figures []float64) (logit float64) {
	for i, w := range weights {
		logit += w * figures[i]
	}
	return logit
}

func sigmoid(logit float64) float64 { return 1 / (1 + math.Exp(-logit)) }

// Figures.

func hinge(v, from float64) float64 { return max(0, v-from) }

func flag(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

func part(of, all int) float64 { return float64(of) / float64(max(all, 1)) }
