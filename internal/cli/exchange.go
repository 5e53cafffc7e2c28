//go:build !linux

package cli

import "errors"

// inOneStep swaps two names in one step, where the system can.
func inOneStep(string, string) error { return errors.ErrUnsupported }
