// Package dividing says how to turn the crank of a dividing head or rotary table
// to space n teeth, holes or flats: whole turns and spaces on a circle of the
// plates that are there, and what to do when n cannot be had.
//
// It covers plain indexing and indexing by angle. Left out are differential and
// compound indexing, which want change gears or two index pins and for which no
// worked example could be read to check them by, and the coordinates of holes,
// which package gasket has.
//
// Checked against worked examples of US Army OD1644, a US Navy manual, a treatise
// on milling and Machinery's Handbook (1916), and for every number of divisions
// that a two-sided plate was read for.
package dividing
