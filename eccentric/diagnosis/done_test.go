package diagnosis_test

import (
	"testing"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/units"
)

// lead is a lead that feelers measure.
func lead(end eccentric.End, mm float64) diagnosis.Reading {
	return diagnosis.Reading{Kind: diagnosis.Lead, End: end, Length: units.MM(mm),
		Within: spread.Deviation{Length: units.MM(0.05)}}
}

func opens(end eccentric.End, to diagnosis.Side) diagnosis.Reading {
	return diagnosis.Reading{Kind: diagnosis.OpensNext, End: end, Opens: to}
}

func verdict(t *testing.T, rs ...diagnosis.Reading) (diagnosis.Suspect, diagnosis.Diagnosis) {
	t.Helper()
	d, err := diagnosis.Case{Gear: demo(), Readings: rs}.Diagnose()
	if err != nil {
		t.Fatal(err)
	}
	return d.Verdict(), d
}

// A cavity 0.6 mm too long shows in three events of the exhaust.
func TestCavityFromThreeReadings(t *testing.T) {
	g := demo()
	g.Valve.Cavity = units.MM(9.6)
	var rs []diagnosis.Reading
	for _, r := range readings(g) {
		if r.Kind == diagnosis.Release || r.Kind == diagnosis.Compression && r.End == eccentric.HeadEnd {
			r.Within.Angle = 1 * units.Degree
			rs = append(rs, r)
		}
	}
	if v, d := verdict(t, rs...); len(rs) != 3 || v.Fault != diagnosis.WrongExhaustLap || v.End != eccentric.BothEnds || v.Sure {
		t.Errorf("%d readings: %v", len(rs), d)
	}
}

// A sheave mirrored about the crank reads the leads of the drawing (EC-03): they
// cannot tell it, and the way in which the ports open next does.
func TestMirroredFromLeads(t *testing.T) {
	g := demo()
	g.Advance = 180*units.Degree - g.Advance
	e, err := g.Events()
	if err != nil {
		t.Fatal(err)
	}
	head := lead(eccentric.HeadEnd, e.Head.Lead.In(units.Millimetres))
	crank := lead(eccentric.CrankEnd, e.Crank.Lead.In(units.Millimetres))
	v, d := verdict(t, head, crank)
	found := false
	for _, s := range d.Suspects {
		found = found || s.Fault == diagnosis.OtherHand && s.Also == nil && s.Probability > 0.02
	}
	if v.Sure || !found {
		t.Errorf("from leads alone: %v", d)
	}
	v, d = verdict(t, head, crank, opens(eccentric.HeadEnd, diagnosis.Exhaust), opens(eccentric.CrankEnd, diagnosis.Exhaust))
	if v.Fault != diagnosis.OtherHand || v.Also != nil {
		t.Errorf("from leads and the way of opening: %v", d)
	}
	v, d = verdict(t, head, crank, opens(eccentric.HeadEnd, diagnosis.Steam), opens(eccentric.CrankEnd, diagnosis.Steam))
	if v.Fault != diagnosis.AsDrawn {
		t.Errorf("from leads and the right way of opening: %v", d)
	}
}

// The leads of EC-17: both less by the same, or one more and one less.
func TestLeadsAlone(t *testing.T) {
	v, d := verdict(t, lead(eccentric.HeadEnd, -0.239), lead(eccentric.CrankEnd, -0.397))
	if v.Fault != diagnosis.WrongAdvance {
		t.Errorf("both short: %v", d)
	}
	v, d = verdict(t, lead(eccentric.HeadEnd, -0.028), lead(eccentric.CrankEnd, 0.434))
	if v.Fault != diagnosis.ValveOffCentre {
		t.Errorf("one more, one less: %v", d)
	}
}

// What is within a tolerance is no fault, and with a narrower one it is.
func TestTolerances(t *testing.T) {
	g := demo()
	g.Valve.Cavity = units.MM(9.4)
	for _, row := range []struct {
		cavity string
		want   diagnosis.Fault
	}{{"0.05 mm", diagnosis.WrongExhaustLap}, {"0.8 mm", diagnosis.AsDrawn}} {
		c := diagnosis.Case{Gear: demo(), Readings: readings(g)}
		for _, one := range []struct {
			of   spread.Dimension
			text string
		}{{spread.ValveCavity, row.cavity}, {spread.ValveLength, "0.05 mm"}, {spread.PortSteam, "0.05 mm"}, {spread.Advance, "2 deg"}} {
			tolerance, err := one.of.PlusMinus(one.text)
			if err != nil {
				t.Fatal(err)
			}
			c.Tolerances = append(c.Tolerances, tolerance)
		}
		d, err := c.Diagnose()
		if err != nil {
			t.Fatal(err)
		}
		if v := d.Verdict(); v.Fault != row.want || v.Also != nil {
			t.Errorf("cavity within %s: %v", row.cavity, d)
		}
	}
}
