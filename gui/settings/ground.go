package settings

// Ground is the grey around everything: how light the window is as a whole. Painters
// choose it near the picture's own key, since a light surround makes a picture look darker.
type Ground string

const (
	GroundDark   Ground = "dark" // the default
	GroundMiddle Ground = "middle"
	GroundLight  Ground = "light"
)

// Grounds returns all grounds from dark to light.
func Grounds() []Ground { return []Ground{GroundDark, GroundMiddle, GroundLight} }
