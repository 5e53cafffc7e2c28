package material_test

import (
	"bytes"
	"encoding/gob"
	"fmt"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
)

func ExampleFamilies() {
	fmt.Println(material.Families())
	// Output: [steel stainless iron brass bronze copper aluminium nickel zinc plastic rubber sheet]
}

func ExampleParseFamily() {
	f, err := material.ParseFamily("bronze")
	fmt.Println(f, err)
	// Output: bronze <nil>
}

// What expands most, of what an engine is made of.
func ExampleAll() {
	var most material.Material
	for _, m := range material.All() {
		if m.Expansion.Value > most.Expansion.Value && m.Family != material.Plastic {
			most = m
		}
	}
	fmt.Println(most, most.Expansion.Value)
	// Output: aluminium 23.6 ppm/K
}

func ExampleMaterial_OtherNames() {
	gunmetal, err := material.Lookup("LG2")
	fmt.Println(gunmetal, gunmetal.OtherNames(), err)
	// Output: gunmetal [leaded gunmetal LG2 85-5-5-5 leaded red brass C83600 CC491K] <nil>
}

// What grows under the hot engine: a cylinder of 40 mm from 20 to 150 °C.
func ExampleFigure_Known() {
	cork, err := material.Lookup("cork")
	fmt.Println(cork.Expansion.Known(), err)
	iron, err := material.Lookup("cast iron")
	grows := float64(iron.Expansion.Value) * 130 * units.MM(40).Micron()
	fmt.Printf("%v, %.0f um %v\n", iron.Expansion.Known(), grows, err)
	// Output:
	// false <nil>
	// true, 59 um <nil>
}

func ExampleMaterial_GobEncode() {
	bar, err := material.Lookup("EN8")
	if err != nil {
		fmt.Println(err)
		return
	}
	var file bytes.Buffer
	var back material.Material
	if err = gob.NewEncoder(&file).Encode(bar); err == nil {
		err = gob.NewDecoder(&file).Decode(&back)
	}
	fmt.Println(back, err)
	// Output: medium carbon steel <nil>
}

func ExampleMaterial_GobDecode() {
	var m material.Material
	err := m.GobDecode([]byte("silver steel"))
	fmt.Println(m, m.Grade, err)
	// Output: silver steel 1 % carbon tool steel <nil>
}
