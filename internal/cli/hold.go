//go:build !unix || solaris || aix

package cli

import (
	"errors"
	"io"
)

// hold holds a file while the program runs, where the system can.
func hold(string) (io.Closer, error) { return nil, errors.ErrUnsupported }
