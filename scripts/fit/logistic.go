package main

import "math"

// example is what was seen with what is true of it.
type example struct {
	figures []float64
	true    bool
	weight  float64
}

func sigmoid(logit float64) float64 { return 1 / (1 + math.Exp(-logit)) }

// fit fits weights by logistic regression: iteratively reweighted least squares (Newton's
// method), with a ridge on standardised figures. The first figure is 1.
func fit(examples []example, ridge float64) []float64 {
	n := len(examples[0].figures)
	mean, deviation := moments(examples, n)
	beta, z := make([]float64, n), make([]float64, n)
	for range 50 {
		gradient, curve := make([]float64, n), make([][]float64, n)
		for i := range curve {
			curve[i] = make([]float64, n)
			if i > 0 {
				gradient[i], curve[i][i] = -ridge*beta[i], ridge
			}
			curve[i][i] += 1e-9
		}
		for _, e := range examples {
			logit := 0.0
			for i, v := range e.figures {
				z[i] = (v - mean[i]) / deviation[i]
				logit += beta[i] * z[i]
			}
			p, y := sigmoid(logit), 0.0
			if e.true {
				y = 1
			}
			h := e.weight * max(p*(1-p), 1e-6)
			for i := range z {
				gradient[i] += e.weight * (y - p) * z[i]
				for k := range z {
					curve[i][k] += h * z[i] * z[k]
				}
			}
		}
		most := 0.0
		for i, d := range solve(curve, gradient) {
			beta[i] += d
			most = max(most, math.Abs(d))
		}
		if most < 1e-9 {
			break
		}
	}
	weights := make([]float64, n)
	for i := range beta {
		weights[i] = beta[i] / deviation[i]
		if i > 0 {
			weights[0] -= weights[i] * mean[i]
		}
	}
	return weights
}

// moments returns means and deviations; those of the first figure are 0 and 1.
func moments(examples []example, n int) (mean, deviation []float64) {
	mean, deviation = make([]float64, n), make([]float64, n)
	all := 0.0
	for _, e := range examples {
		all += e.weight
		for i, v := range e.figures {
			mean[i] += e.weight * v
		}
	}
	for i := range mean {
		mean[i] /= all
	}
	for _, e := range examples {
		for i, v := range e.figures {
			deviation[i] += e.weight * (v - mean[i]) * (v - mean[i])
		}
	}
	for i := range deviation {
		if deviation[i] = math.Sqrt(deviation[i] / all); deviation[i] < 1e-9 {
			deviation[i] = 1
		}
	}
	mean[0], deviation[0] = 0, 1
	return mean, deviation
}

// solve solves a x = b by elimination with the largest pivot; it works in place.
func solve(a [][]float64, b []float64) []float64 {
	n := len(b)
	for i := range n {
		p := i
		for k := i + 1; k < n; k++ {
			if math.Abs(a[k][i]) > math.Abs(a[p][i]) {
				p = k
			}
		}
		a[i], a[p], b[i], b[p] = a[p], a[i], b[p], b[i]
		for k := i + 1; k < n; k++ {
			f := a[k][i] / a[i][i]
			for j := i; j < n; j++ {
				a[k][j] -= f * a[i][j]
			}
			b[k] -= f * b[i]
		}
	}
	for i := n - 1; i >= 0; i-- {
		for j := i + 1; j < n; j++ {
			b[i] -= a[i][j] * b[j]
		}
		b[i] /= a[i][i]
	}
	return b
}
