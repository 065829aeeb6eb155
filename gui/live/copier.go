package live

// Copier has the picture of now copied for those who ask for it, such as a palette or a still
// that is kept. It is used on the Fyne goroutine only.
type Copier struct {
	Asked   int    // how many copies were asked for so far
	Renew   func() // has the last picture shown again, with a copy of it
	waiting []func(*Copy)
}

// CopyPicture has the picture of now copied, and do called with the copy.
func (c *Copier) CopyPicture(do func(*Copy)) {
	c.Asked++
	c.waiting = append(c.waiting, do)
	c.Renew()
}

// Take hands a copied picture to all who asked for one; nil is none.
func (c *Copier) Take(copied *Copy) {
	if copied == nil {
		return
	}
	all := c.waiting
	c.waiting = nil
	for _, do := range all {
		do(copied)
	}
}
