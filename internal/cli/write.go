package cli

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
)

// A pending is something written that lies ready beside its place. It is put
// there before the answer is printed and finished afterwards; where anything fails
// before that, back leaves all as it was.
type pending interface {
	put() error
	back() error
	finish() (told string, err error)
}

// write writes all that is asked for in files, and prints the answer. It does all
// of that, or leaves everything as it was.
func (f *Flags) write(answer io.WriterTo, stdout io.Writer) error {
	signals := make(chan os.Signal, 1)
	if f.files != nil { // a long part: an interruption leaves nothing behind either
		signal.Notify(signals, os.Interrupt, syscall.SIGTERM)
		defer signal.Stop(signals)
	}
	if f.files != nil || len(f.outputs) > 0 {
		defer outlive()()
	}
	stopped := func() error {
		select {
		case s := <-signals:
			return fmt.Errorf("stopped (%v), and nothing written", s)
		default:
			return nil
		}
	}
	var all []pending
	var flags []string
	undo := func(err error) error {
		for _, p := range all {
			err = errors.Join(err, p.back())
		}
		return err
	}
	add := func(flag string, p pending, err error) error {
		if err != nil {
			return undo(Named(flag, err))
		}
		all, flags = append(all, p), append(flags, flag)
		return nil
	}
	for _, o := range f.outputs {
		p, err := stage(o.folder, o.files, o.overwrite)
		if err := add(o.flag, p, err); err != nil {
			return err
		}
	}
	if f.files != nil {
		p, err := stageFolder(f.folder, f.files, f.force, stopped)
		if err := add("-o", p, err); err != nil {
			return err
		}
	}
	for i, p := range all {
		if err := p.put(); err != nil {
			return undo(Named(flags[i], err))
		}
	}
	if _, err := answer.WriteTo(stdout); err != nil {
		return undo(fmt.Errorf("the answer cannot be written: %w", err))
	}
	var failed error
	for i, p := range all { // each, whatever became of the others
		told, err := p.finish()
		failed = errors.Join(failed, Named(flags[i], err))
		if told != "" {
			f.say(told)
		}
	}
	return failed
}
