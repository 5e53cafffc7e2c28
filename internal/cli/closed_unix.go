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
