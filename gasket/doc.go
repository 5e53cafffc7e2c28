// Package gasket works out hole patterns, whether two parts really go together,
// and the shape of the gasket between them.
package gasket
