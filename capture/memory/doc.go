// Package memory holds the program to a budget: whoever is about to take much memory for a
// picture asks first whether there is room, from what the picture's header says, and says
// no in words instead of filling the machine.
//
// The budget is the runtime's own soft limit, so that garbage is collected before it is
// reached. What the runtime doesn't count (code, libraries, the driver that draws) comes on
// top.
package memory
