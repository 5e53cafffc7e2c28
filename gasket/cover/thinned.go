package cover

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Face is the face of a cover that was cut too deep.
type Face int

// The faces. A plain cover, without a spigot that enters the bore, has the first
// only, whichever of its sides was cut. The zero value is none.
const (
	OutsideFace Face = iota + 1 // under the nuts
	JointFace                   // of the flange, beside the spigot, where the gasket lies
	SpigotFace                  // of the spigot, towards the piston
)

var faceNames = names.Set{
	Package: "cover", Type: "Face", Field: "face that was cut", Texts: []string{"", "outside", "joint", "spigot"},
}

// Faces returns all of them.
func Faces() []Face { return []Face{OutsideFace, JointFace, SpigotFace} }

// String returns "outside", "joint" or "spigot".
func (f Face) String() string { return faceNames.Text(int(f)) }

// ParseFace returns the face of that name; another text is a
// [*units.ParseError] that lists them.
func ParseFace(name string) (Face, error) {
	v, err := faceNames.Value(name)
	return Face(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (f Face) MarshalText() ([]byte, error) { return faceNames.Marshal(int(f)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (f *Face) UnmarshalText(text []byte) error { return names.Unmarshal(&faceNames, f, text) }

// What the findings of a cover that was cut too thin are about.
const (
	CoverThinned  finding.Code = "cover-thinned"     // it is weaker
	SpigotStrikes finding.Code = "spigot-may-strike" // it reaches deeper into the bore
	StudsProject  finding.Code = "studs-project"     // further through the nuts
	MoreClearance finding.Code = "more-clearance"    // the piston has more room than drawn
)

// A Thinned cover is one that was cut too thin, compared with the one drawn.
type Thinned struct {
	Stress       float64      // times the stress of the part that was cut, as drawn
	Deflection   float64      // times its deflection
	Strength     float64      // share of the pressure that it now stands at the stress as drawn
	Projection   units.Length // how much further the studs stand out, and nearer comes what is on the outside
	EndClearance units.Length // how much more room the piston has at that end; negative: less
	Backing      units.Length // of a loose plate behind the cover that brings the stress back
	Findings     finding.List // what has changed, with what saves it
}

// CutThin says what has changed when a cover was machined thinner by a cut on one
// of its faces, and what puts it right.
//
//	stress      (t / (t - c))^2
//	deflection  (t / (t - c))^3
//	backing     cbrt((t - c) * (t^2 - (t - c)^2))
//
//	t  the thickness as drawn of the part that was cut: the flange or, for
//	   SpigotFace, the middle through the spigot
//	c  the cut, less than the thickness
//
// Stress and deflection go so for any flat plate. The backing is a plate of the
// same material that bends with the cover without being fastened to it, so that
// stiffnesses and not thicknesses add; where less than 0.7 of the thickness is
// left it is as thick as the cover was. Source: mechanics; the other remedies are
// common practice. See the example.
func CutThin(drawn, cut units.Length, face Face) (Thinned, error) {
	if err := fail.Above(fault.Named("thickness of the cover", drawn), fault.Named("cut", cut)); err != nil {
		return Thinned{}, err
	}
	if cut.Cmp(drawn) >= 0 {
		return Thinned{}, fail.OutOfRange("cut", cut, "less than the thickness, "+drawn.String())
	}
	left := drawn.Sub(cut)
	ratio := drawn.Ratio(left)
	t := Thinned{Stress: ratio * ratio, Deflection: ratio * ratio * ratio, Strength: 1 / (ratio * ratio), Backing: drawn}
	if ratio < math.Sqrt2 { // the backing is then the thinner of the two and stressed less
		t.Backing = left.Scale(math.Cbrt(ratio*ratio - 1))
	}
	amount := cut.Text(units.Millimetres, 2)
	switch face {
	case OutsideFace:
		t.Projection = cut
		t.weaker(amount, "cover", "A thick gasket restores no strength: the cover stays thin, and the gasket is easier to blow out.")
		t.say(StudsProject, finding.Note, "The studs stand out "+amount+" further, and what is fixed to the outside comes that much nearer to the cylinder.",
			"Washers or a ring of "+amount+" under the nuts, or studs that much shorter, take up the projection; see that the nuts do not run out of thread.",
			"Shims of "+amount+" put back what is fixed to the outside, such as guide bars.")
	case JointFace:
		t.Projection, t.EndClearance = cut, cut.Neg()
		t.say(SpigotStrikes, finding.Danger, "The spigot reaches "+amount+" deeper into the bore: the piston may strike it.",
			"Turn the engine over by hand, with something soft in the end, before any air or steam.",
			"A metal ring of "+amount+" under the flange, with a gasket on each side, or a gasket thicker by that, "+
				"puts the cover back where it was: clearance, studs and gland.",
			"Or "+amount+" off the spigot restores the clearance alone.")
		t.weaker(amount, "flange", "Neither a ring nor a gasket restores strength, and a thick soft gasket is easier to blow out than a ring.")
	case SpigotFace:
		t.EndClearance = cut
		t.weaker(amount, "middle of the cover", "The flange is as strong as before if only the spigot was cut.")
		t.say(MoreClearance, finding.Note, "The piston has "+amount+" more room at that end: the engine runs and uses more steam. A thick gasket adds to that.",
			"A disc of "+amount+" fixed to the spigot restores the clearance.",
			"A thinner gasket gives back only what it is thinner by.")
	default:
		return Thinned{}, faceNames.Unknown(int(face))
	}
	return t, nil
}

func (t *Thinned) say(code finding.Code, severity finding.Severity, text string, remedies ...string) {
	t.Findings = append(t.Findings, finding.Finding{
		Code: code, Severity: severity, Text: text, Remedies: remedies, Refs: source.Shared(&practice),
	})
}

// provedShare is the share of the pressure below which a thinned cover is stressed
// more than the one drawn at twice its working pressure, at which it would have
// been proved: common practice.
const provedShare = 0.5

// weaker says how much weaker the part is that was cut, with the plate that
// brings the stress back, and what does not.
func (t *Thinned) weaker(amount, part, rest string) {
	severity, breaks := finding.Caution, ""
	if t.Strength < provedShare {
		severity, breaks = finding.Danger, " At the pressure it was drawn for it is stressed more than a test at twice "+
			"that would have shown it to bear, and may break."
	}
	t.say(CoverThinned, severity,
		fmt.Sprintf("The %s is stressed %.2f times as much as drawn and stands %.0f percent of the pressure.%s %s", part, t.Stress, 100*t.Strength, breaks, rest),
		fmt.Sprintf("A loose plate of the same material behind it, at least %s thick, brings the stress back; %s would do next to nothing.",
			t.Backing.Text(units.Millimetres, 2), amount))
}

var practice = source.Ref{Kind: source.CommonPractice}
