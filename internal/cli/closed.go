//go:build !unix

package cli

// outlive does nothing here: a program does not end by itself where nobody reads
// its answer any more.
func outlive() (stop func()) { return func() {} }
