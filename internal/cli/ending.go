//go:build !unix

package cli

import "os"

// outlive does nothing here: a program does not end by itself where nobody reads
// its answer any more.
func outlive() (stop func()) { return func() {} }

// stopping are the signals that ask a program to end.
func stopping() []os.Signal { return []os.Signal{os.Interrupt} }

// statusOf is the exit status of a program that a signal has ended.
func statusOf(os.Signal) int { return 130 }

// end ends the program.
func end(status int) { os.Exit(status) }
