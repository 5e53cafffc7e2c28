// Package cli sets the output of the example programs in lines that fit a page
// and a terminal.
package cli

import (
	"bytes"
	"io"
	"os"
	"regexp"
	"strings"
)

// Width is the most characters of a line.
const Width = 78

// Run calls an example program's run with the arguments and streams of the
// process, its output set by Fit, and returns the exit status: 2 where the
// output cannot be written.
func Run(run func(args []string, stdout, stderr io.Writer) int) int {
	var out bytes.Buffer
	status := run(os.Args[1:], &out, os.Stderr)
	if _, err := io.WriteString(os.Stdout, Fit(out.String())); err != nil {
		return 2
	}
	return status
}

var (
	indent = regexp.MustCompile(`^ *`)
	item   = regexp.MustCompile(`^ *([-*>]|\d+\.) +`)
)

// Fit breaks lines that are longer than Width at the last space before it. What
// follows stands under the text of an item of a list, or two characters further
// in than the line. A line without such a space stays as it is.
func Fit(text string) string {
	var all strings.Builder
	for line := range strings.Lines(text) {
		hang := len(indent.FindString(line)) + 2
		if mark := item.FindString(line); mark != "" {
			hang = len(mark)
		}
		line, ended := strings.CutSuffix(line, "\n")
		rest := []rune(strings.TrimRight(line, " "))
		for len(rest) > Width {
			end := Width
			for end > hang && rest[end] != ' ' {
				end--
			}
			if end == hang { // nothing but the indent before it
				break
			}
			all.WriteString(strings.TrimRight(string(rest[:end]), " ") + "\n")
			rest = []rune(strings.Repeat(" ", hang) + strings.TrimLeft(string(rest[end:]), " "))
		}
		all.WriteString(string(rest))
		if ended {
			all.WriteByte('\n')
		}
	}
	return all.String()
}
