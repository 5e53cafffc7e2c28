// Package cutting works out what a cut asks for: the minutes, the metal removed,
// force, torque and power, the chip, and the finish that feed and nose leave at
// best.
//
// It is not a process planner. Times are cutting times, without setting up;
// forces come from constants that scatter by 30 % and more, and are for asking
// whether a motor of so many watts will do it, not for sizing a machine.
//
// # Sources
//
// Specific cutting force by Kienzle from a tool maker's table after VDI 3323
// (2017 and 2022); figures at a feed from a tool maker and a chuck maker; power
// constants from Machinery's Handbook (31st edition, read; other materials from
// memory, and marked). The three disagree, by 64 % for mild steel at 0.2 mm: they
// are three named functions ([KienzleFor], [ForceAtFeed], [UnitPowerFor]), never
// an average. Geometry needs no source.
//
// Checked against printed worked examples of tutorial sheets, textbooks and
// tool makers' pages; a misprinted time among them is kept in
// testdata/errata.csv. Left out: corrections for rake, speed and wear, which no
// source at hand gives in figures, and thrust of drills.
package cutting
