package speeds_test

import (
	"encoding"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
)

type name interface {
	fmt.Stringer
	encoding.TextMarshaler
}

func TestNames(t *testing.T) {
	var all []name
	for _, v := range speeds.Operations() {
		all = append(all, v)
		if v.GoverningDiameter() == "none" {
			t.Errorf("%v: no governing diameter", v)
		}
		got, err := speeds.ParseOperation(strings.ToUpper(v.String()))
		var u speeds.Operation
		if err2 := u.UnmarshalText([]byte(v.String())); got != v || u != v || err != nil || err2 != nil {
			t.Errorf("%v: %v %v %v %v", v, got, u, err, err2)
		}
	}
	for _, v := range speeds.Tools() {
		all = append(all, v)
		var u speeds.Tool
		if err := u.UnmarshalText([]byte(v.String())); u != v || err != nil {
			t.Errorf("%v: %v %v", v, u, err)
		}
	}
	for _, v := range speeds.ShopRules() {
		all = append(all, v)
	}
	seen := map[string]bool{}
	for _, v := range all {
		text, err := v.MarshalText()
		if err != nil || string(text) != v.String() || seen[v.String()] {
			t.Errorf("%v: %q, %v, or twice", v, text, err)
		}
		seen[v.String()] = true
	}
	for _, v := range []name{speeds.Operation(99), speeds.Tool(-1), speeds.ShopRule(5)} {
		if text, err := v.MarshalText(); err == nil {
			t.Errorf("%v has text %q", v, text)
		}
	}
}

func TestByHand(t *testing.T) {
	for _, tt := range []struct {
		op           speeds.Operation
		d            float64
		byHand, both bool
	}{
		{speeds.Tapping, 3, true, true}, {speeds.Tapping, 4, true, true}, {speeds.Tapping, 4.166, false, true},
		{speeds.DieCutting, 2, true, true}, {speeds.DieCutting, 12, true, true},
		{speeds.Reaming, 2, false, true}, {speeds.Drilling, 2, false, false},
	} {
		if got := tt.op.ByHand(units.MM(tt.d)); got != tt.byHand || tt.op.ByHandToo() != tt.both {
			t.Errorf("%v %v mm: %v, %v", tt.op, tt.d, got, tt.op.ByHandToo())
		}
	}
}

// What was left out has blank text and reads back; what cannot be read is one
// sort of error, whatever it was to be.
func TestTexts(t *testing.T) {
	op, tool, rule := speeds.Milling, speeds.HSS, speeds.Rule320
	var machine speeds.Ladder
	for _, v := range []interface {
		encoding.TextUnmarshaler
	}{&op, &tool, &rule, &machine} {
		var bad *units.ParseError
		if err := v.UnmarshalText([]byte("whittling")); !errors.As(err, &bad) || bad.Package != "speeds" ||
			bad.Accepted == "" {
			t.Errorf("%T: %v", v, err)
		}
		if err := v.UnmarshalText(nil); err != nil {
			t.Errorf("%T: %v", v, err)
		}
	}
	if op != 0 || tool != 0 || rule != 0 || len(machine.Steps()) != 0 {
		t.Errorf("%v, %v, %v, %v", op, tool, rule, machine)
	}
	for _, v := range []encoding.TextMarshaler{op, tool, rule, machine} {
		if text, err := v.MarshalText(); len(text) != 0 || err != nil {
			t.Errorf("%T: %q, %v", v, text, err)
		}
	}
	if got, err := speeds.ParseTool("High-Speed steel"); got != speeds.HSS || err != nil {
		t.Errorf("%v, %v", got, err)
	}
}

func FuzzNames(f *testing.F) {
	f.Add("centre drilling")
	f.Add("high speed steel")
	f.Add("10,000 / D")
	f.Add("slot milling")
	f.Fuzz(func(t *testing.T, s string) {
		if op, err := speeds.ParseOperation(s); err == nil && op.GoverningDiameter() == "none" {
			t.Fatal(op)
		}
		if tool, err := speeds.ParseTool(s); err == nil && tool == 0 {
			t.Fatal(tool)
		}
		if rule, err := speeds.ParseShopRule(s); err == nil {
			if again, err := speeds.ParseShopRule(rule.String()); rule == 0 || err != nil || again != rule {
				t.Fatal(rule, again, err)
			}
		}
	})
}

func TestOtherWordsForOperations(t *testing.T) {
	for text, want := range map[string]speeds.Operation{
		"slot drilling": speeds.SlotMilling, "Slotting": speeds.SlotMilling, "end-milling": speeds.Milling,
		"threading": speeds.Screwcutting, "screw cutting": speeds.Screwcutting, "parting off": speeds.Parting,
		"flycutting": speeds.FlyCutting,
	} {
		got, err := speeds.ParseOperation(text)
		var read speeds.Operation
		if errText := read.UnmarshalText([]byte(text)); got != want || read != want || err != nil || errText != nil {
			t.Errorf("%q reads as %v and %v, %v, %v; want %v", text, got, read, err, errText, want)
		}
		for _, op := range speeds.Operations() {
			if strings.EqualFold(op.String(), text) {
				t.Errorf("%q is printed, and needs no other reading", text)
			}
		}
	}
	_, err := speeds.ParseOperation("slot drill")
	if err == nil || !strings.Contains(err.Error(), "slot milling") || strings.Contains(err.Error(), "slotting") {
		t.Errorf("what is accepted: %v", err)
	}
}
