package scenetest

// clouds are shapes by chance that run into each other: no forms, and nothing is shaded.
func (r *chance) clouds() {
	rng := r.rng
	base := r.palette.backdrop(between(rng, 4, 7)).paint()
	light, hue := between(rng, 0.1, 0.6), between(rng, 0, 0.3)
	scale, octaves, seed := between(rng, 0.08, 0.35)*float64(min(r.width, r.height)), 2+rng.IntN(5), rng.IntN(1e6)
	r.ground(everywhere(func(p point) paint {
		all := light * cloudAt(p.x, p.y, scale, octaves, seed)
		q := base
		for c := range q {
			q[c] *= float32(1 + all + hue*cloudAt(p.x, p.y, scale, octaves, seed+100*(c+1)))
			q[c] = min(max(q[c], 0), 1)
		}
		return q
	}))
}
