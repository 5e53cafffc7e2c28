// Package kernel is the arithmetic of the slide valve: plain numbers in, plain
// numbers out, no units, no words and no allocation. Package eccentric and the
// packages under it share it, so that one judgement never stands in two places.
//
// Lengths are in picometres, angles in radians. A gear made of whole numbers of
// picometres loses nothing in the differences between its travel and its laps.
// The symbols and the conventions are those of package eccentric.
//
//	g := kernel.Gear{...}
//	if !g.Sound() { ... }
//	m := g.Motion()
//	var e kernel.Events
//	m.Events(&e)
//	v := g.Judge(&m, &e)
//
// Nothing here checks its argument but [Gear.Sound]: of a gear that is not sound
// the other answers mean nothing.
package kernel
