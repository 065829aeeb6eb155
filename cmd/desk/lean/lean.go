package lean

import "os"

// drawnFor is how long the toolkit keeps what it has drawn of a text or an icon that is no
// longer seen; its own choice is a minute. It looks after what is seen ten seconds before that,
// so that below twenty it would do so all the time (fyne.io/fyne/v2 2.7.1, drawSingleFrame).
const drawnFor = "20s"

func init() {
	if os.Getenv("FYNE_CACHE") == "" {
		_ = os.Setenv("FYNE_CACHE", drawnFor) // else it takes some more memory
	}
}
