package kernel

import (
	"math"
	"sync"
)

// A mark is an angle p with the sine and the cosine of p/2.
type mark struct{ p, sin, cos float64 }

// marks are angles of 0 to 180 degrees so dense that the angle between any other
// and its mark is the arc sine of a small number, which a short series gives
// without a division. They are filled in on first use.
var marks struct {
	once sync.Once
	rows [markRows]mark
}

func allMarks() *[markRows]mark {
	marks.once.Do(fillMarks)
	return &marks.rows
}

func fillMarks() {
	for i := range marks.rows {
		share := min((float64(i)+0.5)/(markRows-1), 1) // sin(p/2)^2, in the middle of a row's share
		sin, cos := math.Sqrt(share), math.Sqrt(1-share)
		marks.rows[i] = mark{2 * math.Atan2(sin, cos), sin, cos}
	}
}

const markRows = 64 // a power of two, the last row for 180 degrees alone

// arc returns the angle p of 0 to 180 degrees that has the given sine and cosine
// of p/2, with an error of 1e-15.
func arc(rows *[markRows]mark, sin, cos float64) float64 {
	m := &rows[int(sin*sin*(markRows-1))&(markRows-1)]
	d := sin*m.cos - cos*m.sin // the sine of half the angle from the mark, below 0.09
	u := d * d
	// 2 arcsin d = 2 d + d^3/3 + 3 d^5/20 + ...
	return m.p + (2*d + d*u*(1./3+u*(3./20+u*(5./56+u*(35./576+u*(63./1408+u*(231./6656)))))))
}
