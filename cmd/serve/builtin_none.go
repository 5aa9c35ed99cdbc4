//go:build !embedsite

package main

import "io/fs"

// builtIn returns the site carried inside, here none.
func builtIn() fs.FS { return nil }
