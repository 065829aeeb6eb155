package portal

// Tokens keeps the portal's token for the next time, where nobody else can read it. Its functions may
// be called from any goroutine; a token that can't be kept is no error, since then the painter is
// asked again.
type Tokens struct {
	Load func() string // "": there is none
	Keep func(string)  // in place of the one before; "" forgets it
}
