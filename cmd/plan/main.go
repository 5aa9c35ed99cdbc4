// Command plan is the planner without a screen: a project or a plain cut list
// goes in; parts, plan and findings come out.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
)

// Exit codes.
const (
	fine     = 0
	blocked  = 1 // findings that block
	badInput = 2
)

// options are what the command line says.
type options struct {
	json, cuts, csv string // files to write
	svg             string // folder to draw into
	tries           int
	seconds         float64
	seed            uint64
	seeded          bool // the seed was given
	list            cutlistOptions
	args            []string
}

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is main with its edges named, for tests.
func run(args []string, out, errOut io.Writer) int {
	var o options
	fs := flag.NewFlagSet("plan", flag.ContinueOnError)
	fs.SetOutput(errOut)
	fs.Usage = func() {
		fmt.Fprint(fs.Output(), usage)
		fs.PrintDefaults()
	}
	fs.StringVar(&o.json, "json", "", "write everything as JSON to `FILE`")
	fs.StringVar(&o.cuts, "cuts", "", "write the cut plan in the exchange form to `FILE`")
	fs.StringVar(&o.csv, "csv", "", "write the cut list as CSV to `FILE`")
	fs.StringVar(&o.svg, "svg", "", "draw the cart and each sheet as SVG files into folder `DIR`")
	fs.IntVar(&o.tries, "tries", 0, "stop the search after `N` tries (0: no limit but the time)")
	fs.Float64Var(&o.seconds, "seconds", 1, "search for at most `S` seconds (0: no limit but the tries)")
	fs.Uint64Var(&o.seed, "seed", 1, "`N` chooses the sequence of tries; equal seeds and tries give equal plans")
	o.list.register(fs)
	switch err := fs.Parse(args); {
	case err == flag.ErrHelp:
		return fine
	case err != nil:
		return badInput
	}
	o.args = fs.Args()
	fs.Visit(func(f *flag.Flag) { o.seeded = o.seeded || f.Name == "seed" })
	if o.list.parts != "" || o.list.stock != "" {
		return planCutlist(o, out, errOut)
	}
	return planProject(o, out, errOut)
}

const usage = `plan turns a project into parts, a shopping list, store cuts, shop cuts and
findings; or it lays a plain cut list out on sheets and boards.

  plan [flags] project.json
  plan -cutlist FILE.csv -stock FILE.csv [flags]

The cut list has the columns name,length,width,thickness,count,grain,material,
the stock list name,length,width,thickness,grain,price,count,material. Lengths
carry their unit: 34 1/2 in, 34.5 in, 876 mm. Grain is length, width or free.
An empty count in the stock list means as many as needed.

Exit code: 0 fine, 1 findings that block, 2 bad input.

`
