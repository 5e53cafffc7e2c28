//go:build unix && !solaris && !aix

package cli

import (
	"errors"
	"io"
	"os"
	"syscall"
)

// hold holds a file until it is closed or the program has ended in whatever way.
func hold(name string) (io.Closer, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	if err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); err != nil {
		_ = f.Close()
		if errors.Is(err, syscall.EWOULDBLOCK) {
			return nil, errHeld
		}
		return nil, err
	}
	return f, nil
}
