// Package cutting works out what a cut asks for: the minutes, the metal removed,
// force, torque and power, the chip, and the finish that feed and nose leave at
// best.
//
// It is not a process planner. Times are cutting times, without setting up;
// forces come from constants that scatter by 30 % and more ([Scatter]), and are
// for asking whether a motor of so many watts will do it. Three sorts of source
// disagree, by 64 % for mild steel at 0.2 mm: [KienzleFor], [ForcesFor] and
// [UnitPowerFor] are three functions, never an average.
//
// Arguments out of range and materials without a figure are a
// [*units.ArgumentError]. Sources, checks and gaps: testdata/speeds/cutting/README.md.
package cutting
