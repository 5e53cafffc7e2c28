//go:build unix

package cli

import (
	"os"
	"os/signal"
	"syscall"
)

// outlive makes a write to a pipe that nobody reads any more fail, which would end
// the program before it could clear up.
func outlive() (stop func()) {
	closed := make(chan os.Signal, 1)
	signal.Notify(closed, syscall.SIGPIPE)
	return func() { signal.Stop(closed) }
}

// stopping are the signals that ask a program to end, but for those that it was
// started to ignore, as nohup and a shell's background do it.
func stopping() []os.Signal {
	var all []os.Signal
	for _, s := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
		if !signal.Ignored(s) {
			all = append(all, s)
		}
	}
	return all
}

// bySignal is added to the number of a signal in the status that a shell tells.
const bySignal = 128

// statusOf is the exit status of a program that a signal has ended, as a shell tells it.
func statusOf(s os.Signal) int {
	number, _ := s.(syscall.Signal)
	return bySignal + int(number)
}

// end ends the program; where a signal has stopped it, by that signal, so that a
// shell's loop ends with it.
func end(status int) {
	if status > bySignal {
		s := syscall.Signal(status - bySignal)
		signal.Reset(s)
		_ = syscall.Kill(os.Getpid(), s)
	}
	os.Exit(status)
}
