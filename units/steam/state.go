package steam

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A State is what one kilogram of water, of steam or of both has. Energy, enthalpy
// and entropy count from water at its triple point, 0.01 degrees C.
type State struct {
	Pressure     units.Pressure // absolute
	Temperature  units.Temperature
	Dryness      float64 // share of steam in the mass: 0 water, 1 dry steam, saturated or hotter
	Volume       units.Volume
	Energy       units.Energy // internal
	Enthalpy     units.Energy
	Entropy      float64     // J/(kg K)
	HeatCapacity float64     `json:",omitempty"` // at constant pressure, J/(kg K); wet steam has none
	Sound        units.Speed `json:",omitempty"` // its speed; of wet steam the formulation has none
	Refs         source.Refs
}

// Within what the package has properties for, inside regions 1 and 2.
const (
	least    = 0.01 * units.Bar
	most     = 40 * units.Bar
	hottest  = units.Temperature(1073.15)
	rounding = 1e-9 // relative; what equations 30 and 31 make of each other's ends
)

// pressed returns an error for an absolute pressure that there are no properties for.
func pressed(field string, p units.Pressure) error {
	if err := fault.Finite(fail, field, p); err != nil {
		return err
	}
	if p < least*(1-rounding) || p > most*(1+rounding) {
		return fail.OutOfRange(field, p, "0.01 to 40 bar, absolute")
	}
	return nil
}

var basicEquations = source.Ref{
	Kind: source.Published, Title: "IAPWS R7-97(2012), Industrial Formulation 1997", Edition: "2012 revision",
	Locator: "equations 7 and 15, tables 2, 3, 10, 11 and 12",
}

var backwardEquations = source.Ref{
	Kind: source.Published, Title: "IAPWS R7-97(2012), Industrial Formulation 1997", Edition: "2012 revision",
	Locator: "equations 11, 13, 22 and 25, tables 6, 8, 20 and 25",
}

// WaterAt returns water under an absolute pressure from 0.01 to 40 bar, at a
// temperature from 0 degrees C to that of steam of the pressure:
//
//	g = R * T * sum(n * (7.1 - p/16.53 MPa)^I * (1386 K/T - 1.222)^J)
//
//	g        Gibbs energy of a kilogram, whose derivatives all the others are
//	n, I, J  table 2
//	R        461.526 J/(kg K)
//
// Source: IAPWS R7-97(2012), equation 7 and table 3.
func WaterAt(absolute units.Pressure, t units.Temperature) (State, error) {
	if err := pressed("pressure of the water", absolute); err != nil {
		return State{}, err
	}
	if boils := temperature(absolute); !(t >= coldest && t <= boils) {
		return State{}, fail.OutOfRange("temperature of the water", t, fmt.Sprintf("from 0 °C to that of steam of the pressure, %v", boils))
	}
	return water(absolute, t), nil
}

// SteamAt returns dry steam under an absolute pressure from 0.01 to 40 bar, at a
// temperature from that of saturated steam of the pressure to 800 degrees C:
//
//	g = R * T * (ln(p / 1 MPa) + sum(n0 * (540 K/T)^J0) + sum(n * (p / 1 MPa)^I * (540 K/T - 0.5)^J))
//
//	g        Gibbs energy of a kilogram, whose derivatives all the others are
//	n0, J0   table 10
//	n, I, J  table 11
//	R        461.526 J/(kg K)
//
// Source: IAPWS R7-97(2012), equations 15 to 17 and table 12.
func SteamAt(absolute units.Pressure, t units.Temperature) (State, error) {
	if err := pressed("pressure of the steam", absolute); err != nil {
		return State{}, err
	}
	if boils := temperature(absolute); !(t >= boils && t <= hottest) {
		return State{}, fail.OutOfRange("temperature of the steam", t,
			fmt.Sprintf("from that of saturated steam of the pressure, %v, to 800 °C", boils))
	}
	return vapour(absolute, t), nil
}

// Water returns the water over which the steam stands; see [WaterAt].
func (s Saturated) Water() (State, error) {
	if err := s.Validate(); err != nil {
		return State{}, err
	}
	return water(s.Pressure, s.Temperature), nil
}

// Steam returns the steam, dry and saturated; see [SteamAt] and the Example.
func (s Saturated) Steam() (State, error) {
	if err := s.Validate(); err != nil {
		return State{}, err
	}
	return vapour(s.Pressure, s.Temperature), nil
}

// Wet returns the steam with water in it: the dryness is the share of steam in the
// mass of both, from 0 to 1.
//
//	v = x * v2 + (1 - x) * v1
//
//	x       dryness
//	v1, v2  volume of the water and of the dry steam; energy, enthalpy and entropy likewise
//
// Source: the meaning of the dryness.
func (s Saturated) Wet(dryness float64) (State, error) {
	if err := s.Validate(); err != nil {
		return State{}, err
	}
	if !(dryness >= 0 && dryness <= 1) {
		return State{}, fail.OutOfRange("dryness of the steam", dryness, "0 to 1")
	}
	return s.wet(dryness), nil
}

func (s Saturated) wet(x float64) State {
	w, d := water(s.Pressure, s.Temperature), vapour(s.Pressure, s.Temperature)
	return State{
		Pressure: s.Pressure, Temperature: s.Temperature, Dryness: x,
		Volume:   units.Volume(mixed(float64(w.Volume), float64(d.Volume), x)),
		Energy:   units.Energy(mixed(float64(w.Energy), float64(d.Energy), x)),
		Enthalpy: units.Energy(mixed(float64(w.Enthalpy), float64(d.Enthalpy), x)),
		Entropy:  mixed(w.Entropy, d.Entropy, x),
		Refs:     source.Shared(&basicEquations),
	}
}

func mixed(water, steam, dryness float64) float64 { return water + dryness*(steam-water) }

func water(p units.Pressure, t units.Temperature) State {
	return state(p, t, 0, waterAt(p.In(units.Megapascal), t.Kelvin()))
}

func vapour(p units.Pressure, t units.Temperature) State {
	return state(p, t, 1, steamAt(p.In(units.Megapascal), t.Kelvin()))
}

func state(p units.Pressure, t units.Temperature, dryness float64, of properties) State {
	return State{
		Pressure: p, Temperature: t, Dryness: dryness, Volume: units.Volume(of.v),
		Energy: units.Energy(of.u) * units.Kilojoule, Enthalpy: units.Energy(of.h) * units.Kilojoule,
		Entropy: of.s * 1000, HeatCapacity: of.cp * 1000, Sound: units.Speed(of.w),
		Refs: source.Shared(&basicEquations),
	}
}

// Throttled returns the state after a valve or a narrow passage that takes no work
// and no heat out of it, at a lower absolute pressure, from 0.01 bar: the enthalpy
// stays. Saturated steam dries by it and grows hotter than its new pressure has it.
// Accuracy: 1e-5 K within the formulation. Source: mechanics of heat; IAPWS
// R7-97(2012), equations 11 and 22, each with a step of Newton's.
func (s State) Throttled(to units.Pressure) (State, error) {
	return s.follow(to, float64(s.Enthalpy)/1000, path{
		of: func(p properties) float64 { return p.h }, water: waterByEnthalpy, steam: steamByEnthalpy,
		slope: func(p properties, _ float64) float64 { return p.cp },
	})
}

// Expanded returns the state after expanding to a lower absolute pressure, from
// 0.01 bar, without friction and without heat from the walls: the entropy stays.
// Saturated steam grows wet by it. Accuracy: 1e-5 K within the formulation. Source:
// mechanics of heat; IAPWS R7-97(2012), equations 13 and 25, each with a step of
// Newton's. See the Example.
func (s State) Expanded(to units.Pressure) (State, error) {
	return s.follow(to, s.Entropy/1000, path{
		of: func(p properties) float64 { return p.s }, water: waterByEntropy, steam: steamByEntropy,
		slope: func(p properties, t float64) float64 { return p.cp / t },
	})
}

// A path is along what stays: its value, the temperature by it in both regions,
// and how it grows with the temperature.
type path struct {
	of           func(properties) float64
	water, steam func(p, value float64) float64
	slope        func(properties, float64) float64
}

func (s State) follow(to units.Pressure, value float64, along path) (State, error) {
	if err := pressed("pressure of the steam", s.Pressure); err != nil {
		return State{}, err
	}
	if err := fault.Finite(fail, "state of the steam", value); err != nil {
		return State{}, err
	}
	if !(to >= least*(1-rounding) && to <= s.Pressure) {
		return State{}, fail.OutOfRange("pressure after it", to, fmt.Sprintf("0.01 bar to that before, %v", s.Pressure))
	}
	after := Saturated{Pressure: to, Temperature: temperature(to)}
	p, saturated := to.In(units.Megapascal), after.Temperature.Kelvin()
	w, d := along.of(waterAt(p, saturated)), along.of(steamAt(p, saturated))
	region, guess, from, upTo, end := waterAt, along.water, coldest, after.Temperature, water
	switch {
	case value > d:
		region, guess, from, upTo, end = steamAt, along.steam, after.Temperature, hottest, vapour
	case value >= w:
		return after.wet((value - w) / (d - w)), nil
	}
	t := guess(p, value)
	of := region(p, t)
	t -= (along.of(of) - value) / along.slope(of, t)
	const blur = 1e-5 // K, where a region ends
	if math.IsNaN(t) || t < from.Kelvin()-blur || t > upTo.Kelvin()+blur {
		return State{}, fail.Wrong("state of the steam", s.Temperature, "leads out of the formulation", "water from 0 °C, steam to 800 °C")
	}
	result := end(to, units.Kelvin(min(max(t, from.Kelvin()), upTo.Kelvin())))
	result.Refs = source.Shared(&basicEquations, &backwardEquations)
	return result, nil
}
