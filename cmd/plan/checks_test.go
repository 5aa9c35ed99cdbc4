package main

import (
	"html"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"cartwright/engine"
	"cartwright/engine/check"
	"cartwright/engine/nest"
	"cartwright/engine/page"
	"cartwright/engine/project"
)

var (
	drawn = regexp.MustCompile(`<span[^>]*aria-hidden="true"[^>]*>.*?</span>|<svg.*?</svg>`)
	tags  = regexp.MustCompile(`<[^>]*>`)
	space = regexp.MustCompile(`\s+`)
)

// same is a text in which the screen's words for a fraction ("14 and 5/8") and
// the terminal's ("14 5/8") are alike.
func same(s string) string {
	return strings.TrimSpace(space.ReplaceAllString(strings.ReplaceAll(" "+page.Plain(s), " and ", " "), " "))
}

// TestChecksAgree: for every starting point the terminal prints each number of
// the checks that the screen shows. The golden files hold the checks that hang
// on no cutting plan.
func TestChecksAgree(t *testing.T) {
	files, err := filepath.Glob("../../testdata/projects/*.json")
	if err != nil || len(files) != 7 {
		t.Fatalf("%d starting points, %v", len(files), err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		p, err := project.Open(data)
		if err != nil {
			t.Fatal(err)
		}
		r := engine.Design(p)
		var plan nest.Plan
		for found := range nest.Search(r.Job, nest.Options{Seed: 1, Tries: 20}) {
			if found.Plan != nil {
				plan = *found.Plan
			}
		}
		r = engine.Finish(p, r, plan)
		var out strings.Builder
		printProject(&out, p, r)
		_, printed, ok := strings.Cut(out.String(), "\nChecks\n")
		if !ok {
			t.Fatalf("%s: no checks are printed", file)
		}
		printed, _, _ = strings.Cut(printed, "\nFindings\n")
		screen := ""
		for _, x := range page.Panels(page.View{Project: p, Place: page.Check, Cart: r.Cart, Job: r.Job, Plan: r.Plan, Steps: r.Steps, Report: r.Report, Findings: r.Findings}) {
			if x.ID == "list" {
				screen = x.HTML
			}
		}
		screen = same(html.UnescapeString(tags.ReplaceAllString(drawn.ReplaceAllString(screen, ""), " ")))
		lines := same(printed)
		n := 0
		both := func(s string) {
			want := same(s)
			n++
			if !strings.Contains(lines, want) {
				t.Errorf("%s: not printed: %q", filepath.Base(file), want)
			}
			if !strings.Contains(strings.ReplaceAll(screen, " ", ""), strings.ReplaceAll(want, " ", "")) {
				t.Errorf("%s: not on the screen: %q", filepath.Base(file), want)
			}
		}
		for _, s := range r.Report.Sums {
			both(s.Title)
			both(s.Verdict)
			both(s.Source)
			rows := func(rows []check.SumRow) {
				for _, x := range rows {
					both(x.Cause)
					both(x.Factors)
					both(x.Result)
				}
			}
			rows(s.Rows)
			for _, x := range s.Subs {
				both(x.Title)
				both(x.Result)
				rows(x.Rows)
			}
			for _, m := range s.Mends {
				both(m.Text + ": " + m.Result)
			}
		}
		if n < 300 {
			t.Errorf("%s: only %d texts", file, n)
		}
		golden := filepath.Join("testdata", "checks-"+strings.TrimSuffix(filepath.Base(file), ".json")+".txt")
		r.Report.Sums = append([]check.Sum(nil), check.Run(p, r.Cart).Sums...)
		out.Reset()
		printProject(&out, p, r)
		_, printed, _ = strings.Cut(out.String(), "\nChecks\n")
		printed, _, _ = strings.Cut(printed, "\nFindings\n")
		if *update {
			if err := os.WriteFile(golden, []byte(printed), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		if was, err := os.ReadFile(golden); err != nil || string(was) != printed {
			t.Errorf("%s is not what is printed (%v): run make golden and read the difference", golden, err)
		}
	}
}
