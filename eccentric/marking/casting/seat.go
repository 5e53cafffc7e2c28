package casting

import (
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Seat is how a bored wheel sits on a shaft or on a mandrel.
type Seat struct {
	Clearance units.Length // of the bore, on the diameter; on a taper mandrel where it is tightest, which is zero
	Taper     float64      // of the mandrel: diameter lost for each unit of length; zero: parallel
	Length    units.Length // of the bore, or as much of it as touches
}

// A RunOut is the most that a wheel runs out on its seat. The one excludes the other: it
// lies over to one side, or it stands slanting about its middle.
type RunOut struct {
	Offset units.Length // of its middle from the axis
	Rim    units.Length // that a dial then goes over on a true rim
	Tilt   units.Angle  // of the wheel against the axis
	Face   units.Length // that a dial then goes over on a true face, at the diameter asked for
	Refs   source.Refs
}

// RunOut returns the most by which a wheel on the seat runs out:
//
//	offset = (c + f)/4     rim = 2*offset
//	tilt = (c + f)/(2*L)   face = D*tilt
//	f = c + T*L
//
//	c, f   clearance at the tight end and at the other
//	T, L   taper, length of the bore
//	D      diameter on which the face is looked at
//
// A grub screw draws the wheel over to its own side by the whole offset, c/2 on a parallel
// shaft, and the rim stands out on the side of the screw. A clearance from zero to a tenth
// of the length; a taper from zero to 0.02. To first order, 1e-5 of the answer for
// clearances of a hundredth of the length. Geometry. See the Example.
func (s Seat) RunOut(diameter units.Length) (RunOut, error) {
	if err := s.Validate(); err != nil {
		return RunOut{}, err
	}
	if diameter.Sign() <= 0 || diameter.Cmp(farthest) > 0 {
		return RunOut{}, fail.OutOfRange("diameter", diameter, "above zero, up to 100 m")
	}
	both := s.Clearance.Scale(2).Add(s.Length.Scale(s.Taper)) // c + f
	r := RunOut{Offset: both.Scale(0.25), Rim: both.Scale(0.5), Tilt: units.Angle(both.Ratio(s.Length) / 2),
		Refs: source.Of(source.Ref{Kind: source.Derived, Note: "geometry of a bore on a shaft or a mandrel"})}
	r.Face = diameter.Scale(float64(r.Tilt)) // D*tilt
	return r, nil
}

// Validate returns an error for a seat that cannot be.
func (s Seat) Validate() error {
	if s.Length.Sign() <= 0 || s.Length.Cmp(farthest) > 0 {
		return fail.OutOfRange("length of the bore", s.Length, "above zero, up to 100 m")
	}
	if s.Clearance.Sign() < 0 || s.Clearance.Cmp(s.Length.Scale(0.1)) > 0 {
		return fail.OutOfRange("clearance", s.Clearance, "from zero to a tenth of the length of the bore")
	}
	if err := fault.Finite(fail, "taper", s.Taper); err != nil {
		return err
	}
	if s.Taper < 0 || s.Taper > 0.02 {
		return fail.OutOfRange("taper", s.Taper, "from zero to 0.02, such as 0.0005 for 0.006 in per foot")
	}
	return nil
}

// A MandrelTaper is by how much a lathe mandrel tapers.
type MandrelTaper struct {
	Min, Max float64 // diameter lost for each unit of length
	Refs     source.Refs
}

// MandrelTaperFor returns by how much solid lathe mandrels are made taper: 0.006 to 0.010
// in per foot. Lobben, p. 475. See the Example of [Seat.RunOut].
func MandrelTaperFor() MandrelTaper {
	return MandrelTaper{Min: 0.006 / 12, Max: 0.010 / 12, Refs: source.Of(source.Ref{
		Kind: source.Published, Title: "Lobben, Machinists' and Draftsmen's Handbook", Edition: "1910", Locator: "p. 475, lathe mandrels"})}
}

// EdgesAgree returns by how much the swing of the dial at one edge of a turned rim may
// differ from that at the other, for its second face to come parallel to the first:
//
//	edges = 2*w*p/D
//
//	w   width of the rim, between the two places of the dial
//	p   by how much the width may differ round the wheel
//	D   diameter of the rim
//
// All above zero, and p below D. Geometry, for small tilts. See the Example.
func EdgesAgree(diameter, width, parallel units.Length) (units.Length, error) {
	if err := fail.Above(fault.Named("diameter", diameter), fault.Named("width of the rim", width),
		fault.Named("parallel within", parallel)); err != nil {
		return units.Length{}, err
	}
	if parallel.Cmp(diameter) >= 0 {
		return units.Length{}, fail.OutOfRange("parallel within", parallel, "below the diameter of the rim")
	}
	return width.Scale(2 * parallel.Ratio(diameter)), nil
}
