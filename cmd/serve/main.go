// Command serve shows the built site on this machine.
//
//	go run ./cmd/serve                 # .site, on a free port from 8080 on
//	go run ./cmd/serve -dir FOLDER -addr 127.0.0.1:9000
//
// It reads the folder that command site has built. A release build carries
// the site inside instead (make dist: build tag embedsite); that cannot be the
// plain build, since a fresh clone has nothing to embed yet and must still
// compile.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"log"
	"net"
	"net/http"
	"os"
	"os/signal"
	"time"
)

func main() {
	log.SetFlags(0)
	log.SetPrefix("serve: ")
	dir := flag.String("dir", "", "folder to serve (default: the site built in, else .site)")
	addr := flag.String("addr", "127.0.0.1:8080", "address; if its port is taken, a free one is used")
	flag.Parse()
	if err := run(*dir, *addr); err != nil {
		log.Fatal(err)
	}
}

func run(dir, addr string) error {
	site, err := open(dir)
	if err != nil {
		return err
	}
	l, err := listen(addr)
	if err != nil {
		return err
	}
	srv := &http.Server{Handler: handler(site), ReadHeaderTimeout: 10 * time.Second}
	fmt.Printf("Cartwright is at %s\nStop with Ctrl-C.\n", address(l.Addr()))
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	go func() {
		<-ctx.Done()
		_ = srv.Close() // nothing is lost: files only
	}()
	if err := srv.Serve(l); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}

// open returns the site to serve: the folder that was named, or what is built
// in, or .site.
func open(dir string) (fs.FS, error) {
	if dir == "" {
		if built := builtIn(); built != nil {
			return built, nil
		}
		dir = ".site"
	}
	root, err := os.OpenRoot(dir) // keeps links from leading out of it
	if err != nil {
		return nil, fmt.Errorf("%w; build the site first: make site", err)
	}
	site := root.FS()
	if _, err := fs.Stat(site, "index.html"); err != nil {
		return nil, fmt.Errorf("%s holds no index.html; build the site first: make site", dir)
	}
	return site, nil
}

// listen listens on addr, or on a free port of the same host if that is taken.
func listen(addr string) (net.Listener, error) {
	l, err := net.Listen("tcp", addr)
	if err == nil {
		return l, nil
	}
	host, _, e := net.SplitHostPort(addr)
	if e != nil {
		return nil, err
	}
	return net.Listen("tcp", net.JoinHostPort(host, "0"))
}

// address returns the address to type into a browser. On the loopback it says
// localhost, where browsers allow service workers.
func address(a net.Addr) string {
	host, port, _ := net.SplitHostPort(a.String())
	if ip := net.ParseIP(host); ip != nil && (ip.IsLoopback() || ip.IsUnspecified()) {
		host = "localhost"
	}
	return "http://" + net.JoinHostPort(host, port) + "/"
}
