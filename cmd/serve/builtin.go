//go:build embedsite

package main

import (
	"embed"
	"io/fs"
)

//go:embed all:built
var built embed.FS

// builtIn returns the site carried inside.
func builtIn() fs.FS {
	site, err := fs.Sub(built, "built")
	if err != nil {
		panic(err) // the folder was there when this was compiled
	}
	return site
}
