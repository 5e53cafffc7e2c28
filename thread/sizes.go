package thread

import (
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// screwNumber returns the diameter of a US screw number: 0.060 in and 0.013 in
// for each number above 0 (ASME B1.1).
func screwNumber(n int) units.Length {
	return units.Picometres(int64(60+13*n) * 25_400_000)
}

// The forms work in whole picometres and round as their standards do.

func metric(d, p units.Length, ref source.Ref) Thread {
	return Thread{
		major: d, pitch: p,
		// ISO 724 rounds each basic diameter to three decimals of a millimetre.
		pitchDiameter: round(d.Sub(p.Scale(0.6495190528)), units.Micron(1)), // 0.75 H
		minor:         round(d.Sub(p.Scale(1.0825317547)), units.Micron(1)), // 1.25 H
		root:          round(d.Sub(p.Scale(1.2268693220)), units.Micron(1)), // 17/12 H, rounded root
		depth:         p.Scale(0.6134346610),                                // 17/24 H
		ref:           ref,
	}
}

func unified(d units.Length, tpi float64, ref source.Ref) Thread {
	place := units.Thou(0.1)
	d = roundEven(d, place) // ASME B1.1: basic major diameter to four decimals
	p := perInch(tpi)
	height := func(factor float64) units.Length { return round(p.Scale(factor), units.Thou(0.001)) } // six decimals
	return Thread{
		major: d, pitch: p, tpi: tpi,
		pitchDiameter: roundEven(d.Sub(height(0.64951905)), place),
		minor:         roundEven(d.Sub(height(1.08253175)), place),
		root:          roundEven(d.Sub(height(1.19078493)), place), // UNR, rounded root
		depth:         p.Scale(1.19078493 / 2),
		ref:           ref,
	}
}

func whitworth(d units.Length, tpi float64, ref source.Ref) Thread {
	p := perInch(tpi)
	// BS 84 rounds the depth of thread first, to four decimals of an inch.
	h := round(p.Scale(0.640327), units.Thou(0.1))
	place := units.Thou(0.1)
	return Thread{
		major: d, pitch: p, tpi: tpi,
		pitchDiameter: round(d.Sub(h), place), minor: round(d.Sub(h.Scale(2)), place), root: round(d.Sub(h.Scale(2)), place),
		depth: p.Scale(0.640327), ref: ref,
	}
}

func britishAssociation(d, p units.Length, ref source.Ref) Thread {
	// BS 93 rounds the depth to the nearest 0.005 mm, from the rounded pitch.
	h := round(p.Scale(0.6), units.Micron(5))
	minor := d.Sub(h.Scale(2))
	return Thread{
		major: d, pitch: p,
		pitchDiameter: d.Sub(h), minor: minor, root: minor, depth: h, ref: ref,
	}
}

func cycle(d units.Length, tpi float64, ref source.Ref) Thread {
	p := perInch(tpi)
	place := units.Thou(0.1)
	minor := round(d.Sub(p.Scale(1.0653)), place)
	return Thread{
		major: d, pitch: p, tpi: tpi,
		pitchDiameter: round(d.Sub(p.Scale(0.53265)), place), minor: minor, root: minor, depth: p.Scale(0.53265), ref: ref,
	}
}

func britishPipe(series Series, size string, d, gauge units.Length, tpi float64, ref source.Ref) Thread {
	p := perInch(tpi)
	h := round(round(p, units.Micron(1)).Scale(0.640327), units.Micron(1)) // ISO 228-1 gives pitch and depth to 0.001 mm
	minor := d.Sub(h.Scale(2))
	t := Thread{
		series: series, name: "G " + size, major: d, pitch: p, tpi: tpi,
		pitchDiameter: d.Sub(h), minor: minor, root: minor, depth: h, ref: ref,
	}
	if series == BSPTaper {
		t.name, t.gaugeLength = "R "+size, gauge
	}
	return t
}

func nationalPipeTaper(size string, outside, l1 units.Length, tpi float64, ref source.Ref) Thread {
	p := perInch(tpi)
	place := units.Thou(0.01)
	// ASME B1.20.1: E0 = D - (0.05 D + 1.1) p with D and p in inches,
	// E1 = E0 + L1/16; the height of thread is 0.8 p.
	e0 := outside.Sub(p.Scale(0.05*outside.Inch() + 1.1))
	e1 := round(e0.Add(l1.Scale(taperOnDiameter)), place)
	return Thread{
		series: NPT, name: size + "-" + count(tpi) + " NPT", major: e1.Add(p.Scale(0.8)), pitch: p, tpi: tpi,
		pitchDiameter: e1, minor: e1.Sub(p.Scale(0.8)), root: e1.Sub(p.Scale(0.8)), depth: p.Scale(0.8),
		gaugeLength: l1, outside: outside, smallEnd: round(e0, place), ref: ref,
	}
}

// taperOnDiameter is the taper of NPT and R threads, 1 in 16.
const taperOnDiameter = 1.0 / 16

func trapezoidal(d, p units.Length, ref source.Ref) Thread {
	clearance := trapezoidalClearance(p)
	root := d.Sub(p).Sub(clearance.Scale(2))
	return Thread{
		major: d, pitch: p,
		pitchDiameter: d.Sub(p.Scale(0.5)), minor: d.Sub(p), root: root, depth: p.Scale(0.5).Add(clearance), ref: ref,
	}
}

// trapezoidalClearance returns a_c of ISO 2904, the clearance at crest and
// root.
func trapezoidalClearance(p units.Length) units.Length {
	switch {
	case p.Cmp(units.MM(1.5)) <= 0:
		return units.MM(0.15)
	case p.Cmp(units.MM(5)) <= 0:
		return units.MM(0.25)
	case p.Cmp(units.MM(12)) <= 0:
		return units.MM(0.5)
	}
	return units.MM(1)
}

func acme(d units.Length, tpi float64, ref source.Ref) Thread {
	p := perInch(tpi)
	place := units.Thou(0.1)
	allowance := units.Thou(10) // ASME B1.5, on the diameter
	if tpi <= 10 {
		allowance = units.Thou(20)
	}
	return Thread{
		major: d, pitch: p, tpi: tpi,
		pitchDiameter: round(d.Sub(p.Scale(0.5)), place), minor: round(d.Sub(p), place),
		root:  round(d.Sub(p).Sub(allowance), place),
		depth: p.Scale(0.5).Add(allowance.Scale(0.5)), ref: ref,
	}
}
