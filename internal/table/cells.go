package table

import (
	"iter"
	"strings"
)

// lines yields the lines of the file by their number, from 1, without their ends.
func (f *file) lines() iter.Seq2[int, string] {
	return func(yield func(int, string) bool) {
		n := 0
		for line := range strings.Lines(f.text) {
			if n++; !yield(n, strings.TrimRight(line, "\r\n")) {
				return
			}
		}
	}
}

// rows yields the cells of the lines that are neither blank nor a comment. The
// slice is used again for the next line; the texts are parts of the file's.
func (f *file) rows() iter.Seq2[int, []string] {
	return func(yield func(int, []string) bool) {
		var cells []string
		for n, line := range f.lines() {
			if line == "" || line[0] == '#' {
				continue
			}
			var ok bool
			if cells, ok = split(cells[:0], line); !ok {
				f.complain(n, `a quote that does not go round a whole cell, or is not closed`)
				continue
			}
			if !yield(n, cells) {
				return
			}
		}
	}
}

// split appends the cells of a line, with the quotes taken off those that have a
// comma in them. It reports false where the quotes are not right.
func split(cells []string, line string) ([]string, bool) {
	for {
		cell, rest, more := strings.Cut(line, ",")
		if strings.HasPrefix(line, `"`) {
			var ok bool
			if cell, rest, more, ok = unquote(line[1:]); !ok {
				return cells, false
			}
		} else if strings.Contains(cell, `"`) {
			return cells, false
		}
		cells = append(cells, strings.TrimSpace(cell))
		if !more {
			return cells, true
		}
		line = rest
	}
}

// unquote returns the cell that a quote has opened, in which two quotes stand
// for one, and what follows the comma behind it.
func unquote(text string) (cell, rest string, more, ok bool) {
	end := 0
	doubled := false
	for {
		i := strings.IndexByte(text[end:], '"')
		if i < 0 {
			return "", "", false, false
		}
		end += i
		if !strings.HasPrefix(text[end+1:], `"`) {
			break
		}
		doubled = true
		end += 2
	}
	cell, rest = text[:end], text[end+1:]
	if doubled {
		cell = strings.ReplaceAll(cell, `""`, `"`)
	}
	if rest == "" {
		return cell, "", false, true
	}
	rest, ok = strings.CutPrefix(rest, ",")
	return cell, rest, true, ok
}
