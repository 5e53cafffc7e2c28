package engine

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
)

// shafts compares the fits of one shaft, which has one nominal size, one tolerance
// class and is of one material, and fits that are given twice by the same name.
func (e *Engine) shafts() error {
	var all []error
	sized, made, named, classed := map[string]int{}, map[string]int{}, map[string]int{}, map[string]int{}
	key := func(i int, field string) string { return fmt.Sprintf("fits[%d].%s", i, field) }
	size := func(i, first int, accepted string) bool {
		a, b := e.File.Fits[first].Nominal, e.File.Fits[i].Nominal
		if *a == *b {
			return false
		}
		all = append(all, e.Contradicts(key(i, "nominal"), b.String(), key(first, "nominal"), a.String(), accepted))
		return true
	}
	for i, f := range e.File.Fits {
		shaft, told := placeName(f.Shaft), false
		if first, again := sized[shaft]; shaft == "" || f.Nominal == nil {
		} else if again {
			told = size(i, first, fmt.Sprintf("one nominal size for the shaft %q; or a name of its own for each step of it", short(f.Shaft)))
		} else {
			sized[shaft] = i
		}
		if first, again := made[shaft]; shaft == "" || f.ShaftMaterial == nil {
		} else if a := e.File.Fits[max(first, 0)].ShaftMaterial; again && a.Name != f.ShaftMaterial.Name {
			all = append(all, e.Contradicts(key(i, "shaft_material"), f.ShaftMaterial.Name, key(first, "shaft_material"),
				a.Name, fmt.Sprintf("one material for the shaft %q", short(f.Shaft))))
		} else if !again {
			made[shaft] = i
		}
		if class := shaftClass(f); shaft != "" && class != "" && !told {
			if first, again := classed[shaft]; !again {
				classed[shaft] = i
			} else if a := shaftClass(e.File.Fits[first]); a != class {
				all = append(all, e.Contradicts(key(i, "fit"), "a shaft of "+class, key(first, "fit"), "a shaft of "+a,
					fmt.Sprintf("one size for the shaft %q, as a bar has, such as F8/h6 and H7/h6; or a name of its own for each step of it",
						short(f.Shaft))))
			}
		}
		where := placeName(f.Where)
		if first, again := named[where]; where == "" || f.Nominal == nil || told {
		} else if again {
			size(i, first, fmt.Sprintf("one nominal size for %q; or another name for one of the two fits", short(f.Where)))
		} else {
			named[where] = i
		}
	}
	return Join(all...)
}

// shaftClass is the tolerance class of the shaft of a fit: of the standard, or that
// of the inch fit; blank where the fit is chosen, or the shaft is made to its hole.
func shaftClass(f Fit) string {
	if f.HoleCameOut != nil || f.ShaftCameOut != nil {
		return ""
	}
	if fit, err := fits.ParseFit(f.Fit); err == nil {
		return fit.Shaft.String()
	}
	if f.Nominal == nil {
		return ""
	}
	inch, err := fits.ParseInchFit(f.Fit)
	if err != nil {
		return ""
	}
	r, err := inch.LimitsFor(*f.Nominal)
	if err != nil {
		return ""
	}
	return r.Shaft.Text(units.Inches, 4)
}

// IsPiston reports whether a fit is named as that of the piston in its bore.
func (f Fit) IsPiston() bool { return pistonInCylinder(f.Where) }

// bore compares the bore with what else is said of it: the nominal size of the
// fit of the piston in the cylinder, what the cylinder is bored or reamed to, and
// the opening of the gasket of its cover.
func (e *Engine) bore() error {
	bore := e.File.Cylinder.Bore
	if bore == nil {
		return nil
	}
	var all []error
	const key = "cylinder.bore"
	complain := func(other string, says units.Length, accepted string) {
		all = append(all, e.Contradicts(other, says.String(), key, bore.String(), accepted))
	}
	for i, f := range e.File.Fits {
		if f.Nominal != nil && pistonInCylinder(f.Where) && *f.Nominal != *bore {
			complain(fmt.Sprintf("fits[%d].nominal", i), *f.Nominal, "the bore as the nominal size of the piston in the cylinder")
		}
	}
	for i, o := range e.File.Operations {
		if o.Operation == nil || o.Diameter == nil || placeName(o.Part) != "cylinder" {
			continue
		}
		if (*o.Operation == speeds.Boring || *o.Operation == speeds.Reaming) && o.Diameter.Cmp(*bore) > 0 {
			complain(fmt.Sprintf("operations[%d].diameter", i), *o.Diameter,
				`up to the bore for the part "cylinder"; or another name for the part, such as "cylinder, relief"`)
		}
	}
	for i, c := range e.File.Covers {
		if c.Opening != nil && placeName(c.Where) == "cylinder cover" && c.Opening.Cmp(*bore) < 0 {
			complain(fmt.Sprintf("covers[%d].opening", i), *c.Opening,
				"an opening of the gasket not smaller than the bore, so that the piston passes it; or none")
		}
	}
	return Join(all...)
}

// pistonInCylinder reports whether a fit is named as that of the piston in its
// bore: "piston in cylinder", "piston to the bore", "cylinder and piston".
func pistonInCylinder(where string) bool {
	piston, cylinder := false, false
	for _, word := range strings.FieldsFunc(placeName(where), func(r rune) bool { return !unicode.IsLetter(r) }) {
		switch {
		case word == "piston":
			piston = true
		case word == "cylinder" || word == "bore":
			cylinder = true
		case !slices.Contains([]string{"in", "into", "to", "of", "and", "its", "with", "fit"}, word):
			return false
		}
	}
	return piston && cylinder
}

// Rim returns which operation turns or faces the part of an operation to its
// largest diameter, by which a flywheel is judged; false where none does.
func (e *Engine) Rim(operation int) (int, bool) {
	part, rim := placeName(e.File.Operations[operation].Part), -1
	for i, o := range e.File.Operations {
		switch {
		case placeName(o.Part) != part || o.Operation == nil || o.Diameter == nil || o.Material == nil:
			continue
		case !o.Operation.TurnsWork() || *o.Operation == speeds.Boring:
			continue
		}
		if rim < 0 || o.Diameter.Cmp(*e.File.Operations[rim].Diameter) > 0 {
			rim = i
		}
	}
	return rim, rim >= 0
}

// parts compares the operations on one part: it runs at one speed in the engine.
func (e *Engine) parts() error {
	var all []error
	first := map[string]int{}
	for i, o := range e.File.Operations {
		part := placeName(o.Part)
		if part == "" || o.RunsAt == nil {
			continue
		}
		k, again := first[part]
		if !again {
			first[part] = i
			continue
		}
		if a := e.File.Operations[k].RunsAt; *a != *o.RunsAt {
			all = append(all, e.Contradicts(fmt.Sprintf("operations[%d].runs_at", i), o.RunsAt.String(),
				fmt.Sprintf("operations[%d].runs_at", k), a.String(), fmt.Sprintf("one speed for the part %q", short(o.Part))))
		}
	}
	return Join(all...)
}
