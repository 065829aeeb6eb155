// Package settings has what the window remembers, and loads and keeps it in one file of JSON.
// It knows no toolkit.
package settings
