// Package dividing says how to turn the crank of a dividing head or rotary table
// to space n teeth, holes or flats: whole turns and spaces on a circle of the
// plates that are there, and what to do when n cannot be had.
//
// It covers plain indexing and indexing by angle. Left out are differential and
// compound indexing, which want change gears or two index pins, and the
// coordinates of holes, which package gasket has.
//
// Checked against worked examples of US Army OD1644 and a US Navy manual, and
// for every number of divisions that a two-sided plate was read for. The circles
// of the three-plate set are from memory.
package dividing
