package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
)

// A draft is files that lie ready in a hidden folder of their own, with the list of
// them. It is held while the program runs, so that another can tell it from what a
// killed one has left.
type draft struct {
	folder string
	hold   io.Closer
}

// beingWritten is the name of a file of a draft until it is whole.
const beingWritten = ".being-written"

// newDraft writes files into a hidden folder in a folder that is there, or leaves
// nothing behind. The hidden one is called after what it is for.
func newDraft(parent, like string, files []File, stopped func() error) (*draft, error) {
	name, err := newName(parent, like)
	if err != nil {
		return nil, err
	}
	if err := os.Mkdir(name, 0o777); err != nil {
		return nil, err
	}
	d := &draft{folder: name}
	// The list is first, and held before it says anything.
	at := filepath.Join(name, listName)
	if err := os.WriteFile(at, nil, 0o666); err != nil {
		return nil, errors.Join(err, d.discard())
	}
	d.hold, _ = hold(at) // where none can be had, what is left is told and not removed
	if err := os.WriteFile(at, list(files), 0o666); err != nil {
		return nil, errors.Join(err, d.discard())
	}
	for _, f := range files {
		if err := stopped(); err != nil {
			return nil, errors.Join(err, d.discard())
		}
		if err := d.write(f); err != nil {
			return nil, errors.Join(err, d.discard())
		}
	}
	return d, nil
}

// write writes a file whole, and the folders that it lies in.
func (d *draft) write(f File) error {
	part, name := filepath.Join(d.folder, beingWritten), d.at(f)
	if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
		return err
	}
	if err := os.WriteFile(part, f.Text, 0o666); err != nil {
		return err
	}
	return os.Rename(part, name)
}

// at is the name of a file of the draft.
func (d *draft) at(f File) string { return filepath.Join(d.folder, filepath.FromSlash(f.Name)) }

// discard removes the draft with all that is in it.
func (d *draft) discard() error {
	d.release()
	return os.RemoveAll(d.folder)
}

func (d *draft) release() {
	if d.hold != nil {
		_ = d.hold.Close()
		d.hold = nil
	}
}

// hidden reports whether a name has the form of those of drafts, as [newName] makes
// them.
func hidden(name string) bool {
	dot := strings.LastIndexByte(name, '.')
	return dot > 0 && name[0] == '.' && len(name)-dot == 9 && strings.Trim(name[dot+1:], "0123456789abcdef") == ""
}

// newName returns a hidden name in a folder that nothing has.
func newName(folder, like string) (string, error) {
	const most = 60 // bytes of it: a file system has a longest name
	like = "." + like[:min(len(like), most)]
	for range 100 {
		name := filepath.Join(folder, fmt.Sprintf("%s.%08x", like, rand.Uint32()))
		if _, err := os.Lstat(name); errors.Is(err, fs.ErrNotExist) {
			return name, nil
		} else if err != nil {
			return "", err
		}
	}
	return "", errors.New("no name is free in it")
}

// exchange swaps two names in one step, so that there is no moment without either;
// where the system cannot it is errors.ErrUnsupported.
var exchange = inOneStep

// swap exchanges two names of one file system that are both there.
func swap(a, b string) error {
	if err := exchange(a, b); !errors.Is(err, errors.ErrUnsupported) {
		return err
	}
	aside, err := newName(filepath.Dir(a), filepath.Base(a))
	if err != nil {
		return err
	}
	if err := os.Rename(b, aside); err != nil {
		return err
	}
	if err := os.Rename(a, b); err != nil {
		return errors.Join(err, os.Rename(aside, b))
	}
	return os.Rename(aside, a)
}

// sweep removes the drafts that killed programs have left in a folder, and returns
// the names of those that it leaves: with something in them that is not as it was
// written, or where it cannot be told whether a program is still at work.
func sweep(folder string) (left []string) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil // nothing can be told of it
	}
	for _, e := range entries {
		name := filepath.Join(folder, e.Name())
		if !e.IsDir() || !hidden(e.Name()) {
			continue
		}
		if _, ours := readList(filepath.Join(name, listName)); !ours {
			continue
		}
		held, err := hold(filepath.Join(name, listName))
		if errors.Is(err, errHeld) {
			continue // another program writes it now
		}
		if err == nil {
			if s, err := look(name); err == nil && len(s.foreign) == 0 {
				_ = s.remove(name) // what cannot be removed is told, below
			}
			_ = held.Close()
		}
		if _, err := os.Lstat(name); err == nil {
			left = append(left, name)
		}
	}
	return left
}

// errHeld is why a list cannot be held: a program has it.
var errHeld = errors.New("held by another program")
