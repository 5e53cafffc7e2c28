// Package engine reads engine files: TOML in which every key, its kind and its
// place are known. It is strict and finds all mistakes of a file in one run, each
// with file, line and column; time and memory go with the length of the file.
//
// [Parse] reads a file into an [Engine]. The methods that validate one table say
// what it lacks and what does not go together in it, [Engine.Cross] what
// contradicts another table, and [Document.Errorf] gives what a package of the
// library refuses its place in the file. [Join] puts all of that in order. How it
// works, its limits and what is compared are told in
// testdata/internal/engine/README.md, what a file may hold in the demonstration
// file of examples/enginebook.
//
// [Decode] is the reader alone, for any struct with toml tags, one level of tables
// deep: fields are tables, lists of tables and values; values are numbers, text, or
// types that read text. A nil pointer is a key that is not there.
package engine
