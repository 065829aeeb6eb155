package capture

import (
	"fmt"
	"image"
)

// clip returns the part of region that lies on the desktop, or the whole desktop if
// region is the zero rectangle. The error wraps ErrEmpty or ErrOutside.
func clip(region, desktop image.Rectangle) (image.Rectangle, error) {
	if region == (image.Rectangle{}) {
		region = desktop
	}
	if region.Empty() {
		return image.Rectangle{}, fmt.Errorf("region %v: %w", region, ErrEmpty)
	}
	met := region.Intersect(desktop)
	if met.Empty() {
		return image.Rectangle{}, fmt.Errorf("region %v on desktop %v: %w", region, desktop, ErrOutside)
	}
	return met, nil
}
