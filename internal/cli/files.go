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

// A staged is files that lie in their folder under other names.
type staged struct {
	folder    string
	files     []File
	temporary []string // names; blank for one that has its own
	made      []string // folders, the innermost first
}

// stage writes files into a folder, which it makes where there is none, under
// other names, or leaves nothing behind. A file that is there is overwritten only
// when asked, and one that is a symbolic link, or no regular file, never.
func stage(folder string, files []File, overwrite bool) (*staged, error) {
	for _, f := range files {
		info, err := os.Lstat(filepath.Join(folder, f.Name))
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			return nil, badFolder(folder, err)
		case !info.Mode().IsRegular():
			return nil, fmt.Errorf("%s: not a regular file; accepted: another folder", f.Name)
		case !overwrite:
			return nil, fmt.Errorf("%s: there already; accepted: another folder, or -overwrite", f.Name)
		}
	}
	s := &staged{folder, files, make([]string, len(files)), missing(folder)}
	if err := os.MkdirAll(folder, 0o777); err != nil {
		return nil, errors.Join(badFolder(folder, err), s.back())
	}
	for i, f := range files {
		var err error
		if s.temporary[i], err = writeTemporary(folder, f); err != nil {
			return nil, errors.Join(err, s.back())
		}
	}
	return s, nil
}

// put leaves the files where they lie: over one that is there each goes at last.
func (s *staged) put() error { return nil }

// finish gives the files their names.
func (s *staged) finish() (told string, err error) {
	for i, f := range s.files {
		if err := os.Rename(s.temporary[i], filepath.Join(s.folder, f.Name)); err != nil {
			return "", errors.Join(err, s.back())
		}
		s.temporary[i] = ""
	}
	return "", nil
}

// back removes what was staged.
func (s *staged) back() error {
	var err error
	for _, name := range s.temporary {
		if name != "" {
			err = errors.Join(err, os.Remove(name))
		}
	}
	for _, name := range s.made {
		_ = os.Remove(name) // fails where there is something in it, which then stays
	}
	return err
}

// badFolder says of a folder, and not of the call that failed, what is wrong.
func badFolder(folder string, err error) error {
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

// writeTemporary writes a file under a name that no other has.
func writeTemporary(folder string, f File) (name string, err error) {
	t, err := os.CreateTemp(folder, "."+f.Name+".*")
	if err != nil {
		return "", badFolder(folder, err)
	}
	_, err = t.Write(f.Text)
	err = errors.Join(err, t.Chmod(0o644), t.Close())
	return t.Name(), err
}
