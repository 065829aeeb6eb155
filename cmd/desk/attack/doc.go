// Package attack holds no program: its tests attack the built one, from outside. They damage
// what it reads, fill its disk, kill it and the servers that it talks to, and play with its
// window as a monkey would. What it promises: it never ends by itself, never hangs, loses
// nothing that was kept, says every failure in one plain sentence, and leaves nothing behind.
//
// A short form is part of make test. make attack tries as much as twenty minutes allow, and
// prints a table of tries and failures. What is tried is chosen by seeds and is the same
// every time; when it happens is not.
package attack
