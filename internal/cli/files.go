package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/valvechest/valvechest/internal/fault"
)

// Short returns the name of a file as a program shows it: of a long one the end,
// with each character that does not print as an escape.
func Short(name string) string { return fault.FileName(name) }

// ReadFile returns the text of a file of at most so many bytes. Only regular files
// are read: a pipe would keep the program waiting.
func ReadFile(name string, most int64) ([]byte, error) {
	text, err := readFile(name, most)
	var path *fs.PathError
	if errors.As(err, &path) { // its text has the name as it is
		err = path.Err
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", Short(name), err)
	}
	return text, nil
}

func readFile(name string, most int64) ([]byte, error) {
	info, err := os.Stat(name)
	switch {
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, errors.New("not a regular file")
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, most+1))
	if err == nil && int64(len(text)) > most {
		err = fmt.Errorf("larger than %s", size(most))
	}
	return text, err
}

func size(bytes int64) string {
	if bytes%1024 == 0 {
		return fmt.Sprintf("%d KiB", bytes/1024)
	}
	return fmt.Sprintf("%d bytes", bytes)
}

// A File is one file to be written.
type File struct {
	Name  string
	Text  []byte
	About string // what it is, in a few words; blank: not told
}

// A staged is files that lie ready in a hidden folder of the folder that they go to.
type staged struct {
	folder string
	files  []File
	draft  *draft
	kept   bool     // what is replaced is kept beside
	made   []string // folders, the innermost first
	done   int      // how many have been put in their place
	old    []bool   // those that replace a file, which then lies in the draft
}

// stage writes files into a hidden folder of the one that they go to, which it makes
// where there is none, or leaves nothing behind. A file that is there is replaced only
// where the output may, or by force; one that is a symbolic link, or no regular file,
// never.
func stage(o *output, force bool, stopped func() error) (*staged, error) {
	s := &staged{folder: o.folder, files: o.files, old: make([]bool, len(o.files))}
	for i, f := range o.files {
		name := s.at(f)
		info, err := os.Lstat(name)
		s.old[i] = err == nil
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			return nil, badFolder(o.folder, err)
		case !info.Mode().IsRegular():
			return nil, fmt.Errorf("%s: not a regular file; accepted: %s", Short(f.Name), o.instead)
		case o.mayReplace(name):
		case !force:
			return nil, fmt.Errorf("%s: %s; accepted: %s, or -force, which keeps it beside the new one", Short(f.Name), o.refused, o.instead)
		default:
			s.kept = true
		}
	}
	s.made = missing(o.folder)
	err := os.MkdirAll(o.folder, 0o777)
	if err == nil && len(o.files) > 0 {
		s.draft, err = newDraft(o.folder, filepath.Base(o.files[0].Name), o.files, stopped)
	}
	if err != nil {
		return nil, errors.Join(badFolder(o.folder, err), s.back())
	}
	return s, nil
}

// at is the place of a file.
func (s *staged) at(f File) string { return filepath.Join(s.folder, f.Name) }

// put gives the files their names; where that fails, back is called.
func (s *staged) put() error {
	for i, f := range s.files {
		var err error
		if s.old[i] {
			err = swap(s.draft.at(f), s.at(f))
		} else {
			err = renameNew(s.draft.at(f), s.at(f))
		}
		if err != nil {
			return badFolder(s.folder, err)
		}
		s.done++
	}
	return nil
}

// renameNew gives a file or a folder a name that nothing has.
func renameNew(name, to string) error {
	if _, err := os.Lstat(to); !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s was written meanwhile", Short(filepath.Base(to)))
	}
	return os.Rename(name, to)
}

// back leaves everything as it was.
func (s *staged) back() error {
	var err error
	for ; s.done > 0; s.done-- {
		i := s.done - 1
		f := s.files[i]
		if s.old[i] {
			err = errors.Join(err, swap(s.draft.at(f), s.at(f)))
		} else {
			err = errors.Join(err, os.Remove(s.at(f)))
		}
	}
	if s.draft != nil && err == nil { // else what was there before may lie in it
		err = s.draft.discard()
	}
	for _, name := range s.made {
		_ = os.Remove(name) // fails where there is something in it, which then stays
	}
	return err
}

// finish removes what was replaced, or keeps it beside, which it tells.
func (s *staged) finish() (told []string) {
	if s.draft == nil {
		return nil
	}
	var kept error
	for i, f := range s.files {
		if !s.old[i] || !s.kept {
			continue
		}
		name, err := keep(s.draft.at(f), s.at(f))
		if err != nil {
			kept = err
			continue
		}
		told = append(told, fmt.Sprintf("what was in %s is now in %s", Short(s.at(f)), Short(name)))
	}
	if kept == nil {
		kept = s.draft.discard()
	}
	if kept != nil {
		s.draft.release()
		told = append(told, fmt.Sprintf("what was there before is now in %s", Short(s.draft.folder)))
	}
	return append(told, leftovers(s.folder)...)
}

// keep gives what was replaced a name beside what replaced it.
func keep(name, place string) (kept string, err error) {
	for i := 1; i < 1000; i++ {
		kept = fmt.Sprintf("%s.kept-%d", place, i)
		if _, there := os.Lstat(kept); errors.Is(there, fs.ErrNotExist) {
			return kept, os.Rename(name, kept)
		}
	}
	return "", errors.New("no name is free")
}

// leftovers clears a folder of what killed programs left in it, and tells what it
// could not clear.
func leftovers(folder string) (told []string) {
	for _, name := range sweep(folder) {
		told = append(told, fmt.Sprintf("%s: left by a program that was stopped, or still being written; not removed", Short(name)))
	}
	return told
}

// badFolder says of a folder, and not of the call that failed, what is wrong.
func badFolder(folder string, err error) error {
	if by := (*interruption)(nil); errors.As(err, &by) {
		return err
	}
	return fmt.Errorf("%s: %w; accepted: a folder that can be written to", Short(folder), plain(err))
}

// missing returns those of a folder and of the folders that it lies in that are
// not there, the innermost first.
func missing(folder string) []string {
	var all []string
	for name := filepath.Clean(folder); ; name = filepath.Dir(name) {
		if _, err := os.Lstat(name); !errors.Is(err, fs.ErrNotExist) {
			return all
		}
		all = append(all, name)
	}
}
