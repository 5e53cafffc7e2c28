package engine

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
)

// The bounds of a file. An engine has some hundred keys in a few kilobytes.
const (
	largestFile = 256 << 10 // bytes
	mostKeys    = 5000
	mostTables  = 500
	deepestKey  = 8    // names with points between them
	longestText = 1000 // characters of a value
	mostTold    = 100  // mistakes
)

const acceptedFile = "accepted: an engine file in TOML, a few kilobytes, such as demo/engine.toml"

// Read returns the text of a file. Only regular files are read: a pipe would
// keep the program waiting. Its errors say what was wanted.
func Read(name string) ([]byte, error) {
	text, err := read(name)
	var path *fs.PathError
	if errors.As(err, &path) { // its text has the name as it is
		err = path.Err
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w; %s", shownName(name), err, acceptedFile)
	}
	return text, nil
}

func read(name string) ([]byte, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, errors.New("not a regular file")
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, largestFile+1))
	if err == nil && len(text) > largestFile {
		err = fmt.Errorf("larger than %d KiB", largestFile>>10)
	}
	return text, err
}
