package assembly

import (
	"fmt"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
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

	// ShaftCurve, if it has points, replaces the mean expansion of the shaft:
	// steel chilled far contracts less than its room temperature value says.
	ShaftCurve ExpansionCurve `json:",omitzero"`
}

// A ShrinkResult says whether the parts go together, and how long they stay
// free.
type ShrinkResult struct {
	HubGrows     units.Length // on the diameter
	ShaftShrinks units.Length // on the diameter
	AtAssembly   units.Length // clearance; below zero the parts do not go together

	// HubNeeded is the temperature of the hub, with the shaft at ShaftAt, for the
	// working clearance: ShaftAt when it may be as cold as that; zero when 1000
	// degrees C is not enough.
	HubNeeded units.Temperature
	// ShaftNeeded is that of the shaft, with the hub at HubAt, for the same: Room
	// when it need not be chilled; zero when no cold is enough.
	ShaftNeeded units.Temperature
	// ShaftColder says that ShaftNeeded is by the mean expansion where metals
	// contract less: the shaft must be colder still.
	ShaftColder bool

	HubGrabs units.Temperature           // of the hub, when the shaft is still at ShaftAt; zero when no cold makes it grab
	GrabsAt  units.TemperatureDifference // hub less shaft, at which the clearance is gone, whichever part moved first

	Findings    finding.List
	Precautions []finding.Precaution
	Refs        source.Refs `json:",omitzero"` // of the expansions
}

// Solve returns the clearance at assembly, the temperature that the hub needs
// for the working clearance, and the difference of temperature at which the fit
// grabs, which is when the clearance is zero:
//
//	clearance    = alpha_h * d * (T_h - T0) + alpha_s * d * (T0 - T_s) - delta
//	hub needed   = T0 + (delta + c - alpha_s * d * (T0 - T_s)) / (alpha_h * d)
//	shaft needed = T0 - (delta + c - alpha_h * d * (T_h - T0)) / (alpha_s * d)
//
//	d       the joint
//	delta   interference
//	c       working clearance
//	alpha   mean expansion of hub and shaft
//	T0      room temperature
//	T_h     temperature of the hub, T_s of the shaft
//
// When both parts are of one material the fit grabs at a difference of
// delta/(alpha * d) whatever moves; otherwise GrabsAt is the larger of both ways,
// the one that comes first, by mean expansions. Without a ShaftCurve a
// ShaftNeeded below about -60 degrees C is not cold enough, as metals contract
// less there. An oven marked in Fahrenheit and set to 200 is at 93 degrees C.
//
// The time that is left is minutes at best, and seconds for a thin bush in a
// large hub: the bush takes its heat at the first touch. The formulas know
// nothing of this; the findings of a fit that sticks, or that is close to it, say
// so before the oven is lit. A hub is at least as warm as its shaft. Source:
// linear expansion; the relation is that of every handbook on shrink fits.
// See the Example.
func (s Shrink) Solve() (ShrinkResult, error) {
	err := s.validate()
	if err != nil {
		return ShrinkResult{}, err
	}
	d, alphaHub, alphaShaft := s.Diameter.MM(), float64(s.Hub.Expansion.Value), float64(s.Shaft.Expansion.Value)
	hub := d * alphaHub // growth per kelvin, in mm
	hubGrows := hub * float64(s.HubAt.Sub(s.Room))
	shaftStrain := alphaShaft * float64(s.Room.Sub(s.ShaftAt))
	refs := valuesOf(s.Hub.Expansion.Refs, s.Shaft.Expansion.Refs)
	if s.curved() {
		if shaftStrain, err = s.ShaftCurve.Strain(s.ShaftAt, s.Room); err != nil {
			return ShrinkResult{}, err
		}
		refs = valuesOf(s.Hub.Expansion.Refs).With(s.ShaftCurve.Refs)
	}
	shaftShrinks := d * shaftStrain
	over := s.Interference.MM()
	clearance := hubGrows + shaftShrinks - over // linear expansion of both parts

	wanted := over + s.Clearance.MM()
	needed := s.Room.Add(units.TemperatureDifference((wanted - shaftShrinks) / hub)) // the same, for T_h
	r := ShrinkResult{
		HubNeeded: max(s.ShaftAt, needed),
		HubGrabs:  s.HubAt.Add(units.TemperatureDifference(-clearance / hub)),
		Refs:      refs,
	}
	if r.ShaftNeeded, err = s.shaftNeeded((wanted - hubGrows) / d); err != nil {
		return ShrinkResult{}, err
	}
	r.ShaftColder = r.ShaftNeeded != 0 && r.ShaftNeeded < meanHolds && !s.curved()
	warming := s.HubAt.Sub(s.ShaftAt) - units.TemperatureDifference(clearance/(d*alphaShaft))
	r.GrabsAt = max(r.HubGrabs.Sub(s.ShaftAt), warming)
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
		if *l.to, err = units.Millimetres.Of(l.mm); err != nil {
			return ShrinkResult{}, err
		}
	}
	if err := r.judge(s); err != nil {
		return ShrinkResult{}, err
	}
	r.Precautions = s.precautions()
	return r, nil
}

// meanHolds is about how cold a metal may be for its mean expansion to hold.
var meanHolds = units.Celsius(-60)

func (s Shrink) curved() bool { return len(s.ShaftCurve.Points) > 0 }

// shaftNeeded returns the temperature at which the shaft has shrunk by a share of
// its diameter, room temperature when it need not, and zero when it would have
// to be colder than 4 K or than its curve goes.
func (s Shrink) shaftNeeded(share float64) (units.Temperature, error) {
	if share <= 0 {
		return s.Room, nil
	}
	if !s.curved() {
		t := s.Room.Add(units.TemperatureDifference(-share / float64(s.Shaft.Expansion.Value)))
		if t < coldest {
			return 0, nil
		}
		return t, nil
	}
	cold, warm := s.ShaftCurve.Points[0].At, s.Room
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

func (s Shrink) validate() error {
	if err := fail.Above(
		fault.Named("diameter of the joint", s.Diameter), fault.Named("interference", s.Interference),
	); err != nil {
		return err
	}
	if err := plausible(s.Interference, s.Diameter); err != nil {
		return err
	}
	if s.Clearance.Sign() < 0 {
		return fail.OutOfRange("working clearance", s.Clearance, "zero or more")
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
		return fail.Wrong("temperature of the hub", degrees(s.HubAt), "colder than the shaft at "+degrees(s.ShaftAt),
			"a hub at least as warm as the shaft")
	}
	if err := expands("hub", s.Hub); err != nil {
		return err
	}
	return expands("shaft", s.Shaft)
}

// judge says what an engineer would before the oven is lit.
func (r *ShrinkResult) judge(s Shrink) error {
	list := &r.Findings
	never, remedy := " No hub of "+s.Hub.Name+" gets there by heat.", "Bring the interference down by %s."
	if r.HubNeeded != 0 {
		never, remedy = "", "Heat the hub to "+degrees(r.HubNeeded)+", or bring the interference down by %s."
	}
	remedies := []string{fmt.Sprintf(remedy, both(s.Clearance.Sub(r.AtAssembly)))}
	switch {
	case r.AtAssembly.Sign() <= 0:
		f := said(list, DoesNotEnter, finding.Fails, "The parts do not go together: the interference is still %s, "+
			"and a working clearance of %s is wanted.%s", both(r.AtAssembly.Neg()), both(s.Clearance), never)
		f.Remedies = remedies
	case r.AtAssembly.Cmp(s.Clearance) < 0:
		f := said(list, SticksGoingHome, finding.Fails,
			"The clearance at assembly is %s, less than the %s that is wanted, and it will stick.%s",
			both(r.AtAssembly), both(s.Clearance), never)
		f.Remedies = remedies
	}
	drop := s.Diameter.Scale(0.001)
	if s.Clearance.IsZero() && r.AtAssembly.Sign() > 0 && r.AtAssembly.Cmp(drop) < 0 {
		f := said(list, LittleClearance, finding.Caution, "The clearance at assembly is %s and no working clearance "+
			"was asked for: parts that drop together want about a thousandth of the diameter, %s.",
			both(r.AtAssembly), both(drop))
		f.Refs = source.Of(source.Practice())
	}
	difference := s.HubAt.Sub(s.ShaftAt)
	if r.AtAssembly.Sign() > 0 && r.GrabsAt > 0.5*difference {
		f := said(list, GrabsEarly, finding.Caution, "The fit grabs when the difference of temperature has fallen "+
			"from %.0f to %.0f K: it must be home at once.",
			difference.In(units.KelvinDifference), r.GrabsAt.In(units.KelvinDifference))
		f.Remedies = []string{"Use a guide and a stop, rehearse it cold, and think of a smaller interference."}
		f.Refs = source.Of(source.Practice())
	}
	at := max(s.HubAt, r.HubNeeded)
	if limit, why, remedy := heatLimit(s.Hub); limit != 0 && at > limit {
		if r.HubNeeded != 0 && r.HubNeeded <= limit {
			remedy = "Heat it to " + degrees(r.HubNeeded) + ", which is enough."
		}
		f := said(list, HubTooHot, finding.Caution, "The hub of %s at %s: %s.", s.Hub.Name, degrees(at), why)
		f.Remedies, f.Refs = []string{remedy}, source.Of(source.Practice())
		if s.Hub.Family == material.Plastic {
			f.Severity = finding.Danger
		}
	}
	if s.ShaftAt < meanHolds && !s.curved() {
		f := said(list, MeanTooWarm, finding.Caution, "The shaft at %s contracts less than its mean expansion says, "+
			"steel by a tenth at -78 degrees C.", degrees(s.ShaftAt))
		f.Remedies, f.Refs = []string{"Give a ShaftCurve, such as ChilledSteel for steel."}, ChilledSteel().Refs
	}
	tight, err := fits.CheckInterference(s.Diameter, s.Interference)
	*list = append(*list, tight...)
	list.Sort()
	return err
}

// precautions are of the heat and the cold that the parts are brought to.
func (s Shrink) precautions() []finding.Precaution {
	var list []finding.Precaution
	if s.HubAt > units.Celsius(60) {
		list = append(list, care(HotMetal, "Hot metal burns and does not look hot: "+
			"dry gloves, eye protection, no trapped moisture, and a place to put it down."))
	}
	if s.HubAt > units.Celsius(60) && s.Hub.Family == material.Plastic {
		list = append(list, care(HotPlastic, "Overheated plastics give off fumes that harm: "+
			"keep below the maker's limit, with good air."))
	}
	if s.ShaftAt < units.Celsius(-30) {
		list = append(list, care(ColdMetal, "Deeply cold metal burns like hot metal: dry gloves and eye protection."),
			care(BoilOff, "Dry ice and liquid nitrogen boil off and take the place of the air: "+
				"good air, never a closed room, car or vessel."))
	}
	return list
}

// heatLimit returns the temperature above which a material loses what it was
// bought for, how, and what to do. Common practice; the heat treatment of the
// piece in hand decides.
func heatLimit(m material.Material) (limit units.Temperature, why, remedy string) {
	const less = "Bring the interference down."
	switch m.Family {
	case material.Aluminium:
		return units.Celsius(175), "aged aluminium alloys soften above about 175 degrees C", less
	case material.Steel:
		return units.Celsius(250), "hardened and tempered steel softens above its tempering heat, " +
			"and bright steel colours from about 220 degrees C", less
	case material.Brass, material.Bronze, material.Copper:
		return units.Celsius(250), "cold drawn copper alloys soften above about 250 degrees C", less
	case material.Plastic:
		return units.Celsius(200), "plastics give off fumes that harm, and creep", "Keep below the maker's limit."
	}
	return 0, "", ""
}
