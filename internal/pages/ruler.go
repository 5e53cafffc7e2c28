package pages

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A ruler writes the lengths of a formula in the unit that is read first.
type ruler struct{ inch bool }

// rulerOf is the ruler of who drew the engine.
func rulerOf(e *engine.Engine) ruler { return ruler{e.Inches()} }

// firstRead is a book on an engine file with the unit of the file first; what the
// builder gave a name keeps it.
func firstRead(e *engine.Engine, b book.Book) book.Book {
	if !e.Inches() {
		return b
	}
	names := []string{e.File.Name, b.From}
	for _, f := range e.File.Fits {
		names = append(names, f.Where, f.Shaft)
	}
	for _, f := range e.File.Fasteners {
		names = append(names, f.Where)
	}
	for _, o := range e.File.Operations {
		names = append(names, o.Part)
	}
	for _, c := range e.File.Covers {
		names = append(names, c.Where)
	}
	return b.InchFirst(names...)
}

// unit is the name of the unit.
func (r ruler) unit() string {
	if r.inch {
		return "in"
	}
	return "mm"
}

// plain is a length without its unit and without noughts at the end: to a micron,
// or to a tenth of a thou where it is no fraction of a drawing.
func (r ruler) plain(l units.Length) string {
	if !r.inch {
		return plain(l)
	}
	places := 4
	if f, err := l.NearestFraction(64); err == nil && f.Rest.IsZero() {
		places = 6
	}
	return strings.TrimSuffix(strings.TrimRight(l.Decimal(units.Inches, places), "0"), ".")
}

// decimal is a length without its unit, in millimetres to so many places, or in
// inches to one more.
func (r ruler) decimal(l units.Length, places int) string {
	if r.inch {
		return l.Decimal(units.Inches, places+1)
	}
	return l.Decimal(units.Millimetres, places)
}

// text is decimal with the unit behind it.
func (r ruler) text(l units.Length, places int) string { return r.decimal(l, places) + " " + r.unit() }

// drawn is text, or the fraction of an inch that a drawing has for it.
func (r ruler) drawn(l units.Length, places int) string {
	if f, err := l.NearestFraction(64); r.inch && err == nil && f.Rest.IsZero() {
		return f.String()
	}
	return r.text(l, places)
}

// exact is a length with all its digits and its unit.
func (r ruler) exact(l units.Length) string {
	if r.inch {
		return r.plain(l) + " in"
	}
	return l.String()
}

// small is a small length with its unit, to hundredths of a millimetre or tenths of
// a thou.
func (r ruler) small(l units.Length) string {
	if r.inch {
		return l.Text(units.Thousandths, 1)
	}
	return l.Text(units.Millimetres, 2)
}

// force is one to so many places in newtons; in pounds to one more.
func (r ruler) force(f units.Force, places int) string {
	if r.inch {
		return fmt.Sprintf("%.*f lbf", places+1, f.In(units.PoundForce))
	}
	return fmt.Sprintf("%.*f N", places, f.In(units.Newton))
}

func (r ruler) torque(t units.Torque) string {
	if r.inch {
		return fmt.Sprintf("%.1f lbf in", t.In(units.PoundForceInch))
	}
	return fmt.Sprintf("%.2f N m", t.In(units.NewtonMetre))
}

func (r ruler) stress(p units.Pressure) string {
	if r.inch {
		return fmt.Sprintf("%.0f psi", p.In(units.PSI))
	}
	return fmt.Sprintf("%.1f MPa", p.In(units.Megapascal))
}

func (r ruler) pressure(p units.Pressure) string {
	if r.inch {
		return fmt.Sprintf("%.3g psi", p.In(units.PSI))
	}
	return fmt.Sprintf("%.3g bar", p.In(units.Bar))
}

// area is one to so many places in square millimetres; in square inches to three more.
func (r ruler) area(a units.Area, places int) string {
	if r.inch {
		return fmt.Sprintf("%.*f in2", places+3, a.In(units.SquareInch))
	}
	return fmt.Sprintf("%.*f mm2", places, a.In(units.SquareMillimetre))
}

// worked is a formula with lengths in it, in both units.
func worked(refs source.Refs, text func(r ruler) string) book.Formula {
	return book.Formula{Text: text(ruler{}), Inch: text(ruler{inch: true}), Refs: refs}
}

// noted is a note with lengths in it, in both units.
func noted(refs source.Refs, text func(r ruler) string) book.Note {
	return book.Note{Text: text(ruler{}), Inch: text(ruler{inch: true}), Refs: refs}
}

// threads says of a pitch how many of it an inch has, in a book of inches.
func (r ruler) threads(pitch units.Length) string {
	if !r.inch {
		return ""
	}
	return figures(1/pitch.In(units.Inches), 3) + " to the inch"
}
