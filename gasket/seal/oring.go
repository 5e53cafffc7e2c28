package seal

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Ring is an O-ring of the inch series.
type Ring struct {
	Size                              string // "012"
	Inside, Section                   units.Length
	InsideTolerance, SectionTolerance units.Length // either way
	Ref                               source.Ref
}

var rings = table.Table[Ring]{FS: &files, Name: "tables/oring.csv", Row: func(r *table.Row) Ring {
	g := Ring{
		Size: r.Text("size"), Inside: table.As(r, "inside", units.Inches.Parse), Section: table.As(r, "section", units.Inches.Parse),
		InsideTolerance: table.As(r, "inside_tolerance", units.Inches.Parse), SectionTolerance: table.As(r, "section_tolerance", units.Inches.Parse), Ref: r.Ref(),
	}
	if g.Inside.Sign() <= 0 || g.Section.Sign() <= 0 {
		r.Complain("ring of %v by %v", g.Inside, g.Section)
	}
	return g
}}

// Rings returns the rings of the table, which is not the whole series.
func Rings() []Ring { return slices.Clone(rings.Rows()) }

// RingOf returns the ring of a size, such as "012"; an unknown one is an error.
func RingOf(size string) (Ring, error) {
	for _, r := range rings.Rows() {
		if r.Size == size {
			return r, nil
		}
	}
	return Ring{}, &units.ArgumentError{Package: "seal", Field: "O-ring size", Value: strconv.Quote(size), Accepted: "001 to 028, 102 to 116, 210 to 218, 220, 225, 230", Err: units.ErrUnknown}
}

// A Duty is what an O-ring does.
type Duty int

// The duties.
const (
	Dynamic Duty = iota // round a moving piston or rod
	Static              // round a part that does not move
	Face                // between two faces
)

var dutyNames = names.Set{Package: "seal", Type: "Duty", Field: "duty of the O-ring", Texts: []string{"dynamic", "static", "face"}}

// String returns "dynamic", "static" or "face".
func (d Duty) String() string { return dutyNames.Text(int(d)) }

// ParseDuty returns the duty of that name, in capitals or not; see
// [Duty.String]. Another text is an [*units.ArgumentError] that lists the
// accepted ones.
func ParseDuty(name string) (Duty, error) {
	v, err := dutyNames.Value(name)
	return Duty(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (d Duty) MarshalText() ([]byte, error) { return dutyNames.Marshal(int(d)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (d *Duty) UnmarshalText(text []byte) error { return names.Unmarshal(&dutyNames, d, text) }

// A Groove is the published groove for one section and duty.
type Groove struct {
	Section                   units.Length
	Duty                      Duty
	DepthLeast, DepthMost     units.Length // from the groove's bottom to the surface that the ring seals against
	Width, WidthTolerance     units.Length
	ClearanceMost             units.Length // on the diameter, of piston in bore or of rod in gland; zero for Face
	CornerLeast, CornerMost   units.Length // radius in the bottom corners
	RunoutMost                units.Length // of the groove to the surface beside it, full reading; zero for Face
	SqueezeLeast, SqueezeMost float64      // share of the section, as printed
	Ref                       source.Ref
}

var grooves = table.Table[Groove]{FS: &files, Name: "tables/groove.csv", Row: func(r *table.Row) Groove {
	in := func(column string) units.Length { return table.As(r, column, units.Inches.Parse) }
	g := Groove{
		Section: in("section"), Duty: Duty(slices.Index(dutyNames.Texts, r.Text("duty"))), DepthLeast: in("depth_least"), DepthMost: in("depth_most"),
		Width: in("width"), WidthTolerance: units.Thou(5), CornerLeast: in("corner_least"), CornerMost: in("corner_most"), SqueezeLeast: r.Float("squeeze_least") / 100, SqueezeMost: r.Float("squeeze_most") / 100, Ref: r.Ref(),
	}
	if g.Duty != Face {
		g.ClearanceMost, g.RunoutMost = in("clearance_most"), in("runout_most")
	}
	if g.Duty < 0 || g.DepthLeast.Cmp(g.DepthMost) > 0 || g.Width.Cmp(g.Section) <= 0 {
		r.Complain("groove of %v", g.Section)
	}
	return g
}}

// Grooves returns the groove table. Not all agree with it: an unreviewed table in
// print makes the groove of a moving ring 0.113 to 0.115 in deep for the section
// of 0.139 in, and 0.083 to 0.085 in for that of 0.103 in, which squeezes more.
func Grooves() []Groove { return slices.Clone(grooves.Rows()) }

// Advice returns what to mind when the groove is cut: the clearance and corners
// of the table, and the finish of the surfaces. Source: the finishes and what is
// said of silicone and back-up rings, an O-ring maker's handbook, section IV, and
// for moving rings an O-ring supplier's design page; the rest is common practice.
func (g Groove) Advice() []string {
	both := func(l units.Length) string {
		return l.Text(units.Millimetres, 2) + " (" + l.Text(units.Thousandths, 0) + ")"
	}
	advice := []string{fmt.Sprintf("Radius in the bottom corners of the groove %s to %s (%s to %s); break every edge that the ring passes and give bore or rod a lead-in.",
		g.CornerLeast.Decimal(units.Millimetres, 2), g.CornerMost.Text(units.Millimetres, 2), g.CornerLeast.Decimal(units.Thousandths, 0), g.CornerMost.Text(units.Thousandths, 0))}
	switch g.Duty {
	case Dynamic:
		advice = append(advice, "Finish of the surface that the ring slides on 0.2 to 0.4 um Ra (8 to 16 microinch); never run it dry, and lubricate it with what its rubber stands: no mineral oil on EPDM.")
	case Static:
		advice = append(advice, "Finish of the surfaces that the ring touches 0.8 um Ra (32 microinch) or finer.")
	case Face:
		return append(advice, "Finish of the faces that the ring touches 0.4 um Ra (16 microinch) or finer for gas and steam.", "The faces meet metal to metal, and the studs must hold them so under pressure: a gap is where the ring is pushed out.")
	}
	return append(advice,
		fmt.Sprintf("Clearance on the diameter %s at most, half of it for silicone; runout of the groove %s at most.", both(g.ClearanceMost), both(g.RunoutMost)),
		"No back-up ring below about 100 bar.")
}

// GrooveFor returns the published groove for a section and duty; a section that
// is not in the table is an error that lists those that are.
func GrooveFor(section units.Length, duty Duty) (Groove, error) {
	for _, g := range grooves.Rows() {
		if g.Section == section && g.Duty == duty {
			return g, nil
		}
	}
	return Groove{}, &units.ArgumentError{Package: "seal", Field: "section and duty of the O-ring", Value: section.String() + ", " + duty.String(), Accepted: "dynamic, static or face, of 0.040, 0.050, 0.060, 0.070, 0.103, 0.139 or 0.210 in", Err: units.ErrUnknown}
}

// A Seat is an O-ring in its groove.
type Seat struct {
	Groove                    Groove
	DiameterLeast             units.Length // of the groove's bottom
	DiameterMost              units.Length
	Stretch                   float64 // of the ring, at the nominal inside diameter; negative: it is compressed
	SqueezeLeast, SqueezeMost float64 // share of the section, with all tolerances of ring and groove and the thinning by stretch
	FillMost                  float64 // greatest share of the groove that the ring takes up
	Findings                  finding.List
}

// OnPiston returns the groove for a ring on a piston in a bore, and how the ring
// sits in it.
//
//	bottom = bore - 2 depth     stretch = bottom/inside - 1
//	squeeze = (w - depth)/w     fill = (pi/4) w^2/(depth width)
//	w^2 (inside + w) is the same before and after the ring is stretched
//
// The depth is that of the published groove and has the clearance of the piston
// in it. The section w is thinned by the stretch: the ring keeps its volume, and
// its section stays round, as the seal maker's design guide takes it (section 5).
// The findings judge stretch, squeeze, fill and how the ring goes over the piston.
// Duty Face is an error, as are a bore that is not above zero and one in which no
// groove is left. See the example.
func (r Ring) OnPiston(bore units.Length, duty Duty) (Seat, error) {
	g, err := r.groove(bore, duty)
	if err != nil {
		return Seat{}, err
	}
	s := Seat{Groove: g, DiameterLeast: bore.Sub(g.DepthMost.Scale(2)), DiameterMost: bore.Sub(g.DepthLeast.Scale(2))}
	if s.DiameterLeast.Sign() <= 0 {
		return Seat{}, bad("bore", bore.String(), "more than twice the depth of the groove, "+g.DepthMost.Scale(2).String())
	}
	middle := s.DiameterLeast.Add(s.DiameterMost).Scale(0.5)
	// the deepest groove has the smallest bottom
	s.fit(r, middle.Ratio(r.Inside)-1, s.DiameterLeast, s.DiameterMost)
	if over := bore.Ratio(r.Inside) - 1; over > mostFitting {
		s.Findings = append(s.Findings, finding.Finding{
			Severity: finding.Note,
			Text:     fmt.Sprintf("To go over the piston the ring is stretched by %.0f percent; more than 50 is not recommended.", 100*over),
			Remedies: []string{"A piston in two parts, or time for the ring to draw in again before it goes into the bore."},
			Refs:     source.Of(source.Ref{Kind: source.Published, Title: glandsPage, Note: "stretch in fitting"}),
		})
	}
	return s, nil
}

// InGland returns the groove for a ring in a gland round a rod, and how the ring
// sits in it.
//
//	bottom = rod + 2 depth     stretch = rod/inside - 1
//
// The rest is as in OnPiston. Errors and source are those of [Ring.OnPiston].
func (r Ring) InGland(rod units.Length, duty Duty) (Seat, error) {
	g, err := r.groove(rod, duty)
	if err != nil {
		return Seat{}, err
	}
	s := Seat{Groove: g, DiameterLeast: rod.Add(g.DepthLeast.Scale(2)), DiameterMost: rod.Add(g.DepthMost.Scale(2))}
	s.fit(r, rod.Ratio(r.Inside)-1, rod, rod)
	return s, nil
}

func (r Ring) groove(diameter units.Length, duty Duty) (Groove, error) {
	if err := radial(duty); err != nil {
		return Groove{}, err
	}
	if err := positive("diameter", diameter); err != nil {
		return Groove{}, err
	}
	if err := positive("inside diameter of the O-ring", r.Inside); err != nil {
		return Groove{}, err
	}
	if r.InsideTolerance.Sign() < 0 || r.InsideTolerance.Cmp(r.Inside) >= 0 || r.SectionTolerance.Sign() < 0 || r.SectionTolerance.Cmp(r.Section) >= 0 {
		return Groove{}, bad("tolerances of the O-ring", r.InsideTolerance.String()+" and "+r.SectionTolerance.String(), "zero or more, and less than its inside diameter and section")
	}
	return GrooveFor(r.Section, duty)
}

// radial returns an error for a duty that no ring of a piston or gland has.
func radial(duty Duty) error {
	if duty != Dynamic && duty != Static {
		return bad("duty of the O-ring", duty.String(), "dynamic or static for a piston or gland")
	}
	return nil
}

const (
	// mostStretch is the seal maker's: 1 to 5 percent, 2 as the ideal, and no more.
	mostStretch = 0.05
	// Below 1/2 in the sizes lie so far apart that the published grooves stretch
	// rings more; 006 on its 1/8 in comes to 9.6 percent.
	smallStretch = 0.10
)

const (
	mostFitting = 0.50 // stretch of a ring while it is fitted; glandsPage
	glandsPage  = "O-ring supplier's page on dynamic glands"
)

// small reports whether what a ring goes round is below 1/2 in.
func small(round units.Length) bool { return round.Cmp(units.InchFraction(1, 2)) < 0 }

// mostFill is the upper end of an O-ring supplier's range.
func mostFill(d Duty) float64 {
	if d == Dynamic {
		return 0.85
	}
	return 0.90
}

// leastStretch is the stretch, below zero, at which a ring at its lower limit is
// just on size.
func (r Ring) leastStretch() float64 { return -r.InsideTolerance.Ratio(r.Inside) }

// fit works out the seat of a ring round a diameter: deep, where the groove is
// deepest, and shallow, where it is least so.
func (s *Seat) fit(r Ring, stretch float64, deep, shallow units.Length) {
	s.Stretch = stretch
	// at its thinnest the ring is the smallest there is, and stretched the most
	least := thinned(r.Section.Sub(r.SectionTolerance), r.Inside.Sub(r.InsideTolerance), deep)
	most := thinned(r.Section.Add(r.SectionTolerance), r.Inside.Add(r.InsideTolerance), shallow)
	s.SqueezeLeast = 1 - s.Groove.DepthMost.MM()/least
	s.SqueezeMost = 1 - s.Groove.DepthLeast.MM()/most
	s.FillMost = math.Pi / 4 * most * most / (s.Groove.DepthLeast.MM() * s.Groove.Width.Sub(s.Groove.WidthTolerance).MM())
	say := func(ref source.Ref, format string, remedy string, args ...any) {
		s.Findings = append(s.Findings, finding.Finding{Severity: finding.Fails, Text: fmt.Sprintf(format, args...), Remedies: []string{remedy}, Refs: source.Of(ref)})
	}
	guide := source.Ref{Kind: source.Published, Title: "Seal maker's design guide", Edition: "first published 1989, later edition", Locator: "section 3", Note: "stretch of 1 to 5 percent, 2 as the ideal"}
	switch {
	case stretch > mostStretch && stretch <= smallStretch && small(shallow):
		s.Findings = append(s.Findings, finding.Finding{
			Severity: finding.Note,
			Text:     fmt.Sprintf("The ring is stretched by %.1f percent. The guides want 5 at most and make an exception below 1/2 in, where the sizes lie far apart; it wears out sooner.", 100*stretch),
			Refs:     source.Of(source.Ref{Kind: source.Published, Title: glandsPage, Note: "diameters below 0.500 in"}),
		})
	case stretch > mostStretch:
		say(guide, "The ring is stretched by %.1f percent; more than 5 thins it and shortens its life.", "Take the next larger ring.", 100*stretch)
	case stretch < r.leastStretch():
		say(guide, "The ring is %.1f percent larger than what it sits on; it may be pinched when the parts go together.", "Take the next smaller ring.", -100*stretch)
	}
	if s.SqueezeLeast <= 0 {
		say(s.Groove.Ref, "At its thinnest the ring is not squeezed at all.", "Take a ring that is stretched less, or a shallower groove.")
	}
	if limit := mostFill(s.Groove.Duty); s.FillMost > limit {
		say(source.Ref{Kind: source.Published, Title: glandsPage, Note: "fill up to 85 percent moving, 90 percent static"},
			"The ring may fill %.0f percent of the groove, and %.0f is the most for %s rings; it swells in service and then has nowhere to go.", "Widen the groove.", 100*s.FillMost, 100*limit, s.Groove.Duty)
	}
}

// thinned returns the section, in millimetres, of a ring that is stretched until
// it goes round a diameter: of the same volume, and still round. A ring that is
// not stretched keeps its section.
func thinned(section, inside, round units.Length) float64 {
	w, d, to := section.MM(), inside.MM(), round.MM()
	if to <= d {
		return w
	}
	volume := w * w * (d + w)
	for range 6 { // Newton, from above: the digits right double each time
		w -= (w*w*(to+w) - volume) / (w * (2*to + 3*w))
	}
	return w
}

// RingsOnPiston returns the rings that sit on a piston in a bore with a stretch
// of up to 5 percent, or on size at their lower limit, the one with the largest
// section first. Where they go round less than 1/2 in and a section has no such
// ring, its ring of up to 10 percent is returned: the sizes lie far apart there.
// None is an error.
func RingsOnPiston(bore units.Length, duty Duty) ([]Ring, error) {
	return choose(bore, "bore", duty, func(r Ring) (Seat, error) { return r.OnPiston(bore, duty) })
}

// RingsInGland returns the rings that fit a rod in the same way. Errors are
// those of [RingsOnPiston].
func RingsInGland(rod units.Length, duty Duty) ([]Ring, error) {
	return choose(rod, "rod", duty, func(r Ring) (Seat, error) { return r.InGland(rod, duty) })
}

func choose(diameter units.Length, what string, duty Duty, seat func(Ring) (Seat, error)) ([]Ring, error) {
	if err := positive(what, diameter); err != nil {
		return nil, err
	}
	if err := radial(duty); err != nil {
		return nil, err
	}
	var fit, tight []Ring
	for _, r := range rings.Rows() {
		s, err := seat(r)
		switch {
		case err != nil || s.Stretch < r.leastStretch():
		case s.Stretch <= mostStretch:
			fit = append(fit, r)
		case s.Stretch <= smallStretch && small(r.Inside.Scale(1+s.Stretch)):
			tight = append(tight, r)
		}
	}
	for i, r := range tight {
		same := func(other Ring) bool { return other.Section == r.Section }
		// in a section the sizes rise: a later ring is stretched less
		if !slices.ContainsFunc(fit, same) && !slices.ContainsFunc(tight[i+1:], same) {
			fit = append(fit, r)
		}
	}
	if len(fit) == 0 {
		return nil, &units.ArgumentError{Package: "seal", Field: what, Value: diameter.String(), Problem: "no ring of the table fits it with a stretch of up to 5 percent, or 10 below 1/2 in", Accepted: "another diameter, or a ring that is not in the table", Err: units.ErrOutOfRange}
	}
	slices.SortStableFunc(fit, func(a, b Ring) int { return b.Section.Cmp(a.Section) })
	return fit, nil
}
