package scenetest

// layers are flat layers of a landscape, one behind the other, lighter and bluer the further off they
// are or of any near colours: nothing is shaded.
func (r *chance) layers() {
	rng, h := r.rng, float64(r.height)
	r.hard()
	if perhaps(rng, 0.3) {
		r.lines, r.line = 1+rng.IntN(2), min(r.line, 4)
	}
	n := 2 + rng.IntN(4)
	hue, drift, saturation := between(rng, 0, 360), between(rng, -45, 45), between(rng, 0.02, 0.18)
	value, step := between(rng, 8, 9.4), between(rng, 0.8, 2)
	colour := func() Colour {
		c := mixed(max(value, 0.8), hue, saturation)
		value, hue, saturation = value-step*between(rng, 0.7, 1.3), hue+drift*between(rng, 0.5, 1.5), saturation*between(rng, 0.8, 1.4)
		return c
	}
	r.ground(plain(colour()))
	top := between(rng, 0.2, 0.45) * h
	for i := range n {
		r.lined(r.ridge(top+(h-top)*float64(i)/float64(n), between(rng, 0.01, 0.12)*h), colour())
	}
}
