package strength

import (
	"math"
)

// shear holds the sizes that stripping depends on, in one unit throughout.
type shear struct {
	half, pitch float64
	studMajor   float64 // least major diameter of the stud
	studPitch   float64 // least pitch diameter of the stud
	nutPitch    float64 // largest pitch diameter of the nut
	nutMinor    float64 // largest minor diameter of the nut: the hole
}

// stud returns the area in which the stud's threads shear, per length engaged,
// at the nut's minor diameter.
func (s shear) stud() float64 {
	return math.Pi * s.nutMinor * (0.5 + math.Tan(s.half)*(s.studPitch-s.nutMinor)/s.pitch) // As/Le of H28
}

// nut returns the area in which the nut's threads shear, per length engaged,
// at the stud's major diameter.
func (s shear) nut() float64 {
	return math.Pi * s.studMajor * (0.5 + math.Tan(s.half)*(s.studMajor-s.nutPitch)/s.pitch) // An/Le of H28
}
