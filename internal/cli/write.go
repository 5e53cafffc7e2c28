package cli

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
)

// A pending is something written that lies ready beside its place. It is put there
// before the answer is printed, and finished afterwards; where anything fails before
// that, back leaves all as it was.
type pending interface {
	put() error
	back() error
	finish() (told []string)
}

// An interruption is a signal that has stopped the program.
type interruption struct{ signal os.Signal }

func (i *interruption) Error() string {
	return fmt.Sprintf("stopped (%v), and no file written", i.signal)
}

// write writes all that is asked for in files, puts it in its place, and then prints
// the answer. It does all of that, or leaves all files as they were.
func (f *Flags) write(answer io.WriterTo, stdout io.Writer) error {
	if !f.Wanted() && len(f.outputs) == 0 {
		return printed(answer, stdout)
	}
	signals := make(chan os.Signal, 1)
	if stops := stopping(); len(stops) > 0 {
		signal.Notify(signals, stops...)
		defer signal.Stop(signals)
	}
	defer outlive()()
	stopped := func() error {
		select {
		case s := <-signals:
			return &interruption{s}
		default:
			return nil
		}
	}
	var all []pending
	var flags []string
	undo := func(err error) error {
		for _, p := range slices.Backward(all) {
			err = errors.Join(err, p.back())
		}
		return err
	}
	for _, o := range f.outputs {
		p, err := stage(o, f.force, stopped)
		if err != nil {
			return undo(Named(o.flag, err))
		}
		all, flags = append(all, p), append(flags, o.flag)
	}
	if f.Wanted() {
		p, err := stageFolder(f.folder, f.files, f.force, stopped)
		if err != nil {
			return undo(Named("-o", err))
		}
		all, flags = append(all, p), append(flags, "-o")
	}
	for i, p := range all {
		if err := p.put(); err != nil {
			return undo(Named(flags[i], err))
		}
	}
	if err := stopped(); err != nil {
		return undo(err)
	}
	// A pipe that is not read on keeps the answer waiting, and a signal still counts.
	done := make(chan error, 1)
	go func() { done <- printed(answer, stdout) }()
	select {
	case s := <-signals:
		return undo(&interruption{s})
	case err := <-done:
		if err != nil {
			return undo(err)
		}
	}
	for _, p := range all {
		for _, text := range p.finish() {
			f.say(text)
		}
	}
	return nil
}

func printed(answer io.WriterTo, stdout io.Writer) error {
	if _, err := answer.WriteTo(stdout); err != nil {
		return fmt.Errorf("the answer cannot be written: %w", err)
	}
	return nil
}

// apart refuses a page that would lie in a folder which is written whole.
func apart(page, folder string) error {
	at, errAt := filepath.Abs(page)
	place, errPlace := filepath.Abs(folder)
	if err := errors.Join(errAt, errPlace); err != nil {
		return plain(err)
	}
	if inside, err := filepath.Rel(place, at); err == nil && filepath.IsLocal(inside) {
		return fmt.Errorf("%s: in the folder of -o, which has the page as book.html; accepted: another place", Short(page))
	}
	return nil
}
