// Package plainfile opens plain files and nothing else that can stand under a name. A pipe
// would hold up who opens it for ever, a device may never end, and a file may grow while it
// is read. Whatever is read by its name is opened here.
package plainfile
