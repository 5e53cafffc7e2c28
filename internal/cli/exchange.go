//go:build !linux

package cli

import "errors"

// exchange swaps two names in one step, where the system can.
func exchange(string, string) error { return errors.ErrUnsupported }
