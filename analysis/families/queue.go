package families

// touch is an edge that waits to be joined; it is out of date if the edge has changed since.
type touch struct {
	cost    float64
	edge    int32
	version int32
}

// before orders what waits: the least cost first, of equal costs the first edge.
func (t touch) before(o touch) bool {
	if t.cost != o.cost {
		return t.cost < o.cost
	}
	return t.edge < o.edge
}

// touchQueue is a binary heap, the first to be joined on top.
type touchQueue []touch

func (q *touchQueue) push(t touch) {
	*q = append(*q, t)
	h := *q
	for i := len(h) - 1; i > 0; {
		up := (i - 1) / 2
		if !h[i].before(h[up]) {
			return
		}
		h[i], h[up] = h[up], h[i]
		i = up
	}
}

func (q *touchQueue) pop() touch {
	h := *q
	top, last := h[0], len(h)-1
	h[0] = h[last]
	h = h[:last]
	*q = h
	for i := 0; ; {
		k := 2*i + 1
		if k >= last {
			return top
		}
		if k+1 < last && h[k+1].before(h[k]) {
			k++
		}
		if !h[k].before(h[i]) {
			return top
		}
		h[i], h[k] = h[k], h[i]
		i = k
	}
}
