package check_test

import (
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/eccentric/diagnosis/symptom"
	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/eccentric/marking/casting"
	valve "github.com/valvechest/valvechest/eccentric/setting"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/fits/assembly"
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
	"github.com/valvechest/valvechest/units/figure"
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
	"eccentric.ParseEnd":                      reading(eccentric.ParseEnd),
	"eccentric.ParsePortState":                reading(eccentric.ParsePortState),
	"eccentric/setting.ParseRotation":         reading(valve.ParseRotation),
	"eccentric.ParseRod":                      reading(eccentric.ParseRod),
	"eccentric/diagnosis.ParseFault":          reading(diagnosis.ParseFault),
	"eccentric/diagnosis.ParseKind":           reading(diagnosis.ParseKind),
	"eccentric/diagnosis.ParseSide":           reading(diagnosis.ParseSide),
	"eccentric/diagnosis/symptom.Parse":       reading(symptom.Parse),
	"eccentric/diagnosis/symptom.ParseEffort": reading(symptom.ParseEffort),
	"eccentric/indicator.ParseMedium":         reading(indicator.ParseMedium),
	"eccentric/spread.ParseDimension":         reading(spread.ParseDimension),
	"eccentric/spread.ParseEvent":             reading(spread.ParseEvent),
	"fits/assembly.ParsePacking":              reading(assembly.ParsePacking),
	"fits.ParseBasis":                         reading(fits.ParseBasis),
	"fits.ParseClass":                         reading(fits.ParseClass),
	"fits.ParseFeature":                       reading(fits.ParseFeature),
	"fits.ParseFit":                           reading(fits.ParseFit),
	"fits.ParseGrade":                         reading(fits.ParseGrade),
	"fits.ParseInchFit":                       reading(fits.ParseInchFit),
	"fits.ParseKind":                          reading(fits.ParseKind),
	"fits.ParseSizedClass":                    reading(fits.ParseSizedClass),
	"fits.ParseSizedFit":                      reading(fits.ParseSizedFit),
	"gasket.ParseAction":                      reading(gasket.ParseAction),
	"gasket/cover.ParseFace":                  reading(cover.ParseFace),
	"gasket/joint.ParseWidthRule":             reading(joint.ParseWidthRule),
	"gasket/seal.LookupRing":                  reading(seal.LookupRing),
	"gasket/seal.ParseDuty":                   reading(seal.ParseDuty),
	"gasket/seal.ParseMedium":                 reading(seal.ParseMedium),
	"gasket/seal.ParsePlace":                  reading(seal.ParsePlace),
	"gasket/template.ParsePaper":              reading(template.ParsePaper),
	"speeds.ParseLadder":                      reading(speeds.ParseLadder),
	"speeds.ParseOperation":                   reading(speeds.ParseOperation),
	"speeds.ParseShopRule":                    reading(speeds.ParseShopRule),
	"speeds.ParseTool":                        reading(speeds.ParseTool),
	"speeds/dividing.ParseCircles":            reading(dividing.ParseCircles),
	"thread.Parse":                            reading(thread.Parse),
	"thread.ParseBasis":                       reading(thread.ParseBasis),
	"thread.ParseClearanceClass":              reading(thread.ParseClearanceClass),
	"thread.ParseForm":                        reading(thread.ParseForm),
	"thread.ParseSeries":                      reading(thread.ParseSeries),
	"thread.ParsePipeHoleKind":                reading(thread.ParsePipeHoleKind),
	"thread.ParseTap":                         reading(thread.ParseTap),
	"thread/strength.ParseEngagementRule":     reading(strength.ParseEngagementRule),
	"thread/screwcut.ParseLead":               reading(screwcut.ParseLead),
	"thread/screwcut.ParseToolTip":            reading(screwcut.ParseToolTip),
	"thread/wires.ParseLeadCorrection":        reading(wires.ParseLeadCorrection),
	"thread/screwcut.ParseWheels":             reading(screwcut.ParseWheels),
	"units.LengthUnit.Parse":                  reading(units.Millimetres.Parse),
	"units.ParseAngle":                        reading(units.ParseAngle),
	"units.ParseArea":                         reading(units.ParseArea),
	"units.ParseDensity":                      reading(units.ParseDensity),
	"units.ParseEnergy":                       reading(units.ParseEnergy),
	"units.ParseExpansivity":                  reading(units.ParseExpansivity),
	"units.ParseForce":                        reading(units.ParseForce),
	"units.ParseLength":                       reading(units.ParseLength),
	"units.ParseLengthUnit":                   reading(units.ParseLengthUnit),
	"units.ParseMass":                         reading(units.ParseMass),
	"units.ParsePower":                        reading(units.ParsePower),
	"units.ParsePressure":                     reading(units.ParsePressure),
	"units.ParseRotationalSpeed":              reading(units.ParseRotationalSpeed),
	"units.ParseRoundMode":                    reading(units.ParseRoundMode),
	"units.ParseSpeed":                        reading(units.ParseSpeed),
	"units.ParseTemperature":                  reading(units.ParseTemperature),
	"units.ParseTemperatureDifference":        reading(units.ParseTemperatureDifference),
	"units.ParseTorque":                       reading(units.ParseTorque),
	"units.ParseVolume":                       reading(units.ParseVolume),
	"units.ParseVolumeFlow":                   reading(units.ParseVolumeFlow),
	"units/figure.Parse":                      reading(figure.Parse),
	"units/finding.ParseSeverity":             reading(finding.ParseSeverity),
	"units/gauge.Parse":                       reading(gauge.Parse),
	"units/gauge.ParseSet":                    reading(gauge.ParseSet),
	"units/gauge.ParseSystem":                 reading(gauge.ParseSystem),
	"units/gauge.Set.Lookup":                  reading(gauge.Letter().Lookup),
	"units/material.Lookup":                   reading(material.Lookup),
	"units/material.ParseFamily":              reading(material.ParseFamily),
	"units/source.ParseKind":                  reading(source.ParseKind),

	"eccentric/marking/casting.ParseCircleFit": reading(casting.ParseCircleFit),
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

// Whatever the text, a function that reads it panics on nothing and says in one
// line what it refuses.
func FuzzReaders(f *testing.F) {
	for _, text := range []string{
		"", "x", "25", "6.35 mm", "1 3/8 in", "26°30'", "20 °C", "H7/g6", "10H7", "RC4", "M3x0.5", `1"-8`, "#4-40", "2 BA", "8 tpi",
		"1-6x0.1 mm, #1-#60", "cone 720 450 280 175, back gear 6.5:1", "15 16 17 / 21 23", "24-64x4, 63", "cast iron", "16 SWG", "A4", "-0 deg",
		"1e999 bar", "25 A\n0", "\x00", "½", strings.Repeat("9", 400),
	} {
		f.Add(text)
	}
	names := slices.Sorted(maps.Keys(readers))
	f.Fuzz(func(t *testing.T, text string) {
		for _, name := range names {
			err := readers[name](text)
			var unread *units.ParseError
			var unfit *units.ArgumentError // a size that is one, and not of the set that is asked
			said := errors.As(err, &unread) && (len(unread.Near) > 0 || unread.Accepted != "") || errors.As(err, &unfit) && unfit.Accepted != ""
			if err != nil && (!said || strings.Contains(err.Error(), "\n")) {
				t.Errorf("%s(%q): %v", name, text, err)
			}
		}
	})
}

// What reads more than the names of an enumeration has a fuzz target in its own
// package as well; [FuzzReaders] asks all.
func TestReadersAreFuzzed(t *testing.T) {
	types := declaredTypes(t)
	fuzzed := fuzzedNames(t)
	count := 0
	for dir, files := range sources(t) {
		pkg := filepath.ToSlash(dir)
		if strings.Contains(pkg, "internal") || strings.HasPrefix(pkg, "examples") {
			continue
		}
		for _, f := range files {
			for _, d := range f.syntax.Decls {
				fn, ok := d.(*ast.FuncDecl)
				if !ok || !readsText(fn) && !readsFile(fn) {
					continue
				}
				if of := types[pkg+"."+element(fn.Type.Results.List[0].Type)]; of != nil && isInt(of.of) && !fuzzed[pkg][fn.Name.Name] {
					continue
				}
				if count++; !fuzzed[pkg][fn.Name.Name] {
					t.Errorf("%s.%s%s has no fuzz target in the tests of its package", pkg, receiver(fn), fn.Name.Name)
				}
			}
		}
	}
	if count < 35 {
		t.Errorf("only %d functions that read text are fuzzed", count)
	}
}

func isInt(of ast.Expr) bool {
	id, ok := of.(*ast.Ident)
	return ok && id.Name == "int"
}

// readsFile reports whether a function reads what comes from a file.
func readsFile(fn *ast.FuncDecl) bool {
	if !strings.HasPrefix(fn.Name.Name, "Read") || !fn.Name.IsExported() {
		return false
	}
	for _, p := range fn.Type.Params.List {
		if of, ok := p.Type.(*ast.SelectorExpr); ok && of.Sel.Name == "Reader" {
			return true
		}
	}
	return false
}

// fuzzedNames returns what the fuzz targets of each package use, directly or by
// way of other things that its tests declare.
func fuzzedNames(t *testing.T) map[string]map[string]bool {
	t.Helper()
	uses := map[string]map[string][]string{} // package -> declared in its tests -> names used there
	walk(t, func(name string, text []byte) {
		if !strings.HasSuffix(name, "_test.go") {
			return
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, text, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		pkg := filepath.ToSlash(filepath.Dir(name))
		if uses[pkg] == nil {
			uses[pkg] = map[string][]string{}
		}
		for _, d := range file.Decls {
			var used []string
			ast.Inspect(d, func(n ast.Node) bool {
				if id, ok := n.(*ast.Ident); ok {
					used = append(used, id.Name)
				}
				return true
			})
			for _, declared := range declaredBy(d) {
				uses[pkg][declared] = append(uses[pkg][declared], used...)
			}
		}
	})
	fuzzed := map[string]map[string]bool{}
	for pkg, declared := range uses {
		reached := map[string]bool{}
		var reach func(name string)
		reach = func(name string) {
			if reached[name] {
				return
			}
			reached[name] = true
			for _, used := range declared[name] {
				reach(used)
			}
		}
		for name := range declared {
			if strings.HasPrefix(name, "Fuzz") {
				reach(name)
			}
		}
		fuzzed[pkg] = reached
	}
	return fuzzed
}

// declaredBy returns the names of the functions and variables of a declaration.
func declaredBy(d ast.Decl) []string {
	switch d := d.(type) {
	case *ast.FuncDecl:
		return []string{d.Name.Name}
	case *ast.GenDecl:
		var names []string
		for _, s := range d.Specs {
			if s, ok := s.(*ast.ValueSpec); ok {
				for _, name := range s.Names {
					names = append(names, name.Name)
				}
			}
		}
		return names
	}
	return nil
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
