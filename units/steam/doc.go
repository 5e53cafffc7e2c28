// Package steam knows saturated steam: which temperature belongs to which
// pressure while steam stands over its own water.
//
//	s, err := steam.AtGauge(4 * units.Bar)
//	fmt.Println(s.Temperature)
//
// and how much of it turns to water on cold iron, before an engine is warm.
//
//	w, err := s.Condensed(0.5*units.Kilogram, units.Celsius(20), units.Celsius(130))
//
// Boilers and pressure gauges count from the pressure of the air, tables of steam
// from nothing; [AtGauge] takes the one and [AtPressure] the other. Superheated
// steam is hotter than anything here.
//
// A bad argument is an [*units.ArgumentError] that says what is accepted. The
// sources and checks are in testdata/units/steam/README.md.
package steam
