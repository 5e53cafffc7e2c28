package cover

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Face is the face of a cover that was cut too deep.
type Face int

// The faces. A plain cover, without a spigot that enters the bore, has the first
// only, whichever of its sides was cut.
const (
	OutsideFace Face = iota // under the nuts
	JointFace               // of the flange, beside the spigot, where the gasket lies
	SpigotFace              // of the spigot, towards the piston
)

var faceNames = names.Set{Package: "cover", Type: "Face", Field: "face that was cut", Texts: []string{"outside", "joint", "spigot"}}

// String returns "outside", "joint" or "spigot".
func (f Face) String() string { return faceNames.Text(int(f)) }

// ParseFace returns the face of that name, in capitals or not; see
// [Face.String]. Another text is an [*units.ArgumentError] that lists the
// accepted ones.
func ParseFace(name string) (Face, error) {
	v, err := faceNames.Value(name)
	return Face(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (f Face) MarshalText() ([]byte, error) { return faceNames.Marshal(int(f)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (f *Face) UnmarshalText(text []byte) error { return names.Unmarshal(&faceNames, f, text) }

// A Thinned cover is one that was cut too thin, compared with the one drawn.
type Thinned struct {
	Stress       float64      // times the stress of the part that was cut, as drawn
	Deflection   float64      // times its deflection
	Strength     float64      // share of the pressure that it now stands at the stress as drawn
	Projection   units.Length // how much further the studs stand out, and how much nearer to the cylinder all on the outside stands: gland, guides
	EndClearance units.Length // how much more room the piston has at that end; negative: less
	Backing      units.Length // of a loose plate behind the cover that brings the stress back
	Saved        []string     // what can be done
	Lost         []string     // what cannot
	Findings     finding.List
}

// CutThin says what has changed when a cover was machined thinner by a cut on one
// of its faces, and what puts it right.
//
//	stress (t/(t-c))^2    deflection (t/(t-c))^3    backing cbrt((t-c)(t^2 - (t-c)^2))
//
// t is the thickness as drawn of the part that was cut, the flange or, for
// SpigotFace, the middle through the spigot, and c the cut: above zero and less
// than the thickness. Stress and deflection go so for any flat plate. The
// backing is a plate of the same material that bends with the cover without
// being fastened to it, so that stiffnesses and not thicknesses add; where less
// than 0.7 of the thickness is left it is as thick as the cover was. Mechanics;
// the other remedies are common practice. Anything else is an
// [*units.ArgumentError]. See the example.
func CutThin(thickness, cut units.Length, face Face) (Thinned, error) {
	if err := first(length("thickness of the cover", thickness), length("cut", cut)); err != nil {
		return Thinned{}, err
	}
	if cut.Cmp(thickness) >= 0 {
		return Thinned{}, bad("cut", cut.String(), "less than the thickness, "+thickness.String())
	}
	left := thickness.Sub(cut)
	ratio := thickness.Ratio(left)
	t := Thinned{Stress: ratio * ratio, Deflection: ratio * ratio * ratio, Strength: 1 / (ratio * ratio), Backing: thickness}
	if ratio < math.Sqrt2 { // the backing is then the thinner of the two and stressed less
		t.Backing = left.Scale(math.Cbrt(ratio*ratio - 1))
	}
	amount := cut.Text(units.Millimetres, 2)
	backing := fmt.Sprintf("A loose plate of the same material behind it, at least %s thick, brings the stress back; %s would do next to nothing.", t.Backing.Text(units.Millimetres, 2), amount)
	switch face {
	case OutsideFace:
		t.Projection = cut
		t.Saved = []string{
			"Washers or a ring of " + amount + " under the nuts, or studs that much shorter, take up the projection; see that the nuts do not run out of thread.",
			"Shims of " + amount + " put back what is fixed to the outside, such as guide bars.",
			backing,
		}
		t.Lost = []string{"A thick gasket restores no strength: the cover stays thin, and the gasket is easier to blow out."}
	case JointFace:
		t.Projection, t.EndClearance = cut, cut.Neg()
		t.Saved = []string{
			"A metal ring of " + amount + " under the flange, with a gasket on each side, or a gasket thicker by that, puts the cover back where it was: clearance, studs and gland.",
			"Or " + amount + " off the spigot restores the clearance alone.",
			backing,
		}
		t.Lost = []string{"Neither restores strength: the flange stays thin. A thick soft gasket is easier to blow out than a ring."}
		t.Findings = finding.List{{
			Severity: finding.Danger,
			Text:     "The spigot reaches " + amount + " deeper into the bore: the piston may strike it.",
			Remedies: []string{"Turn the engine over by hand, with something soft in the end, before any air or steam."},
			Refs:     source.Of(source.Practice()),
		}}
	case SpigotFace:
		t.EndClearance = cut
		t.Saved = []string{
			"A disc of " + amount + " fixed to the spigot restores the clearance; without it the engine runs and uses more steam.",
			"A thinner gasket gives back only what it is thinner by.",
			"The flange is as strong as before if only the spigot was cut.",
		}
		t.Lost = []string{"A thick gasket does not help here: it adds to the clearance."}
	default:
		_, err := face.MarshalText() // which knows the faces there are
		return Thinned{}, err
	}
	return t, nil
}
