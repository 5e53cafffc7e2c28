package check_test

import (
	"bytes"
	"encoding/gob"
	"fmt"
	"go/ast"
	"maps"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/dividing"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/screwcut"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
)

// A declaredType is an exported type of the library.
type declaredType struct {
	name     string // with its package: "units.Length"
	of       ast.Expr
	methods  map[string]bool // by name
	returned bool            // by an exported function or method, alone or in a slice
	listed   bool            // by a function without arguments that returns all of them
}

// declaredTypes returns the exported types of the packages for users.
func declaredTypes(t *testing.T) map[string]*declaredType {
	t.Helper()
	types := map[string]*declaredType{}
	for dir, files := range sources(t) {
		pkg := filepath.ToSlash(dir)
		if strings.HasPrefix(pkg, "internal/") || strings.HasPrefix(pkg, "examples/") || strings.Contains(pkg, "/internal/") {
			continue
		}
		here := func(name string) *declaredType { return types[pkg+"."+name] }
		var functions []*ast.FuncDecl
		for _, f := range files {
			for _, d := range f.syntax.Decls {
				switch d := d.(type) {
				case *ast.FuncDecl:
					functions = append(functions, d)
				case *ast.GenDecl:
					for _, s := range d.Specs {
						if s, ok := s.(*ast.TypeSpec); ok && s.Name.IsExported() {
							types[pkg+"."+s.Name.Name] = &declaredType{name: pkg + "." + s.Name.Name, of: s.Type, methods: map[string]bool{}}
						}
					}
				}
			}
		}
		for _, f := range functions {
			if f.Recv != nil {
				if of := here(element(f.Recv.List[0].Type)); of != nil {
					of.methods[f.Name.Name] = true
				}
			}
			if f.Type.Results == nil || !f.Name.IsExported() {
				continue
			}
			for _, r := range f.Type.Results.List {
				of := here(element(r.Type))
				if of == nil {
					continue
				}
				of.returned = true
				_, alone := r.Type.(*ast.Ident)
				of.listed = of.listed || !alone && f.Recv == nil && f.Type.Params.NumFields() == 0
			}
		}
	}
	if len(types) < 150 {
		t.Fatalf("only %d types were found", len(types))
	}
	return types
}

// element returns the name of a type of the same package, of what a pointer to it
// or a slice or sequence of it is made of.
func element(of ast.Expr) string {
	switch of := of.(type) {
	case *ast.Ident:
		return of.Name
	case *ast.StarExpr:
		return element(of.X)
	case *ast.ArrayType:
		return element(of.Elt)
	case *ast.IndexExpr: // iter.Seq[T]
		return element(of.Index)
	}
	return ""
}

// Every enumeration lists its values.
func TestEnumerationsAreListed(t *testing.T) {
	types, count := declaredTypes(t), 0
	for _, name := range slices.Sorted(maps.Keys(types)) {
		d := types[name]
		if of, ok := d.of.(*ast.Ident); !ok || of.Name != "int" || !d.methods["MarshalText"] {
			continue
		}
		if count++; !d.listed {
			t.Errorf("%s: no function without arguments returns all of them", name)
		}
	}
	if count < 20 {
		t.Errorf("only %d enumerations were found", count)
	}
}

// Every result prints itself; what embeds a finding prints as one.
func TestResultsPrint(t *testing.T) {
	types, count := declaredTypes(t), 0
	for _, name := range slices.Sorted(maps.Keys(types)) {
		d := types[name]
		of, ok := d.of.(*ast.StructType)
		if !ok || !d.returned {
			continue
		}
		finds := slices.ContainsFunc(of.Fields.List, func(f *ast.Field) bool {
			embedded, ok := f.Type.(*ast.SelectorExpr)
			return len(f.Names) == 0 && ok && embedded.Sel.Name == "Finding"
		})
		if count++; !d.methods["String"] && !finds {
			t.Errorf("%s: has no String", name)
		}
	}
	if count < 100 {
		t.Errorf("only %d results were found", count)
	}
}

// hides reports whether a type has fields that no other package sees.
func hides(of *ast.StructType) bool {
	for _, field := range of.Fields.List {
		for _, name := range field.Names {
			if !name.IsExported() {
				return true
			}
		}
	}
	return false
}

// What has text has it in package gob too, which asks for methods of its own where
// a type has fields that it does not see.
func TestGobWhereText(t *testing.T) {
	kept := map[string]bool{}
	for _, v := range []any{
		units.MM(-6.35), units.Length{}, units.Millimetres, units.Temperature(293.15),
		must(gauge.ParseSet("#1-#60, 3 mm")), gauge.SWG, must(material.Lookup("brass")), material.Material{},
		thread.MustParse("M3"), thread.Thread{}, must(screwcut.ParseLead("8 tpi")),
		must(fits.ParseClass("H7")), must(fits.ParseFit("H7/g6")), must(fits.ParseInchFit("RC4")),
		must(speeds.ParseLadder("100 200 400")), must(speeds.ParseLadder("50-2500")),
		must(dividing.NewHead(40, dividing.ThreePlates().Circles...)),
		eccentric.RodOf(units.MM(90)), eccentric.InfiniteRod(), eccentric.Rod{},
	} {
		kept[strings.TrimPrefix(reflect.TypeOf(v).PkgPath(), module)+"."+reflect.TypeOf(v).Name()] = true
		from := reflect.New(reflect.StructOf([]reflect.StructField{{Name: "Kept", Type: reflect.TypeOf(v)}})).Elem()
		from.Field(0).Set(reflect.ValueOf(v))
		to := reflect.New(from.Type()).Elem()
		var data bytes.Buffer
		if err := gob.NewEncoder(&data).EncodeValue(from); err != nil {
			t.Errorf("%T %v: %v", v, v, err)
			continue
		}
		if err := gob.NewDecoder(&data).DecodeValue(to); err != nil || fmt.Sprintf("%+v", to) != fmt.Sprintf("%+v", from) {
			t.Errorf("%T %v reads back as %v, %v", v, v, to, err)
		}
	}
	count := 0
	for name, d := range declaredTypes(t) {
		if of, ok := d.of.(*ast.StructType); !ok || !d.methods["MarshalText"] || !hides(of) {
			continue
		}
		if count++; !d.methods["GobEncode"] || !d.methods["GobDecode"] || !kept[name] {
			t.Errorf("%s has text; methods for gob: %t, tried here: %t", name, d.methods["GobEncode"] && d.methods["GobDecode"], kept[name])
		}
	}
	if count < 8 {
		t.Errorf("only %d types with fields of their own have text", count)
	}
	var l units.Length
	if err := l.GobDecode([]byte("25")); err == nil {
		t.Errorf("a length without a unit is decoded as %v", l)
	}
}
