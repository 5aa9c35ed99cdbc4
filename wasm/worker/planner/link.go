package planner

import (
	"bytes"
	"compress/flate"
	"encoding/base64"
	"errors"
	"io"
	"strings"

	"cartwright/engine/project"
)

// A share link is the digit 1, then the project file without its spaces,
// deflated, in the base64 of RFC 4648 §5 without padding. It stands behind the
// # of the address, so that it never leaves the device.
const (
	linkVersion = "1"
	// mostLink is the longest fragment read, mostLinked the largest project
	// that may come out of one: a short link can inflate to gigabytes.
	mostLink   = 512 << 10
	mostLinked = 2 << 20
)

// EncodeLink returns the fragment of the share link of p: everything but the
// journal, which belongs to the wood in one shop.
func EncodeLink(p *project.Project) (string, error) {
	c := p.Clone()
	c.Journal = nil
	small := project.Save(c)
	if len(small) > mostLinked {
		return "", errors.New("This project is too large for a link. Send the file instead.")
	}
	var b bytes.Buffer
	b.WriteString(linkVersion)
	e := base64.NewEncoder(base64.RawURLEncoding, &b)
	z, _ := flate.NewWriter(e, flate.BestCompression)
	z.Write(compact(small))
	z.Close()
	e.Close()
	return b.String(), nil
}

var errLink = errors.New("This link is damaged: part of it is missing. Ask for it again, or for the file.")

// DecodeLink opens the project of a link's fragment, with or without its #.
// Errors are sentences.
func DecodeLink(fragment string) (*project.Project, error) {
	text, ok := strings.CutPrefix(strings.TrimPrefix(fragment, "#"), linkVersion)
	switch {
	case len(text) > mostLink:
		return nil, errors.New("This link is longer than a link can be. Nothing was opened.")
	case !ok && fragment != "" && fragment[0] >= '2' && fragment[0] <= '9':
		return nil, errors.New("This link was made by a newer version of this program. Reload the page, or ask for the file.")
	case !ok:
		return nil, errLink
	}
	z := flate.NewReader(base64.NewDecoder(base64.RawURLEncoding, strings.NewReader(text)))
	file, err := io.ReadAll(io.LimitReader(z, mostLinked+1))
	switch {
	case len(file) > mostLinked:
		return nil, errors.New("This link holds more than a project can be. Nothing was opened.")
	case err != nil:
		return nil, errLink
	}
	return project.Open(file)
}
