// Package pool runs one job in pieces on all cores, again and again, without allocating.
package pool
