// Package kernel is the arithmetic of the slide valve: plain numbers in, plain
// numbers out, no units, no words and no allocation. Package eccentric and the
// packages under it share it, so that no judgement is made in two places.
//
// Lengths are in picometres, angles in radians. A gear made of whole numbers of
// picometres loses nothing in the differences between its travel and its laps.
// The symbols and the conventions are those of package eccentric.
//
//	var m kernel.Motion
//	var e kernel.Events
//	for _, g := range gears {
//		if !g.Sound() {
//			continue
//		}
//		m.Set(&g)                // what the formulas want
//		m.Events(&e)             // angles, leads and openings
//		v := g.Judge(&m, &e)     // v[kernel.LateSteam][kernel.Head] and so on
//	}
//
// Nothing here checks its argument but [Gear.Sound]: of a gear that is not sound
// the other answers mean nothing.
package kernel
