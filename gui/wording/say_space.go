package wording

// SaySpace says in which colours a picture is read, by their name.
func SaySpace(name string) string { return "read in " + name + ", as its file says" }
