package casting

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// ReadingAlone is what [Casting.Centre] and [Casting.Tilt] find, a Caution: one reading does not
// go with the others.
const ReadingAlone finding.Code = "reading-alone"

// A reading is remarked that stands off what the others ask for by more than leastAlone,
// if so far a one came by chance in fewer than chanceAlone of all surfaces whose
// roughness is normal. Figures of our own.
const (
	leastAlone  = 0.05 // mm
	chanceAlone = 0.001
)

// alone returns the reading that goes least with the others, counted from 1, and by how
// much it reads more than they ask for; zero where all go together.
func (s *surface) alone() (reading int, by float64) {
	n := len(s.above)
	if n < 8 { // fewer agree by chance too often
		return 0, 0
	}
	least := chanceAlone
	for i := range n {
		off, chance := s.without(i)
		if math.Abs(off) > leastAlone && float64(n)*chance < least {
			reading, by, least = i+1, off, float64(n)*chance
		}
	}
	return reading, by
}

// without returns by how much a reading is more than least squares of the others ask for,
// and the chance of one so far off, by Student's t.
func (s *surface) without(i int) (off, chance float64) {
	n := len(s.above)
	var left, right []float64
	for j := range n {
		if j != i {
			left, right = append(left, 1, s.cos[j], s.sin[j]), append(right, s.above[j])
		}
	}
	x := mat.NewDense(n-1, 3, left)
	var normal mat.SymDense
	normal.SymOuterK(1, x.T())
	var factors mat.Cholesky
	if !factors.Factorize(&normal) {
		return 0, 1
	}
	var moment, fit, spread mat.VecDense
	moment.MulVec(x.T(), mat.NewVecDense(n-1, right))
	at := mat.NewVecDense(3, []float64{1, s.cos[i], s.sin[i]})
	if factors.SolveVecTo(&fit, &moment) != nil || factors.SolveVecTo(&spread, at) != nil {
		return 0, 1
	}
	sum := 0.0
	for j := range n - 1 {
		r := right[j] - mat.Dot(x.RowView(j), &fit)
		sum += r * r
	}
	off = s.above[i] - mat.Dot(at, &fit)
	free := float64(n - 4)
	deviation := math.Sqrt(sum / free * (1 + mat.Dot(at, &spread)))
	if !(deviation > 1e-9) { // the others agree to the last digit
		return off, 0
	}
	return off, 2 * distuv.StudentsT{Mu: 0, Sigma: 1, Nu: free}.CDF(-math.Abs(off)/deviation)
}

// checkAlone remarks a reading that stands alone.
func (s *surface) checkAlone(where, surface string) finding.List {
	reading, by := s.alone()
	if reading == 0 {
		return nil
	}
	way := "more"
	if by < 0 {
		way = "less"
	}
	off := units.MM(math.Abs(by))
	return finding.List{{
		Code: ReadingAlone, Severity: finding.Caution, Where: where,
		Text: fmt.Sprintf("Reading %d of %s is %s (%s) %s than the others ask for: a grain of sand, a runner, a pit, or a slip of the pen.",
			reading, surface, off.Text(units.Millimetres, 2), off.Text(units.Thousandths, 1), way),
		Remedies: []string{"Clean the place and read it again. If it is so, read at two more places beside it; a pit that nobody sees need not decide."},
		Refs:     source.Of(source.Ref{Kind: source.Derived, Note: "least squares of the other readings, Student's t"}),
	}}
}
