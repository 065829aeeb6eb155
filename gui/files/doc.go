// Package files writes files for their owner alone, safely: whatever happens meanwhile, what
// was there before stays whole until the new one is, and what can't be finished is taken away.
// What is written lasts through a power cut, where the system can make it. Settings, stills
// and all that is exported are written here. What is exported never goes over what is read
// (To).
package files
