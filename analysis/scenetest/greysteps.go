package scenetest

import "fmt"

// greySteps are scales of grey.
var greySteps = []painter{emptySteps(7, 3), emptySteps(9, 2), emptySteps(11, 5), emptySteps(13, 11), emptySteps(16, 14)}

// emptySteps is a scale of even steps of grey on a ground that is as grey as one of them.
func emptySteps(steps, like int) painter {
	name := fmt.Sprintf("empty: %d steps of grey on a ground like one", steps)
	return painter{name, 1200, 900, func(e *easel) *Scene {
		grey := func(k int) paint { v := float32(k) / float32(steps-1); return paint{v, v, v} }
		e.ground(plain(grey(like).linear()))
		wide := 1000 / float64(steps)
		for k := range steps {
			e.flat(box().at(100+wide*(float64(k)+0.5), 450, wide/2, 150, 0), grey(k))
		}
		return e.empty()
	}}
}
