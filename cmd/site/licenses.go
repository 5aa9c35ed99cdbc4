package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// licenses returns the text of our licence and of those of all that is linked
// into the two programs: Go itself and the modules.
func licenses() ([]byte, error) {
	own, err := os.ReadFile("LICENSE")
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, "Cartwright\n\n%s", own)
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return nil, fmt.Errorf("go env GOROOT: %w", err)
	}
	dirs := []string{"Go\t" + strings.TrimSpace(string(root))}
	c := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}\t{{.Dir}}{{end}}{{end}}", "./wasm/...")
	c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	c.Stderr = os.Stderr
	list, err := c.Output()
	if err != nil {
		return nil, fmt.Errorf("go list ./wasm/...: %w", err)
	}
	modules := strings.Split(strings.TrimSpace(string(list)), "\n")
	slices.Sort(modules)
	dirs = append(dirs, slices.Compact(modules)...)
	for _, line := range dirs {
		name, dir, _ := strings.Cut(line, "\t")
		if name == "" {
			continue
		}
		files, _ := filepath.Glob(filepath.Join(dir, "LICENSE*"))
		if len(files) == 0 && name == "Go" { // some distributions move it
			files, _ = filepath.Glob("/usr/share/doc/golang*/copyright")
		}
		if len(files) == 0 {
			return nil, fmt.Errorf("%s has no licence file in %s", name, dir)
		}
		text, err := os.ReadFile(files[0])
		if err != nil {
			return nil, err
		}
		fmt.Fprintf(&b, "\n%s\n\n%s\n\n%s\n", strings.Repeat("-", 72), name, bytes.TrimSpace(text))
	}
	return b.Bytes(), nil
}
