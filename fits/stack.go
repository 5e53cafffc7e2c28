package fits

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Link is one dimension in a chain that adds up to a gap or a length.
type Link struct {
	Name     string
	Size     Limits
	Subtract bool // whether it takes from the gap instead of adding to it
}

// A StackResult is what the links add up to.
type StackResult struct {
	Worst  Limits      // every link at its worst
	Likely Limits      // root-sum-square: about the mean, halves of the tolerances added as squares
	Shares []LinkShare // in the order of the links
	Refs   source.Refs `json:",omitzero"` // of the links
}

// A LinkShare is what one link contributes to the spread.
type LinkShare struct {
	Name  string
	Worst float64 // share of the worst-case tolerance
	Root  float64 // share of the square of the likely one
}

// Stack returns the limits of the sum of a chain of links, each named, at the
// worst and by root-sum-square:
//
//	worst  = sum of the least and of the greatest, a subtracted link turned round
//	likely = mean +/- sqrt(sum of (tolerance/2)^2)
//
// The second holds when parts are made one by one about the middle of their
// limits and independently of each other; then it covers as large a share of
// the assemblies as the limits cover of the parts. It does not hold for one
// engine whose parts are all turned to the high limit. Source: common practice
// in tolerance analysis. A sum may be below zero: the parts then foul.
// See the Example.
func Stack(links []Link) (StackResult, error) {
	if len(links) == 0 {
		return StackResult{}, fail.Missing("links of the stack", "one or more")
	}
	var r StackResult
	var mean, squares float64 // in picometres
	for i, l := range links {
		size := l.Size
		if size.Min.Cmp(size.Max) > 0 {
			name := strings.TrimSpace(fmt.Sprintf("link %d %s", i+1, l.Name))
			return StackResult{}, fail.Wrong(name, size.Min.String()+" to "+size.Max.String(), "the wrong way round",
				"Min not above Max")
		}
		name := "link " + strconv.Itoa(i+1)
		err := fail.Within(fault.Named(name, size.Nominal), fault.Named(name, size.Min), fault.Named(name, size.Max))
		if err != nil {
			return StackResult{}, err
		}
		if l.Subtract {
			size.Nominal, size.Min, size.Max = size.Nominal.Neg(), size.Max.Neg(), size.Min.Neg()
		}
		r.Worst.Nominal = r.Worst.Nominal.Add(size.Nominal)
		r.Worst.Min, r.Worst.Max = r.Worst.Min.Add(size.Min), r.Worst.Max.Add(size.Max)
		r.Refs = r.Refs.With(size.Refs)
		mean += float64(size.Min.Picometres())/2 + float64(size.Max.Picometres())/2
		half := float64(size.Tolerance().Picometres()) / 2
		squares += half * half
	}
	spread := math.Sqrt(squares) // root-sum-square of the half tolerances
	r.Likely.Nominal = r.Worst.Nominal
	r.Likely.Min = units.Picometres(int64(math.Round(mean - spread)))
	r.Likely.Max = units.Picometres(int64(math.Round(mean + spread)))
	for _, l := range links {
		share := LinkShare{Name: l.Name}
		if t := l.Size.Tolerance(); !t.IsZero() {
			half := float64(t.Picometres()) / 2
			share.Worst, share.Root = t.Ratio(r.Worst.Tolerance()), half*half/squares
		}
		r.Shares = append(r.Shares, share)
	}
	return r, nil
}
