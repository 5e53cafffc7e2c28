package diagnosis_test

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
)

// The cavity of an invented engine was cut too long: both leads are right, and the
// exhaust opens too early and shuts too late.
func ExampleCase_Diagnose() {
	c := diagnosis.Case{Gear: demo()}
	within := map[diagnosis.Kind]string{diagnosis.Lead: "0.05 mm", diagnosis.Release: "1 deg", diagnosis.Compression: "1 deg"}
	for _, r := range []struct {
		kind  diagnosis.Kind
		end   eccentric.End
		value string
	}{
		{diagnosis.Lead, eccentric.HeadEnd, "0.27 mm"},
		{diagnosis.Lead, eccentric.CrankEnd, "0.14 mm"},
		{diagnosis.Release, eccentric.HeadEnd, "150 deg"},
		{diagnosis.Compression, eccentric.HeadEnd, "-22 deg"},
		{diagnosis.Release, eccentric.CrankEnd, "147 deg"},
		{diagnosis.Compression, eccentric.CrankEnd, "-19 deg"},
	} {
		reading, err := r.kind.Read(r.value, within[r.kind])
		if err != nil {
			fmt.Println(err)
			return
		}
		reading.End = r.end
		c.Readings = append(c.Readings, reading)
	}
	d, err := c.Diagnose()
	if err != nil {
		fmt.Println(err)
		return
	}
	v := d.Verdict()
	fmt.Println(v.Fault, v.End, v.Length, v.Sure)
	// Output: exhaust_lap both -0.307 mm true
}
