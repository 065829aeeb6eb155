// Without a file of assembly the compiler wants a body for what is bound by name.
