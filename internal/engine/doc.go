// Package engine reads engine files: TOML in which every key, its kind and its
// place are known. It is strict and finds all mistakes of a file in one run, each
// with file, line and column; time and memory go with the length of the file.
//
// A program gives [Decode] a struct with toml tags, one level of tables deep:
// fields are tables, lists of tables and values; values are numbers, text, or
// types that read text. A nil pointer is a key that is not there.
package engine
