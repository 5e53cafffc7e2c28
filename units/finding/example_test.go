package finding_test

import (
	"fmt"

	"github.com/valvechest/valvechest/units/finding"
)

func seen() finding.List {
	return finding.List{
		{Code: "late-steam", Severity: finding.Caution, Text: "Steam comes late."},
		{Code: "port-shut", Severity: finding.Fails, Where: "crank end", Text: "The port never opens."},
	}
}

// A type that embeds a finding carries it.
func ExampleFinding_Plain() {
	joint := struct {
		finding.Finding
		Stud string
	}{seen()[0], "M3"}
	fmt.Println(joint.Plain(), joint.Stud)
	// Output: caution: Steam comes late. M3
}

func ExampleListOf() {
	type leak struct {
		finding.Finding
		Bolt int
	}
	fmt.Println(finding.ListOf([]leak{{seen()[1], 3}}))
	// Output: [fails: crank end: The port never opens.]
}

func ExampleSort() {
	type leak struct {
		finding.Finding
		Bolt int
	}
	leaks := []leak{{seen()[0], 1}, {seen()[1], 2}}
	finding.Sort(leaks)
	fmt.Println(leaks[0].Bolt)
	// Output: 2
}

func ExampleList_Worst() {
	fmt.Println(seen().Worst())
	// Output: fails true
}

func ExampleList_OK() {
	fmt.Println(seen().OK(), seen()[:1].OK())
	// Output: false true
}

func ExampleList_Sort() {
	list := seen()
	list.Sort()
	fmt.Println(list[0])
	// Output: fails: crank end: The port never opens.
}

func ExampleList_At() {
	for _, f := range seen().At("cylinder") {
		fmt.Println(f)
	}
	// Output:
	// caution: cylinder: Steam comes late.
	// fails: cylinder, crank end: The port never opens.
}

func ExampleSeverities() {
	fmt.Println(finding.Severities())
	// Output: [note caution fails danger]
}

func ExampleParseSeverity() {
	s, err := finding.ParseSeverity("danger")
	fmt.Println(s > finding.Fails, err)
	// Output: true <nil>
}

func ExampleCodesOfThePlace() {
	fmt.Println(finding.CodesOfThePlace().Code)
	// Output: local-codes
}
