package check_test

import (
	"errors"
	"go/ast"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/gasket/cover"
	"github.com/valvechest/valvechest/gasket/joint"
	"github.com/valvechest/valvechest/gasket/seal"
	"github.com/valvechest/valvechest/gasket/template"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/dividing"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/screwcut"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/thread/wires"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// reading gives the error alone of a function that reads text.
func reading[T any](read func(string) (T, error)) func(string) error {
	return func(text string) error { _, err := read(text); return err }
}

// readers are the functions of the library that read text.
var readers = map[string]func(string) error{
	"eccentric.ParseEnd":                  reading(eccentric.ParseEnd),
	"eccentric.ParsePortState":            reading(eccentric.ParsePortState),
	"eccentric.ParseRod":                  reading(eccentric.ParseRod),
	"fits.ParseBasis":                     reading(fits.ParseBasis),
	"fits.ParseClass":                     reading(fits.ParseClass),
	"fits.ParseFeature":                   reading(fits.ParseFeature),
	"fits.ParseFit":                       reading(fits.ParseFit),
	"fits.ParseGrade":                     reading(fits.ParseGrade),
	"fits.ParseInchFit":                   reading(fits.ParseInchFit),
	"fits.ParseKind":                      reading(fits.ParseKind),
	"fits.ParseSizedClass":                func(s string) error { _, _, err := fits.ParseSizedClass(s); return err },
	"fits.ParseSizedFit":                  func(s string) error { _, _, err := fits.ParseSizedFit(s); return err },
	"gasket.ParseAction":                  reading(gasket.ParseAction),
	"gasket/cover.ParseFace":              reading(cover.ParseFace),
	"gasket/joint.ParseWidthRule":         reading(joint.ParseWidthRule),
	"gasket/seal.LookupRing":              reading(seal.LookupRing),
	"gasket/seal.ParseDuty":               reading(seal.ParseDuty),
	"gasket/seal.ParseMedium":             reading(seal.ParseMedium),
	"gasket/seal.ParsePlace":              reading(seal.ParsePlace),
	"gasket/template.ParsePaper":          reading(template.ParsePaper),
	"speeds.ParseLadder":                  reading(speeds.ParseLadder),
	"speeds.ParseOperation":               reading(speeds.ParseOperation),
	"speeds.ParseShopRule":                reading(speeds.ParseShopRule),
	"speeds.ParseTool":                    reading(speeds.ParseTool),
	"speeds/dividing.ParseCircles":        reading(dividing.ParseCircles),
	"thread.Parse":                        reading(thread.Parse),
	"thread.ParseBasis":                   reading(thread.ParseBasis),
	"thread.ParseClearanceClass":          reading(thread.ParseClearanceClass),
	"thread.ParseForm":                    reading(thread.ParseForm),
	"thread.ParseSeries":                  reading(thread.ParseSeries),
	"thread.ParsePipeHoleKind":            reading(thread.ParsePipeHoleKind),
	"thread.ParseTap":                     reading(thread.ParseTap),
	"thread/strength.ParseEngagementRule": reading(strength.ParseEngagementRule),
	"thread/screwcut.ParseLead":           reading(screwcut.ParseLead),
	"thread/screwcut.ParseToolTip":        reading(screwcut.ParseToolTip),
	"thread/wires.ParseLeadCorrection":    reading(wires.ParseLeadCorrection),
	"thread/screwcut.ParseWheels":         reading(screwcut.ParseWheels),
	"units.LengthUnit.Parse":              reading(units.Millimetres.Parse),
	"units.ParseAngle":                    reading(units.ParseAngle),
	"units.ParseArea":                     reading(units.ParseArea),
	"units.ParseDensity":                  reading(units.ParseDensity),
	"units.ParseEnergy":                   reading(units.ParseEnergy),
	"units.ParseExpansivity":              reading(units.ParseExpansivity),
	"units.ParseForce":                    reading(units.ParseForce),
	"units.ParseLength":                   reading(units.ParseLength),
	"units.ParseLengthUnit":               reading(units.ParseLengthUnit),
	"units.ParseMass":                     reading(units.ParseMass),
	"units.ParsePower":                    reading(units.ParsePower),
	"units.ParsePressure":                 reading(units.ParsePressure),
	"units.ParseRotationalSpeed":          reading(units.ParseRotationalSpeed),
	"units.ParseRoundMode":                reading(units.ParseRoundMode),
	"units.ParseSpeed":                    reading(units.ParseSpeed),
	"units.ParseTemperature":              reading(units.ParseTemperature),
	"units.ParseTemperatureDifference":    reading(units.ParseTemperatureDifference),
	"units.ParseTorque":                   reading(units.ParseTorque),
	"units.ParseVolume":                   reading(units.ParseVolume),
	"units.ParseVolumeFlow":               reading(units.ParseVolumeFlow),
	"units/finding.ParseSeverity":         reading(finding.ParseSeverity),
	"units/gauge.Parse":                   reading(gauge.Parse),
	"units/gauge.ParseSet":                reading(gauge.ParseSet),
	"units/gauge.ParseSystem":             reading(gauge.ParseSystem),
	"units/gauge.Set.Lookup":              reading(gauge.Letter().Lookup),
	"units/material.Lookup":               reading(material.Lookup),
	"units/material.ParseFamily":          reading(material.ParseFamily),
	"units/source.ParseKind":              reading(source.ParseKind),
}

// The same bad text is caught by one errors.As whichever function it went to,
// and the error says which package refuses and what is accepted.
func TestUnreadableText(t *testing.T) {
	for name, read := range readers {
		dir, _, _ := strings.Cut(name, ".")
		pkg := dir[strings.LastIndexByte(dir, '/')+1:]
		for _, text := range []string{"", "no such thing", "\x00", "1,5 ?", strings.Repeat("x", 500)} {
			err := read(text)
			var bad *units.ParseError
			switch {
			case !errors.As(err, &bad):
				t.Errorf("%s(%.20q): %T, %v", name, text, err, err)
			case !strings.HasPrefix(bad.Error(), pkg+": ") || len(bad.Near) == 0 && bad.Accepted == "":
				t.Errorf("%s(%.20q): %v", name, text, bad)
			case bad.What == "" || bad.Err == nil:
				t.Errorf("%s(%.20q): %#v", name, text, bad)
			case err.Error() != bad.Error():
				t.Errorf("%s(%.20q): the error is wrapped: %v", name, text, err)
			}
		}
	}
}

// Every function that reads text stands in the list.
func TestReadersAreAll(t *testing.T) {
	found := map[string]bool{}
	for dir, files := range sources(t) {
		if pkg := filepath.ToSlash(dir); pkg == "." || strings.Contains(pkg, "internal") || strings.HasPrefix(pkg, "examples") {
			continue
		}
		for _, f := range files {
			for _, d := range f.syntax.Decls {
				if fn, ok := d.(*ast.FuncDecl); ok && readsText(fn) {
					found[filepath.ToSlash(dir)+"."+receiver(fn)+fn.Name.Name] = true
				}
			}
		}
	}
	for _, name := range slices.Sorted(maps.Keys(found)) {
		if readers[name] == nil {
			t.Errorf("%s reads text and is not in the list", name)
		}
	}
	for name := range readers {
		if !found[name] {
			t.Errorf("%s is in the list and is not there", name)
		}
	}
}

// readsText reports whether a function is called like one that reads text, and
// takes a text and may fail.
func readsText(fn *ast.FuncDecl) bool {
	name := fn.Name.Name
	if !strings.HasPrefix(name, "Parse") && !strings.HasPrefix(name, "Lookup") || fn.Type.Results == nil {
		return false
	}
	params, results := fn.Type.Params.List, fn.Type.Results.List
	if len(params) != 1 {
		return false
	}
	text, _ := params[0].Type.(*ast.Ident)
	last, _ := results[len(results)-1].Type.(*ast.Ident)
	return text != nil && text.Name == "string" && last != nil && last.Name == "error"
}

// receiver returns the type of a method with a full stop behind it.
func receiver(fn *ast.FuncDecl) string {
	if fn.Recv == nil {
		return ""
	}
	of := fn.Recv.List[0].Type
	if star, ok := of.(*ast.StarExpr); ok {
		of = star.X
	}
	if name, ok := of.(*ast.Ident); ok {
		return name.Name + "."
	}
	return ""
}
