package marking

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// A Sheave is the disc that the strap runs on, with the boss that holds it to the
// shaft. Its bore and its boss have the shaft's axis.
type Sheave struct {
	Bore, Offset units.Length
	Diameter     units.Length // that the strap runs on, the bottom of the groove where there is one
	Lip          units.Length // how far flanges stand above it; zero: a plain sheave
	Boss         units.Length // its diameter; zero: none
	Screw        units.Length // diameter of the grub screw; zero: none
	Clean        units.Length // that comes off the bar all round; zero for bright bar that is left as it is
	Bar          units.Length // that there is; zero: not given
}

// Walls are what there is of metal in a sheave, and the bar that it comes out of.
type Walls struct {
	Thin, Thick units.Length // beside the bore, where the sheave is thinnest and opposite
	Boss        units.Length // of the boss round the bore; zero without one
	Beyond      units.Length // of the boss past the sheave, on the thin side; below zero it lies inside
	Thread      units.Length // that the grub screw has, in the boss or on the thick side
	Blank       units.Length // the smallest round bar that will do
}

// What [Sheave.Check] finds.
const (
	NoWall      finding.Code = "no-wall"       // the bore comes out through the face that the strap runs on
	ThinSheave  finding.Code = "thin-sheave"   // little metal beside the bore
	ShortScrew  finding.Code = "short-grub"    // little thread for the grub screw
	BossInStrap finding.Code = "boss-in-strap" // the boss stands out past the face that the strap runs on
	BarTooSmall finding.Code = "bar-too-small" // the sheave does not come out of the bar that there is
)

// Walls returns the metal beside the bore, in the boss and for the grub screw, and the
// smallest bar:
//
//	thin, thick = (D - d)/2 -+ e
//	boss        = (b - d)/2
//	blank       = max(D + 2*lip, b + 2*e) + 2*clean
//
//	D, d   sheave and bore
//	b      boss
//	e      offset
//
// The blank has the sheave's axis and is set over for boss and bore, so that a boss that
// reaches further out sets its size. Geometry. It fails where [Sheave.Validate] does. See
// the Example.
func (s Sheave) Walls() (Walls, error) {
	if err := s.Validate(); err != nil {
		return Walls{}, err
	}
	half := s.Diameter.Sub(s.Bore).Scale(0.5)
	w := Walls{Thin: half.Sub(s.Offset), Thick: half.Add(s.Offset)} // (D - d)/2 -+ e
	w.Thread = w.Thick
	w.Blank = s.Diameter.Add(s.Lip.Scale(2))
	if !s.Boss.IsZero() {
		w.Boss = s.Boss.Sub(s.Bore).Scale(0.5)
		w.Beyond = s.Boss.Scale(0.5).Add(s.Offset).Sub(s.Diameter.Scale(0.5))
		w.Thread = w.Boss
		if reach := s.Boss.Add(s.Offset.Scale(2)); reach.Cmp(w.Blank) > 0 {
			w.Blank = reach
		}
	}
	w.Blank = w.Blank.Add(s.Clean.Scale(2))
	return w, nil
}

// Check finds what is wrong with a sheave. A bore that comes out through its side and a
// bar that is too small fail. Less metal beside the bore or in the boss than an eighth of
// the bore, the proportion of a locomotive's boss that Low draws, is a Caution, and so is
// less thread for a grub screw than its diameter, by common practice. A boss past the
// face that the strap runs on is a Note. It fails where [Sheave.Validate] does. See the
// Example of [Sheave.Walls].
func (s Sheave) Check() (finding.List, error) {
	w, err := s.Walls()
	if err != nil {
		return nil, err
	}
	var found finding.List
	larger := fmt.Sprintf("Make it %s or more, twice the offset, the bore and a quarter of it.",
		s.Offset.Scale(2).Add(s.Bore.Scale(1.25)).Text(units.Millimetres, 2))
	least := s.Bore.Scale(0.125)
	switch {
	case w.Thin.Sign() <= 0:
		found = append(found, finding.Finding{Code: NoWall, Severity: finding.Fails, Refs: source.Of(lowRef()),
			Text:     fmt.Sprintf("The bore of %v, %v off centre, comes out through the side of a sheave of %v.", s.Bore, s.Offset, s.Diameter),
			Remedies: []string{larger}})
	case w.Thin.Cmp(least) < 0:
		found = append(found, finding.Finding{Code: ThinSheave, Severity: finding.Caution, Refs: source.Of(lowRef()),
			Text: fmt.Sprintf("Beside the bore the sheave is %s (%s) thick, less than an eighth of the bore, %s.",
				w.Thin.Text(units.Millimetres, 2), w.Thin.Text(units.Thousandths, 0), least.Text(units.Millimetres, 2)),
			Remedies: []string{larger}})
	}
	if !s.Boss.IsZero() && w.Boss.Cmp(least) < 0 {
		found = append(found, finding.Finding{Code: ThinSheave, Severity: finding.Caution, Refs: source.Of(lowRef()),
			Text: fmt.Sprintf("Round the bore the boss is %s (%s) thick, less than an eighth of the bore, %s.",
				w.Boss.Text(units.Millimetres, 2), w.Boss.Text(units.Thousandths, 0), least.Text(units.Millimetres, 2)),
			Remedies: []string{fmt.Sprintf("Make the boss %s or more.", s.Bore.Scale(1.25).Text(units.Millimetres, 2))}})
	}
	if !s.Screw.IsZero() && w.Thread.Cmp(s.Screw) < 0 {
		remedy := fmt.Sprintf("Use a thinner screw, or give it a boss of %s.", s.Bore.Add(s.Screw.Scale(2)).Text(units.Millimetres, 2))
		found = append(found, finding.Finding{Code: ShortScrew, Severity: finding.Caution, Refs: source.Of(source.Practice()),
			Text:     fmt.Sprintf("The grub screw of %v has %s of thread, less than its diameter.", s.Screw, w.Thread.Text(units.Millimetres, 2)),
			Remedies: []string{remedy}})
	}
	if !s.Bar.IsZero() && s.Bar.Cmp(w.Blank) < 0 {
		found = append(found, finding.Finding{Code: BarTooSmall, Severity: finding.Fails,
			Text: fmt.Sprintf("The bar of %v is %s (%s) too small for a sheave that wants %s.", s.Bar, w.Blank.Sub(s.Bar).Text(units.Millimetres, 2),
				w.Blank.Sub(s.Bar).Text(units.Thousandths, 0), w.Blank.Text(units.Millimetres, 2)),
			Remedies: []string{fmt.Sprintf("Take a bar of %s or more.", w.Blank.Text(units.Millimetres, 2))}})
	}
	if w.Beyond.Sign() > 0 {
		found = append(found, finding.Finding{Code: BossInStrap, Severity: finding.Note,
			Text: fmt.Sprintf("The boss stands %s past the face that the strap runs on: a strap in one piece goes on from the other side, "+
				"and the bar is larger than the sheave.", w.Beyond.Text(units.Millimetres, 2))})
	}
	return found, nil
}

// A Groove is that of a sheave between its lips, in which the strap runs.
type Groove struct {
	Min, Max units.Length // its width
	Lip      units.Length // the least height of its lips
	Refs     source.Refs
}

// GrooveFor returns the groove for a strap of a width: 0.05 to 0.1 mm wider, with lips of an
// eighth of that width and not below 0.8 mm. A strap from 1 mm to 1 m. Common practice of
// small engines, without a source; a builder may differ. See the Example of [Sheave.Walls].
func GrooveFor(strap units.Length) (Groove, error) {
	if strap.Cmp(units.MM(1)) < 0 || strap.Cmp(units.MM(1000)) > 0 {
		return Groove{}, fail.OutOfRange("width of the strap", strap, "1 mm to 1 m")
	}
	lip := strap.Scale(0.125)
	if least := units.MM(0.8); lip.Cmp(least) < 0 {
		lip = least
	}
	return Groove{
		Min: strap.Add(units.Micron(50)), Max: strap.Add(units.Micron(100)), Lip: lip, Refs: source.Of(source.Practice()),
	}, nil
}

// Validate returns an error for sizes that cannot be.
func (s Sheave) Validate() error {
	if err := fail.Above(fault.Named("bore", s.Bore), fault.Named("offset", s.Offset), fault.Named("sheave", s.Diameter)); err != nil {
		return err
	}
	for _, l := range []struct {
		field string
		value units.Length
	}{{"lip", s.Lip}, {"grub screw", s.Screw}, {"cleaning", s.Clean}, {"bar", s.Bar}} {
		if l.value.IsZero() {
			continue
		}
		if err := fail.Above(fault.Named(l.field, l.value)); err != nil {
			return err
		}
	}
	if !s.Boss.IsZero() && s.Boss.Cmp(s.Bore) <= 0 {
		return fail.OutOfRange("boss", s.Boss, "more than the bore, "+s.Bore.String())
	}
	return fail.Within(fault.Named("boss", s.Boss))
}

func lowRef() source.Ref {
	return source.Ref{Kind: source.Published, Title: "An Introduction to Machine Drawing and Design, by D. A. Low", Edition: "4th edition, 1890",
		Locator: "Fig. 40, p. 48", Note: "a boss of 10 in on a shaft of 8 in; a drawn example, no rule"}
}
