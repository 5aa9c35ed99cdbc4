package main

import (
	"bytes"
	"cmp"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/andybalholm/brotli"
)

// A pack holds the compressed forms of a file, nil where they save nothing.
type pack struct{ br, gz []byte }

// A compressor remembers what it compressed in a folder, by content, since the
// best quality takes half a minute for the canvas program.
type compressor struct {
	dir     string
	quality int // of brotli, 0 to 11
}

// packAll compresses all files, two at a time.
func (c compressor) packAll(site map[string][]byte) (map[string]pack, error) {
	var (
		mu    sync.Mutex
		wg    sync.WaitGroup
		out   = map[string]pack{}
		first error
		slots = make(chan struct{}, 2)
	)
	names := slices.Sorted(maps.Keys(site))
	slices.SortStableFunc(names, func(a, b string) int { return cmp.Compare(len(site[b]), len(site[a])) })
	for _, name := range names {
		if path.Ext(name) == ".png" || path.Ext(name) == ".woff2" {
			continue
		}
		slots <- struct{}{}
		wg.Go(func() {
			defer func() { <-slots }()
			p, err := c.pack(site[name])
			mu.Lock()
			defer mu.Unlock()
			out[name], first = p, cmp.Or(first, err)
		})
	}
	wg.Wait()
	return out, first
}

func (c compressor) pack(data []byte) (pack, error) {
	br, err := c.brotli(data)
	if err != nil {
		return pack{}, err
	}
	gz, err := c.gzip(data)
	if err != nil {
		return pack{}, err
	}
	p := pack{br, gz}
	if len(br) >= len(data) {
		p.br = nil
	}
	if len(gz) >= len(data) {
		p.gz = nil
	}
	return p, nil
}

func (c compressor) brotli(data []byte) ([]byte, error) {
	return c.cached(data, fmt.Sprintf("q%d.br", c.quality), func(b *bytes.Buffer) error {
		w := brotli.NewWriterOptions(b, brotli.WriterOptions{Quality: c.quality, LGWin: 24})
		if _, err := w.Write(data); err != nil {
			return err
		}
		return w.Close()
	})
}

func (c compressor) gzip(data []byte) ([]byte, error) {
	level := gzip.BestCompression
	if c.quality < 9 {
		level = 5
	}
	return c.cached(data, fmt.Sprintf("l%d.gz", level), func(b *bytes.Buffer) error {
		w, err := gzip.NewWriterLevel(b, level)
		if err != nil {
			return err
		}
		if _, err := w.Write(data); err != nil {
			return err
		}
		return w.Close()
	})
}

// cached returns the stored result for data under the given kind, or makes and
// stores it.
func (c compressor) cached(data []byte, kind string, make func(*bytes.Buffer) error) ([]byte, error) {
	sum := sha256.Sum256(data)
	file := filepath.Join(c.dir, hex.EncodeToString(sum[:16])+"."+kind)
	if b, err := os.ReadFile(file); err == nil {
		now := time.Now()
		return b, os.Chtimes(file, now, now)
	}
	var b bytes.Buffer
	if err := make(&b); err != nil {
		return nil, err
	}
	if err := os.MkdirAll(c.dir, 0o777); err != nil {
		return nil, err
	}
	// Written under another name first: two builds may run at once.
	tmp, err := os.CreateTemp(c.dir, "new-")
	if err != nil {
		return nil, err
	}
	_, err = tmp.Write(b.Bytes())
	if err = cmp.Or(err, tmp.Close()); err == nil {
		err = os.Rename(tmp.Name(), file)
	}
	return b.Bytes(), err
}

// prune forgets what has not been used for the longest time.
func (c compressor) prune() error {
	const keep = 200
	entries, err := os.ReadDir(c.dir)
	if err != nil || len(entries) <= keep {
		return err
	}
	age := func(e os.DirEntry) int64 {
		if info, err := e.Info(); err == nil {
			return info.ModTime().UnixNano()
		}
		return 0
	}
	slices.SortFunc(entries, func(a, b os.DirEntry) int { return cmp.Compare(age(b), age(a)) })
	for _, e := range entries[keep:] {
		if err := os.Remove(filepath.Join(c.dir, e.Name())); err != nil {
			return err
		}
	}
	return nil
}

// table lists the files with their sizes.
func table(site map[string][]byte, packed map[string]pack) string {
	var b strings.Builder
	var raw, br int
	fmt.Fprintf(&b, "%-36s %10s %10s %10s\n", "file", "bytes", "gzip", "brotli")
	for _, name := range slices.Sorted(maps.Keys(site)) {
		p, n := packed[name], len(site[name])
		least := n
		if p.br != nil {
			least = len(p.br)
		}
		fmt.Fprintf(&b, "%-36s %10d %10s %10s\n", name, n, size(p.gz), size(p.br))
		raw, br = raw+n, br+least
	}
	fmt.Fprintf(&b, "%-36s %10d %10s %10d\n", "all", raw, "", br)
	return b.String()
}

func size(b []byte) string {
	if b == nil {
		return "–"
	}
	return fmt.Sprint(len(b))
}
