// Package speeds says how fast to turn the spindle, how far to feed, and what
// to mind, for an operation on a metal with a tool, on the speeds that a machine
// really has.
//
//	plan, err := speeds.Job{
//		Operation: speeds.Facing, Material: speeds.CastIronSkin, Diameter: units.MM(150),
//		Machine:   lathe,
//	}.Plan()
//
// [Recommend] gives the cutting speed with its source, [SpindleSpeed] the
// spindle speed, [Ladder.Choose] the step of the machine, [Feeds] the feed,
// [Job.Plan] all of it with findings. When the slowest step of a machine is too
// fast, or the work does not swing, the answer is a refusal with remedies and
// never the nearest number. Sub-packages: cutting works out time, force, power
// and finish; holding what must not spin faster; setting the geometry of tapers,
// vees, sine bars and rollers; dividing the dividing head and rotary table.
//
// It is not a guide to production: the figures are to start from on light
// machines. It knows nothing of coatings, of grades of carbide or of tool life.
//
// # Sources
//
// Cutting speeds, feeds and bench practice from US Navy and Army training
// manuals, a technical order, War Department TM 1-420 (1942), a university's
// tutorial sheets, a small lathe's handbook, drill and tap makers' lists and
// books of 1900 to 1914; the files in tables/ name work, edition and place of
// every row, whether it was read or is from memory, and what tool it was for.
// Figures for carbon steel and for the first high-speed steels stand beside the
// modern ones and never mix with them. Sources disagree by factors of two to
// three; all rows stay, and each pairing has one documented default.
//
// # Checked
//
// Every row against a second transcription, default ranges against the other
// sources for the same pairing, spindle speeds and geometry against printed
// worked examples and tables, with the misprints found on the way kept in
// testdata/errata.csv. From memory, and marked so where they are shown:
// knurling and die cutting, iron with its skin on, preferred numbers.
//
// # Caution
//
// Rotating work kills. Chuck key out, guard down, work bolted and balanced, no
// gloves or loose sleeves, never above the speed marked on a chuck. Local codes
// and licensed practice come before anything printed here.
package speeds
