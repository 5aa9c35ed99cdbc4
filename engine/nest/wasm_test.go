//go:build !js

package nest

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestSameBytesInWasm runs TestSameBytes as WebAssembly under node: it must
// find the same digests as the native program.
func TestSameBytesInWasm(t *testing.T) {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command("go", "test", "-count=1", "-run", "^TestSameBytes$", "-v",
		"-exec", filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "go_js_wasm_exec"), ".")
	c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	out, err := c.CombinedOutput()
	if err != nil || !strings.Contains(string(out), "--- PASS: TestSameBytes") {
		t.Errorf("%v\n%s", err, out)
	}
}
