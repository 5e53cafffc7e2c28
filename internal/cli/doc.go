// Package cli is the frame of the example programs: flags and help, what is read
// and written, and how they end.
//
// A program ends with 0; with 1 where its book has something that will not work or
// can hurt somebody; and with 2, with nothing on standard output and one line for
// each mistake on standard error, where it was asked wrongly, cannot use what it was given, or
// cannot write. A signal that stops it ends it as the system has it, in the shell 130
// or 143. Files are written aside, put in their place, and only then the answer is
// printed: where any of that fails, or is stopped, all files are as they were.
//
// -h prints the help on standard output and ends with 0; -json prints the book for
// programs, and -html writes it to a file too, as a page, in place of one of our own
// pages but, without -force, of nothing else. Flags may stand behind the
// arguments; what stands behind -- is no flag.
package cli
