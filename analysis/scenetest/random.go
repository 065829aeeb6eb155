package scenetest

// The seeds of Random. Those held out are never to be tuned on: a finder may be tried on
// them, its rules and limits may not be changed because of what they show.
const (
	FirstOpen, LastOpen       = 1, 0
	FirstHeldOut, LastHeldOut = 1001, 1040
)

// Random paints a scene from a seed.
func Random(seed int) *Scene { return nil }
