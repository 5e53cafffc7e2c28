// Package steam knows water and steam: which temperature belongs to which pressure
// while steam stands over its own water, and what a kilogram of either has.
//
//	s, err := steam.AtGauge(4 * units.Bar)
//	dry, err := s.Steam()
//	fmt.Println(s.Temperature, dry.Volume)
//
// and how much of it turns to water on cold iron, before an engine is warm.
//
//	w, err := s.Condensed(0.5*units.Kilogram, units.Celsius(20), units.Celsius(130))
//
// Boilers and pressure gauges count from the pressure of the air, tables of steam
// from nothing; [AtGauge] takes the one and [AtPressure] the other. The line of
// saturation is given to its ends, as materials and joints are judged by it;
// volume, heat and the rest from 0.01 to 40 bar.
//
// A bad argument is an [*units.ArgumentError] that says what is accepted. The
// sources and checks are in testdata/units/steam/README.md.
package steam
