package fits

import (
	"fmt"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

// A Shrink is a hub that is heated, or a shaft or bush that is chilled, or both,
// so that it drops in with clearance and grips when the temperatures meet.
type Shrink struct {
	Diameter     units.Length // of the joint
	Interference units.Length // on the diameter, at room temperature
	// Clearance is the working clearance on the diameter that assembly needs, as
	// long as it lasts: about a thousandth of the diameter for parts that drop
	// together (common practice). Zero asks for none.
	Clearance  units.Length
	Hub, Shaft material.Material

	Room units.Temperature // at which the interference was measured
	// HubAt is the temperature of the hub when the parts go together, and ShaftAt
	// that of the shaft or bush. Give the temperature of the room for a part that
	// is not heated or chilled, and for one whose temperature is the question:
	// HubNeeded or ShaftNeeded of the result answers it.
	HubAt, ShaftAt units.Temperature

	// ShaftCurve, if there is one, replaces the mean expansion of the shaft:
	// steel chilled far contracts less than its room temperature value says.
	ShaftCurve ExpansionCurve
}

// A ShrinkResult says whether the parts go together, and how long they stay
// free.
type ShrinkResult struct {
	HubGrows     units.Length                // on the diameter
	ShaftShrinks units.Length                // on the diameter
	AtAssembly   units.Length                // clearance; below zero the parts do not go together
	HubNeeded    units.Temperature           // of the hub, with the shaft at ShaftAt, for the working clearance: ShaftAt when it may be as cold as that; zero when 1000 degrees C is not enough
	ShaftNeeded  units.Temperature           // of the shaft, with the hub at HubAt, for the same: Room when it need not be chilled; zero when no cold is enough
	HubGrabs     units.Temperature           // of the hub, when the shaft is still at ShaftAt; zero when no cold makes it grab
	GrabsAt      units.TemperatureDifference // hub less shaft, at which the clearance is gone, whichever part moved first
	Findings     []Finding
}

// Solve returns the clearance at assembly, the temperature that the hub needs
// for the working clearance, and the difference of temperature at which the fit
// grabs:
//
//	clearance = alpha_h d (T_h - T0) + alpha_s d (T0 - T_s) - delta
//	hub needed = T0 + (delta + working clearance - alpha_s d (T0 - T_s)) / (alpha_h d)
//	shaft needed = T0 - (delta + working clearance - alpha_h d (T_h - T0)) / (alpha_s d)
//	grabs when the clearance is zero: the hub having cooled, or the shaft warmed
//
// d is the joint, delta the interference, alpha the mean expansion of each
// material, T0 room temperature. When both parts are of one material the fit
// grabs at a difference of delta/(alpha d) whatever moves; otherwise GrabsAt is
// the larger of both ways, the one that comes first, by mean expansions. Without
// a ShaftCurve a ShaftNeeded below about -60 degrees C is not cold enough, as
// metals contract less there.
//
// Every temperature has a scale: an oven marked in Fahrenheit and set to 200 is
// at 93 degrees C. Use [units.Celsius] or [units.Fahrenheit].
//
// The time that is left is minutes at best, and seconds for a thin bush in a
// large hub: the bush takes its heat at the first touch. The formulas know
// nothing of this; the findings of a fit that sticks, or that is close to it, say
// so before the oven is lit. Missing diameters, materials and temperatures, an
// interference of more than a twentieth of the diameter and a hub colder than
// the shaft are errors of type [*units.ArgumentError]. Source: linear expansion;
// the relation is that of every handbook on shrink fits.
func (s Shrink) Solve() (ShrinkResult, error) {
	err := s.check()
	if err != nil {
		return ShrinkResult{}, err
	}
	d := s.Diameter.MM()
	hub := d * float64(s.Hub.Expansion.Value) // growth per kelvin, in mm
	hubGrows := hub * float64(s.HubAt.Sub(s.Room))
	shaftStrain := float64(s.Shaft.Expansion.Value) * float64(s.Room.Sub(s.ShaftAt))
	if s.ShaftCurve != nil {
		strain, err := s.ShaftCurve.Strain(s.ShaftAt, s.Room)
		if err != nil {
			return ShrinkResult{}, err
		}
		shaftStrain = strain
	}
	shaftShrinks := d * shaftStrain
	clearance := hubGrows + shaftShrinks - s.Interference.MM()

	r := ShrinkResult{
		HubNeeded: max(s.ShaftAt, s.Room.Add(units.TemperatureDifference((s.Interference.MM()+s.Clearance.MM()-shaftShrinks)/hub))),
		HubGrabs:  s.HubAt.Add(units.TemperatureDifference(-clearance / hub)),
	}
	if r.ShaftNeeded, err = s.shaftNeeded((s.Interference.MM() + s.Clearance.MM() - hubGrows) / d); err != nil {
		return ShrinkResult{}, err
	}
	r.GrabsAt = max(r.HubGrabs.Sub(s.ShaftAt), s.HubAt.Sub(s.ShaftAt)-units.TemperatureDifference(clearance/(d*float64(s.Shaft.Expansion.Value))))
	if r.HubNeeded > hottest {
		r.HubNeeded = 0
	}
	if r.HubGrabs < coldest {
		r.HubGrabs = 0
	}
	for _, l := range []struct {
		to *units.Length
		mm float64
	}{{&r.HubGrows, hubGrows}, {&r.ShaftShrinks, shaftShrinks}, {&r.AtAssembly, clearance}} {
		if *l.to, err = units.LengthMM(l.mm); err != nil {
			return ShrinkResult{}, err
		}
	}
	r.judge(s)
	return r, nil
}

// shaftNeeded returns the temperature at which the shaft has shrunk by a share of
// its diameter, room temperature when it need not, and zero when it would have
// to be colder than 4 K or than its curve goes.
func (s Shrink) shaftNeeded(share float64) (units.Temperature, error) {
	if share <= 0 {
		return s.Room, nil
	}
	if s.ShaftCurve == nil {
		t := s.Room.Add(units.TemperatureDifference(-share / float64(s.Shaft.Expansion.Value)))
		if t < coldest {
			return 0, nil
		}
		return t, nil
	}
	cold, warm := s.ShaftCurve[0].At, s.Room
	if most, err := s.ShaftCurve.Strain(cold, s.Room); err != nil || most < share {
		return 0, err
	}
	for range 60 { // halving, to the last bit of a curve that only rises
		middle := (cold + warm) / 2
		strain, err := s.ShaftCurve.Strain(middle, s.Room)
		if err != nil {
			return 0, err
		}
		if strain > share {
			cold = middle
		} else {
			warm = middle
		}
	}
	return warm, nil
}

func (s Shrink) check() error {
	if err := positive("diameter of the joint", s.Diameter); err != nil {
		return err
	}
	if err := positive("interference", s.Interference); err != nil {
		return err
	}
	if err := plausible(s.Interference, s.Diameter); err != nil {
		return err
	}
	if s.Clearance.Sign() < 0 {
		return &units.ArgumentError{Package: "fits", Field: "working clearance", Value: s.Clearance.String(), Accepted: "zero or more", Err: units.ErrOutOfRange}
	}
	for _, t := range []struct {
		field string
		value units.Temperature
	}{{"room temperature", s.Room}, {"temperature of the hub", s.HubAt}, {"temperature of the shaft", s.ShaftAt}} {
		if err := temperature(t.field, t.value); err != nil {
			return err
		}
	}
	if s.HubAt < s.ShaftAt {
		return &units.ArgumentError{Package: "fits", Field: "temperature of the hub", Value: degrees(s.HubAt), Problem: "colder than the shaft at " + degrees(s.ShaftAt), Accepted: "a hub at least as warm as the shaft", Err: units.ErrOutOfRange}
	}
	if err := expands("hub", s.Hub); err != nil {
		return err
	}
	return expands("shaft", s.Shaft)
}

// judge says what an engineer would before the oven is lit.
func (r *ShrinkResult) judge(s Shrink) {
	add := func(severity Severity, format string, args ...any) {
		r.Findings = append(r.Findings, Finding{severity, fmt.Sprintf(format, args...)})
	}
	remedy := "no hub of " + s.Hub.Name + " gets there by heat: the interference must come down"
	if r.HubNeeded != 0 {
		remedy = "the hub needs " + degrees(r.HubNeeded) + ", or the interference must come down"
	}
	remedy += " by " + both(s.Clearance.Sub(r.AtAssembly))
	switch {
	case r.AtAssembly.Sign() <= 0:
		add(Stop, "the parts do not go together: the interference is still %s; for a working clearance of %s %s", both(r.AtAssembly.Neg()), both(s.Clearance), remedy)
	case r.AtAssembly.Cmp(s.Clearance) < 0:
		add(Stop, "the clearance at assembly is %s, less than the %s that is wanted, and it will stick; %s", both(r.AtAssembly), both(s.Clearance), remedy)
	}
	if drop := s.Diameter.Scale(0.001); s.Clearance.IsZero() && r.AtAssembly.Sign() > 0 && r.AtAssembly.Cmp(drop) < 0 {
		add(Caution, "the clearance at assembly is %s and no working clearance was asked for: parts that drop together want about a thousandth of the diameter, %s", both(r.AtAssembly), both(drop))
	}
	difference := s.HubAt.Sub(s.ShaftAt)
	if r.AtAssembly.Sign() > 0 && r.GrabsAt > 0.5*difference {
		add(Caution, "the fit grabs when the difference of temperature has fallen from %.0f to %.0f K: it must be home at once; use a guide and a stop, rehearse it cold, and think of a smaller interference", float64(difference), float64(r.GrabsAt))
	}
	if limit, why := heatLimit(s.Hub); limit != 0 && max(s.HubAt, r.HubNeeded) > limit {
		add(Caution, "the hub of %s at %s: %s", s.Hub.Name, degrees(max(s.HubAt, r.HubNeeded)), why)
	}
	if s.ShaftAt < units.Celsius(-60) && s.ShaftCurve == nil {
		add(Caution, "the shaft at %s contracts less than its mean expansion says, steel by a tenth at -78 degrees C; give a ShaftCurve", degrees(s.ShaftAt))
	}
	if s.HubAt > units.Celsius(60) || s.ShaftAt < units.Celsius(-30) {
		add(Note, "hot and deeply cold metal both burn: dry gloves, eye protection, no trapped moisture, and good air where dry ice or liquid nitrogen boil off")
	}
}

// heatLimit returns the temperature above which a material loses what it was
// bought for, and how. Common practice; the heat treatment of the piece in hand
// decides.
func heatLimit(m material.Material) (units.Temperature, string) {
	switch m.Family {
	case material.Aluminium:
		return units.Celsius(175), "aged aluminium alloys soften above about 175 degrees C; reduce the interference"
	case material.Steel:
		return units.Celsius(250), "hardened and tempered steel softens above its tempering heat, and bright steel colours from about 220 degrees C"
	case material.Brass, material.Bronze, material.Copper:
		return units.Celsius(250), "cold drawn copper alloys soften above about 250 degrees C"
	case material.Plastic:
		return units.Celsius(200), "plastics fume and creep; keep below the maker's limit"
	}
	return 0, ""
}

// The temperatures that are taken: from liquid helium to bright heat, wider than
// any workshop and than the expansions hold.
const (
	coldest = units.Temperature(4)
	hottest = units.Temperature(1273.15)
)

// temperature refuses absolute zero, which is a temperature that nobody set,
// and what is beyond any oven.
func temperature(field string, t units.Temperature) error {
	switch {
	case t == 0:
		return &units.ArgumentError{Package: "fits", Field: field, Accepted: "a temperature with its scale, units.Celsius or units.Fahrenheit", Err: units.ErrMissing}
	case !(t >= coldest && t <= hottest):
		return &units.ArgumentError{Package: "fits", Field: field, Value: degrees(t), Accepted: "from 4 K to 1000 degrees C", Err: units.ErrOutOfRange}
	}
	return nil
}

// expands refuses a material whose expansion is not known.
func expands(part string, m material.Material) error {
	if !m.Expansion.Known() {
		return &units.ArgumentError{Package: "fits", Field: "material of the " + part, Value: m.Name, Accepted: "a material with an expansion, such as material.Lookup gives", Err: units.ErrMissing}
	}
	if a, most := m.Expansion.Value/units.MillionthPerKelvin, m.Expansion.Max/units.MillionthPerKelvin; !(a > 0 && a < 1000 && most < 1000) {
		return &units.ArgumentError{Package: "fits", Field: "material of the " + part, Value: "with expansion " + m.Expansion.Value.String() + ", at most " + m.Expansion.Max.String(), Accepted: "an expansion above 0 up to 1000 ppm/K", Err: units.ErrOutOfRange}
	}
	return nil
}

// degrees returns a temperature on both scales, so that no oven is misread.
func degrees(t units.Temperature) string {
	return fmt.Sprintf("%.0f degrees C (%.0f degrees F)", t.Celsius(), t.Fahrenheit())
}
