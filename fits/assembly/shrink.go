package assembly

import (
	"slices"
	"strings"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A Shrink is a hub that is heated, or a shaft or bush that is chilled, or both,
// so that it drops in with clearance and grips when the temperatures meet. With
// both parts at one temperature it is pressed home, see [Press] for the force.
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

	// Pressed says that both parts have one temperature and are pressed home against
	// the interference.
	Pressed bool
	// Unknown says that a part is hotter or colder than its expansion is known for:
	// what rests on it is zero.
	Unknown bool

	// HubNeeded is the temperature of the hub, with the shaft at ShaftAt, for the
	// working clearance: ShaftAt when it may be as cold as that; zero when it would
	// melt, or be hotter than its expansion is known for.
	HubNeeded units.Temperature `json:",omitzero"`
	// ShaftNeeded is that of the shaft, with the hub at HubAt, for the same: Room
	// when it need not be chilled; zero when no cold is enough, or ShaftColder.
	ShaftNeeded units.Temperature `json:",omitzero"`
	// ShaftColder says that the shaft must be colder than its expansion is known
	// for.
	ShaftColder bool

	// HubGrabs is the temperature of the hub at which the clearance is gone when the
	// shaft is still at ShaftAt; zero when there is none, or no cold that expansions
	// are known for takes it.
	HubGrabs units.Temperature `json:",omitzero"`
	// GrabsAt is hub less shaft when the clearance is gone, whichever part moved
	// first, and what the parts must differ by at the least where there is none; zero
	// when expansions are not known so far.
	GrabsAt units.TemperatureDifference `json:",omitzero"`

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
// the one that comes first, by mean expansions, which are used from -80 to 300
// degrees C and nowhere else ([material.ExpansionFrom], [material.ExpansionTo]);
// steel may be chilled further with a ShaftCurve. An oven marked in Fahrenheit and
// set to 200 is at 93 degrees C.
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
	over := s.Interference.MM()
	wanted := over + s.Clearance.MM()
	r := ShrinkResult{Pressed: s.HubAt == s.ShaftAt, Refs: valuesOf(s.Hub.Expansion.Refs, s.Shaft.Expansion.Refs)}
	if s.curved() {
		r.Refs = valuesOf(s.Hub.Expansion.Refs).With(s.ShaftCurve.Refs)
	}
	hubKnown, shaftKnown := s.hubKnown(s.HubAt), s.curved() || expansionKnown(s.ShaftAt)
	r.Unknown = !hubKnown || !shaftKnown
	var hubGrows, shaftShrinks float64
	if hubKnown {
		hubGrows = hub * float64(s.HubAt.Sub(s.Room)) // linear expansion
		if err := r.shaft(s, (wanted-hubGrows)/d); err != nil {
			return ShrinkResult{}, err
		}
	}
	if shaftKnown {
		shaftStrain := alphaShaft * float64(s.Room.Sub(s.ShaftAt))
		if s.curved() {
			if shaftStrain, err = s.ShaftCurve.Strain(s.ShaftAt, s.Room); err != nil {
				return ShrinkResult{}, err
			}
		}
		shaftShrinks = d * shaftStrain
		needed := s.Room.Add(units.TemperatureDifference((wanted - shaftShrinks) / hub)) // the same, for T_h
		if r.HubNeeded = max(s.ShaftAt, needed); !s.hubKnown(r.HubNeeded) {
			r.HubNeeded = 0
		}
	}
	clearance := hubGrows + shaftShrinks - over // linear expansion of both parts
	if r.Unknown {
		clearance = 0
	} else {
		r.HubGrabs = s.HubAt.Add(units.TemperatureDifference(-clearance / hub))
		warming := s.HubAt.Sub(s.ShaftAt) - units.TemperatureDifference(clearance/(d*alphaShaft))
		r.GrabsAt = max(r.HubGrabs.Sub(s.ShaftAt), warming)
		if clearance <= 0 || !expansionKnown(r.HubGrabs) {
			r.HubGrabs = 0
		}
		if r.GrabsAt > material.ExpansionTo.Sub(material.ExpansionFrom) {
			r.GrabsAt = 0
		}
	}
	for _, l := range []struct {
		to *units.Length
		mm float64
	}{{&r.HubGrows, hubGrows}, {&r.ShaftShrinks, shaftShrinks}, {&r.AtAssembly, clearance}} {
		if *l.to, err = units.Millimetres.Of(l.mm); err != nil {
			return ShrinkResult{}, err
		}
	}
	r.Pressed = r.Pressed && !r.Unknown && r.AtAssembly.Sign() <= 0
	if err := r.judge(s); err != nil {
		return ShrinkResult{}, err
	}
	r.Precautions = s.precautions()
	if r.Pressed {
		r.Precautions = append(r.Precautions, pressing(s.Hub)...)
	}
	return r, nil
}

// hubKnown reports whether the expansion of the hub is known up to a temperature,
// below which it is still a solid.
func (s Shrink) hubKnown(at units.Temperature) bool {
	return expansionKnown(at) && !(s.Hub.Melts.Known() && at >= s.Hub.Melts.Value)
}

// shaft works out the temperature at which the shaft has shrunk by a share of its
// diameter.
func (r *ShrinkResult) shaft(s Shrink, share float64) (err error) {
	r.ShaftNeeded, err = s.shaftNeeded(share)
	if err == nil && r.ShaftNeeded != 0 && !s.curved() && !expansionKnown(r.ShaftNeeded) {
		r.ShaftNeeded, r.ShaftColder = 0, true
	}
	return err
}

// meanHolds is about how cold a metal may be for its mean expansion to be true to
// better than a tenth.
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
	tight, err := fits.CheckInterference(s.Diameter, s.Interference)
	if err != nil {
		return err
	}
	never := ""
	if r.HubNeeded == 0 {
		never = " No hub of " + s.Hub.Name + " gets there by heat."
	}
	switch {
	case r.Unknown:
		r.judgeUnknown(s)
	case r.Pressed:
		r.judgePressed(s, tight)
	case r.AtAssembly.Sign() <= 0:
		f := said(list, DoesNotEnter, finding.Fails, "The parts do not go together: the interference is still %s, "+
			"and a working clearance of %s is wanted.%s", both(r.AtAssembly.Neg()), both(s.Clearance), never)
		f.Remedies = r.remedies(s, !slices.ContainsFunc(tight, beyondAny))
	case r.AtAssembly.Cmp(s.Clearance) < 0:
		f := said(list, SticksGoingHome, finding.Fails,
			"The clearance at assembly is %s, less than the %s that is wanted, and it will stick.%s",
			both(r.AtAssembly), both(s.Clearance), never)
		f.Remedies = r.remedies(s, false)
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
	r.judgeHeat(s)
	if !r.Unknown && s.ShaftAt < meanHolds && !s.curved() {
		f := said(list, MeanTooWarm, finding.Caution, "The shaft at %s contracts less than its mean expansion says, "+
			"steel by a tenth at -78 degrees C.", degrees(s.ShaftAt))
		f.Remedies, f.Refs = []string{"Give a ShaftCurve, such as ChilledSteel for steel."}, ChilledSteel().Refs
	}
	*list = append(*list, tight...)
	list.Sort()
	return nil
}

// judgePressed says that parts of one temperature are pressed together, and that
// nobody presses more than any fit of a standard has.
func (r *ShrinkResult) judgePressed(s Shrink, tight finding.List) {
	if slices.ContainsFunc(tight, beyondAny) {
		f := said(&r.Findings, DoesNotPress, finding.Fails,
			"The parts do not press together: no fit of a standard has an interference of %s at this size.", both(s.Interference))
		f.Remedies = []string{"Turn the shaft to suit the hole as it came out."}
		return
	}
	f := said(&r.Findings, PressedCold, finding.Note,
		"Neither part is heated or chilled: they are pressed home against an interference of %s.", both(r.AtAssembly.Neg()))
	if limit, _, _ := heatLimit(s.Hub); r.HubNeeded != 0 && (limit == 0 || r.HubNeeded <= limit) {
		f.Remedies = []string{"Or heat the hub to " + degrees(r.HubNeeded) + ", and they drop together."}
	}
}

// remedies say what makes the parts go together: heat, less interference as far as
// there is any to take off, and the press where they do not even enter.
func (r *ShrinkResult) remedies(s Shrink, press bool) []string {
	var ways []string
	if r.HubNeeded != 0 {
		ways = append(ways, "heat the hub to "+degrees(r.HubNeeded))
	}
	if by := s.Clearance.Sub(r.AtAssembly); by.Cmp(s.Interference) < 0 {
		ways = append(ways, "bring the interference down by "+both(by))
	}
	if press {
		ways = append(ways, "press them home cold")
	}
	if len(ways) == 0 {
		return []string{"Turn the shaft to suit the hole as it came out."}
	}
	text := strings.Join(ways, ", or ") + "."
	return []string{strings.ToUpper(text[:1]) + text[1:]}
}

// judgeUnknown says which part is hotter or colder than its expansion is known for.
func (r *ShrinkResult) judgeUnknown(s Shrink) {
	for _, part := range []struct {
		name  string
		at    units.Temperature
		known bool
	}{
		{"hub of " + s.Hub.Name, s.HubAt, s.hubKnown(s.HubAt)},
		{"shaft of " + s.Shaft.Name, s.ShaftAt, s.curved() || expansionKnown(s.ShaftAt)},
	} {
		if part.known || part.at == s.HubAt && s.Hub.Melts.Known() && part.at >= s.Hub.Melts.Value {
			continue
		}
		f := said(&r.Findings, BeyondExpansion, finding.Fails, "How far the %s goes at %s is not known: "+
			"expansions are means that hold from %s to %s.", part.name, degrees(part.at),
			degrees(material.ExpansionFrom), degrees(material.ExpansionTo))
		if part.at > s.Room && r.HubNeeded != 0 {
			f.Remedies = []string{"Heat the hub to " + degrees(r.HubNeeded) + ", which is enough."}
		} else if part.at < s.Room {
			f.Remedies = []string{"Chill it less, and heat the hub; or give a ShaftCurve, such as ChilledSteel for steel."}
		}
	}
}
