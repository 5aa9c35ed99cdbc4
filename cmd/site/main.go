// Command site builds the site into a folder that any static host can serve:
// it compiles both wasm programs, minifies the page, puts a hash of the
// content into file names, lists the files for the service worker, and
// compresses everything in advance.
//
//	go run ./cmd/site          # as released
//	go run ./cmd/site -dev     # faster, larger
//	go run ./cmd/site -check   # hold the sizes to their budget
//	go run ./cmd/site -tighten FILE   # shorten the code of one wasm program, for benchmarks
//
// Names. Every file gets its hash into its name ("app.js" becomes
// "app.4f0c2a91d3.js") but those that are asked for by name from outside: see
// keepsName. A reference is rewritten where a quoted string, or a url(), in
// HTML, CSS, JS or the manifest is exactly the path of a file of the site
// relative to its top, with or without "./": "app.js", './worker.wasm',
// url(fonts/a.woff2). So the sources name plain files and need no templates.
// In sw.js, "{{build}}" becomes the hash of all files and "{{files}}" the list
// of them.
package main

import (
	"errors"
	"flag"
	"fmt"
	"log"
	"os"
	"path/filepath"
)

func main() {
	log.SetFlags(0)
	log.SetPrefix("site: ")
	out := flag.String("out", ".site", "folder to build into")
	dev := flag.Bool("dev", false, "compress less, and go without a program that does not exist yet")
	check := flag.Bool("check", false, "build nothing but the programs, and fail if they are over their budget")
	file := flag.String("tighten", "", "build nothing, but treat the code of the wasm program in this `file` as that of the site's programs")
	flag.Parse()
	if *file != "" {
		if err := tightenFile(*file); err != nil {
			log.Fatal(err)
		}
		return
	}
	if err := run(*out, *dev, *check); err != nil {
		log.Fatal(err)
	}
}

func tightenFile(name string) error {
	data, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	if data, err = tighten(data); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return os.WriteFile(name, data, 0o666)
}

func run(out string, dev, check bool) error {
	root, err := moduleRoot()
	if err != nil {
		return err
	}
	if err := os.Chdir(root); err != nil {
		return err
	}
	cache := compressor{dir: ".cache/packed", quality: 11}
	if dev {
		cache.quality = 5
	}
	programs, err := buildPrograms(".cache/wasm", dev)
	if err != nil {
		return err
	}
	if check {
		return checkBudget(programs, cache)
	}
	files, err := collect(programs)
	if err != nil {
		return err
	}
	site, err := assemble(files)
	if err != nil {
		return err
	}
	packed, err := cache.packAll(site)
	if err != nil {
		return err
	}
	if err := write(out, site, packed); err != nil {
		return err
	}
	fmt.Print(table(site, packed))
	return cache.prune()
}

// moduleRoot returns the nearest folder upwards that holds go.mod.
func moduleRoot() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", errors.New("no go.mod here or above: run it inside the project")
		}
		dir = up
	}
}
