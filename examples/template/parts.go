package main

import (
	"github.com/valvechest/valvechest/gasket"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
)

// stud is the thread of every stud, and studClass the class of its steel.
func stud() thread.Thread { return thread.MustParse("M3") }

const studClass = "4.6"

// A part is one gasket of the invented engine: bore 20 mm, stroke 25 mm, steam
// ports 2 mm, bars 2.5 mm and exhaust port 4 mm wide, all 10 mm long.
type part struct {
	file    string
	outline func() (gasket.Outline, error)
}

// parts returns the gaskets of the engine built so many times its size.
func parts(times float64) ([]part, error) {
	mm := func(v float64) units.Length { return units.MM(v * times) }
	clear, err := stud().UsualClearance()
	if err != nil {
		return nil, err
	}
	return []part{
		{"chest", func() (gasket.Outline, error) {
			studs, err := gasket.Rectangle(2, 3, mm(23), mm(33))
			if err != nil {
				return gasket.Outline{}, err
			}
			outside := gasket.Rect{Width: mm(30), Height: mm(40), Corner: mm(3)}
			inside := gasket.Rect{Width: mm(16), Height: mm(26), Corner: mm(2)}
			return gasket.Rectangular("Steam-chest cover gasket", outside, []gasket.Rect{inside}, studs.Drilled(clear.Hole))
		}},
		{"cover", func() (gasket.Outline, error) {
			studs, err := gasket.BoltCircle(6, mm(28), 90*units.Degree)
			if err != nil {
				return gasket.Outline{}, err
			}
			return gasket.Round("Cylinder-cover gasket", mm(36), mm(20.5), studs.Drilled(clear.Hole))
		}},
	}, nil
}
