// Package pages makes books of what the packages of the library answer: one for
// each program, and the pages of the engine book. It states each number once, as
// a value with its sources, and judges nothing: what it says, a package said.
package pages
