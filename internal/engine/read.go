package engine

import (
	"fmt"
	"io"
	"os"
)

// The bounds of a file. An engine has some hundred keys in a few kilobytes.
const (
	largestFile = 256 << 10 // bytes
	mostKeys    = 5000
	mostTables  = 500
	deepestKey  = 8   // names with points between them
	mostTold    = 100 // mistakes
)

const acceptedFile = "accepted: an engine file in TOML, a few kilobytes, such as demo/engine.toml"

// Read returns the text of a file. Only regular files are read: a pipe would
// keep the program waiting. Its errors say what was wanted.
func Read(name string) ([]byte, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, fmt.Errorf("%w; %s", err, acceptedFile)
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%q: not a regular file; %s", name, acceptedFile)
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("%w; %s", err, acceptedFile)
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, largestFile+1))
	if err != nil {
		return nil, fmt.Errorf("%w; %s", err, acceptedFile)
	}
	if len(text) > largestFile {
		return nil, fmt.Errorf("%q: larger than %d KiB; %s", name, largestFile>>10, acceptedFile)
	}
	return text, nil
}
