package cli

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// A folder is a whole folder that is written as a draft beside its place and then
// put there. One that is there is replaced only where it was written in
// this way and is as it was left, or by force, and then it is kept beside.
type folder struct {
	name   string // as it was asked for
	place  string // where it goes
	draft  *draft // where it lies until then, and what it replaced afterwards
	force  bool
	made   []string  // folders that it lies in, the innermost first
	before standing  // what was in its place
	held   io.Closer // which is held from other programs meanwhile
	placed bool
}

// listName is the file of a folder that lists the others by their SHA-256, as
// sha256sum reads it, and listHead is its first line.
const (
	listName = "contents.sha256"
	listHead = "# A book of Valvechest: its files. It is replaced by a newer one only while they are as written."
)

// stageFolder writes a folder beside its place, or leaves nothing behind.
func stageFolder(name string, files []File, force bool, stopped func() error) (*folder, error) {
	d, err := placeOf(name, force)
	if err != nil {
		return nil, err
	}
	parent := filepath.Dir(d.place)
	d.made = missing(parent)
	if err = os.MkdirAll(parent, 0o777); err == nil {
		d.draft, err = newDraft(parent, filepath.Base(d.place), files, stopped)
	}
	if err != nil {
		return nil, errors.Join(badFolder(name, err), d.discard())
	}
	return d, nil
}

// placeOf returns a folder that is not written yet, and refuses a place that it may
// not have.
func placeOf(name string, force bool) (*folder, error) {
	place, err := filepath.Abs(name)
	d := &folder{name: name, place: place, force: force}
	if err == nil && hidden(filepath.Base(place)) {
		err = errors.New("a name as of a folder that is still being written; accepted: another")
	}
	if err == nil {
		d.before, err = look(place)
	}
	if err == nil {
		err = d.mayReplace()
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", Short(name), err)
	}
	return d, nil
}

// mayReplace refuses to replace what is not a book of ours, as it was written.
func (d *folder) mayReplace() error {
	if !d.before.there {
		return nil
	}
	if here, err := os.Getwd(); err == nil && within(here, d.place) {
		return errors.New("the folder that the program runs in is in it; accepted: a folder of its own, such as book")
	}
	if home, err := os.UserHomeDir(); err == nil && within(home, d.place) {
		return errors.New("a home folder is in it; accepted: a folder of its own, such as book")
	}
	if d.force || d.before.empty || len(d.before.foreign) == 0 {
		return nil
	}
	what := "there already, and not a book that was written here"
	if d.before.listed {
		what = "there already, with what is not as a book was written"
	}
	return fmt.Errorf("%s: %s; accepted: another folder, or -force, which keeps this one beside the new one", what,
		strings.Join(d.before.foreign, ", "))
}

// within reports whether one folder is another or lies in it.
func within(name, folder string) bool {
	outer, err := os.Stat(folder)
	if err != nil {
		return false
	}
	for {
		if info, err := os.Stat(name); err == nil && os.SameFile(info, outer) {
			return true
		}
		next := filepath.Dir(name)
		if next == name {
			return false
		}
		name = next
	}
}

// put puts the folder in its place; back takes it away again.
func (d *folder) put() error {
	var err error
	if d.before.there {
		d.held, _ = hold(filepath.Join(d.place, listName)) // one without a list no program removes
		err = swap(d.draft.folder, d.place)
	} else {
		err = renameNew(d.draft.folder, d.place)
	}
	if err != nil {
		return badFolder(d.name, err) // and back is called
	}
	d.placed = true
	return nil
}

// back leaves everything as it was.
func (d *folder) back() error {
	if d.placed {
		var err error
		if d.before.there {
			err = swap(d.draft.folder, d.place)
		} else {
			err = os.Rename(d.place, d.draft.folder)
		}
		if err != nil {
			return badFolder(d.name, err)
		}
		d.placed = false
	}
	return d.discard()
}

// finish removes the book that was replaced, and keeps what is none, which it tells.
func (d *folder) finish() (told []string) {
	defer d.release()
	if d.before.there {
		old, err := look(d.draft.folder) // again: somebody may have put a file there meanwhile
		if err == nil && len(old.foreign) == 0 {
			_ = old.remove(d.draft.folder) // what cannot be removed is kept, below
		}
		if _, gone := os.Lstat(d.draft.folder); !errors.Is(gone, fs.ErrNotExist) {
			kept, err := keep(d.draft.folder, d.place)
			if err != nil {
				kept = d.draft.folder
			}
			shown := filepath.Join(filepath.Dir(filepath.Clean(d.name)), filepath.Base(kept))
			told = append(told, fmt.Sprintf("what was in %s is now in %s", Short(d.name), Short(shown)))
		}
	}
	return append(told, leftovers(filepath.Dir(d.place))...)
}

// release lets other programs have the book.
func (d *folder) release() {
	if d.draft != nil {
		d.draft.release()
	}
	if d.held != nil {
		_ = d.held.Close()
	}
}

// discard removes what was written and the folders made for it.
func (d *folder) discard() error {
	var err error
	if d.draft != nil {
		err = d.draft.discard()
	}
	d.release()
	for _, name := range d.made {
		_ = os.Remove(name) // fails where there is something in it, which then stays
	}
	return err
}

// A standing is what lies in a place.
type standing struct {
	there   bool
	empty   bool
	listed  bool     // it has a list of ours
	files   []string // that are in the list and there, but for the list
	folders []string // that those lie in, the outermost first
	foreign []string // what is not as it was written, some of it, as it is shown
}

// mostForeign is how many names of what is foreign are told.
const mostForeign = 3

// look says what lies in a place. It follows no symbolic link.
func look(place string) (s standing, err error) {
	info, err := os.Lstat(place)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return s, nil
	case err != nil:
		return s, plain(err)
	case info.Mode()&fs.ModeSymlink != 0:
		return s, errors.New("a symbolic link, which is not followed; accepted: a folder by its own name")
	case !info.IsDir():
		return s, errors.New("a file is there; accepted: a folder")
	}
	s.there = true
	top, err := os.ReadDir(place)
	if err != nil {
		return s, plain(err)
	}
	s.empty = len(top) == 0
	sums, listed := readList(filepath.Join(place, listName))
	if s.listed = listed; !listed {
		for _, e := range top {
			s.add(e.Name(), "")
		}
		return s, nil
	}
	inList := map[string]bool{}
	for name := range sums {
		for ; name != "."; name = filepath.ToSlash(filepath.Dir(filepath.FromSlash(name))) {
			inList[name] = true
		}
	}
	err = filepath.WalkDir(place, func(name string, e fs.DirEntry, err error) error {
		inside, errRel := filepath.Rel(place, name)
		if err := errors.Join(err, errRel); err != nil {
			return err
		}
		inside = filepath.ToSlash(inside)
		sum, isFile := sums[inside]
		switch {
		case inside == ".", inside == beingWritten && e.Type().IsRegular():
		case len(s.foreign) > mostForeign:
			return fs.SkipAll
		case !inList[inside]:
			s.add(inside, "")
			if e.IsDir() {
				return fs.SkipDir
			}
		case e.IsDir() && !isFile:
			s.folders = append(s.folders, inside)
		case !e.Type().IsRegular() || !isFile:
			s.add(inside, " (not a file)")
		case inside != listName && sumOf(name) != sum:
			s.add(inside, " (changed)")
		case inside != listName:
			s.files = append(s.files, inside)
		}
		return nil
	})
	return s, plain(err)
}

func (s *standing) add(name, why string) {
	switch {
	case len(s.foreign) < mostForeign:
		s.foreign = append(s.foreign, Short(name)+why)
	case len(s.foreign) == mostForeign:
		s.foreign = append(s.foreign, "and more")
	}
}

// remove removes the files of a book and the folders that are then empty: nothing
// that came there in the meantime. The list goes at last, so that what a killed
// program leaves can be told.
func (s *standing) remove(place string) error {
	names := append(slices.Clone(s.files), beingWritten)
	slices.Reverse(s.folders)
	var all []error
	for _, name := range append(append(names, s.folders...), listName, ".") {
		err := os.Remove(filepath.Join(place, filepath.FromSlash(name)))
		if !errors.Is(err, fs.ErrNotExist) {
			all = append(all, err)
		}
	}
	return errors.Join(all...)
}

// list is the list of the files of a folder.
func list(files []File) []byte {
	var b bytes.Buffer
	fmt.Fprintln(&b, listHead)
	for _, f := range files {
		fmt.Fprintf(&b, "%x  %s\n", sha256.Sum256(f.Text), f.Name)
	}
	return b.Bytes()
}

// largestList is the most bytes of a list that is read.
const largestList = 1 << 20

// readList returns the sums of the files of a list, itself without one, and
// whether it is a list of ours.
func readList(name string) (sums map[string]string, ok bool) {
	info, err := os.Lstat(name)
	if err != nil || !info.Mode().IsRegular() {
		return nil, false
	}
	text, err := readFile(name, largestList)
	if err != nil {
		return nil, false
	}
	lines := bufio.NewScanner(bytes.NewReader(text))
	if !lines.Scan() || lines.Text() != listHead {
		return nil, false
	}
	sums = map[string]string{listName: ""}
	for lines.Scan() {
		sum, file, found := strings.Cut(lines.Text(), "  ")
		if !found || !filepath.IsLocal(filepath.FromSlash(file)) {
			return nil, false
		}
		sums[file] = sum
	}
	return sums, lines.Err() == nil
}

// sumOf returns the SHA-256 of a file; blank where it cannot be read, which no file
// of a list has.
func sumOf(name string) string {
	text, err := os.ReadFile(name)
	if err != nil {
		return ""
	}
	return fmt.Sprintf("%x", sha256.Sum256(text))
}

// plain returns an error without the path that a call failed on.
func plain(err error) error {
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &path):
		return path.Err
	case errors.As(err, &link):
		return link.Err
	}
	return err
}
