package gasket

import (
	"fmt"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// What [Match] says of two patterns.
const (
	NothingAgrees finding.Code = "no-holes-agree"    // no two holes agree with two of the other part
	DoesNotGoOn   finding.Code = "does-not-go-on"    // the first part does not go on as it is
	OtherSide     finding.Code = "other-side"        // turned over, the parts would agree far better
	NoVerdict     finding.Code = "no-verdict"        // the sizes needed for a verdict were not given
	SpareHole     finding.Code = "spare-hole"        // a hole of the first part has no stud
	SeveralWays   finding.Code = "goes-several-ways" // a symmetric part goes on in several positions
)

// judge returns the findings on a matching.
func (m *matcher) judge(r Matching) finding.List {
	var fs finding.List
	switch {
	case len(r.Positions) == 0:
		fs = append(fs, finding.Finding{
			Code: NothingAgrees, Severity: finding.Fails,
			Text:     "No two holes of the first part agree with two of the second.",
			Remedies: []string{"Measure both parts again, or look farther for the partner of a hole."},
		})
	case m.decided && !r.Goes:
		f := finding.Finding{Code: DoesNotGoOn, Severity: finding.Fails, Text: m.whyNot(r.Positions[0])}
		for _, w := range r.Work {
			if w.Do != Plug {
				f.Remedies = append(f.Remedies, capital(w.String())+".")
			}
		}
		fs = append(fs, f)
	}
	if r.Mirrored {
		fs = append(fs, finding.Finding{
			Code: OtherSide, Severity: finding.Caution,
			Text: "Turned over, the parts agree far better: one of them may have been measured from its other side.",
			Remedies: []string{
				"Measure it again from the right side.",
				"If the first part may go on with its other face down, allow it to be turned over.",
			},
		})
	}
	if !m.decided {
		fs = append(fs, finding.Finding{
			Code: NoVerdict, Severity: finding.Note,
			Text:     "There is no verdict without the sizes of the holes and of the studs or bolts.",
			Remedies: []string{"Give the holes of the first part and the stud, or the holes of both parts and the bolt."},
		})
	}
	var spare []string
	for _, w := range r.Work {
		if w.Do == Plug {
			spare = append(spare, w.hole())
		}
	}
	if len(spare) > 0 {
		has, remedy := " has", "Plug it, or leave it if nothing can leak there."
		if len(spare) > 1 {
			has, remedy = " have", "Plug them, or leave them if nothing can leak there."
		}
		fs = append(fs, finding.Finding{
			Code: SpareHole, Severity: finding.Note,
			Text: capital(list(spare)) + has + " no stud.", Remedies: []string{remedy},
		})
	}
	if r.Alike > 1 {
		fs = append(fs, finding.Finding{
			Code: SeveralWays, Severity: finding.Note,
			Text: fmt.Sprintf("It lies equally well in %d positions.", r.Alike),
		})
	}
	fs.Sort()
	return fs
}

// whyNot says what keeps the first part off in its best position: the tightest
// hole, and what has no hole at all.
func (m *matcher) whyNot(p Position) string {
	text := "The first part does not go on"
	tight := p.Tightest()
	hole, over := m.a[tight.First-1].Name, m.b[tight.Second-1].Name
	switch {
	case tight.Goes():
		text += "."
	case tight.Allowance.Sign() <= 0:
		text += fmt.Sprintf(": hole %s is too small even in its right place over %s.", hole, over)
	default:
		off, room := tight.Distance.Text(units.Millimetres, 3), tight.Allowance.Text(units.Millimetres, 3)
		text += fmt.Sprintf(": hole %s lies %s from its place over %s and has room for %s.", hole, off, over, room)
	}
	var without []string
	for _, number := range p.OnlySecond {
		without = append(without, m.b[number-1].Name)
	}
	switch len(without) {
	case 0:
	case 1:
		text += fmt.Sprintf(" There is no hole for %s.", without[0])
	default:
		text += fmt.Sprintf(" There are no holes for %s.", list(without))
	}
	return text
}

// Tightest returns the pair with the least room left, the first of several; the
// zero Pair where there is none.
func (p Position) Tightest() Pair {
	var tight Pair
	for i, pair := range p.Pairs {
		if i == 0 || pair.Allowance.Sub(pair.Distance).Cmp(tight.Allowance.Sub(tight.Distance)) < 0 {
			tight = pair
		}
	}
	return tight
}

// SameRoom reports whether every pair may be as far off as every other: the
// position that leaves most room is then that of the smallest greatest error. So
// it is where no sizes were given. See the example.
func (p Position) SameRoom() bool {
	for _, pair := range p.Pairs {
		if pair.Allowance != p.Pairs[0].Allowance {
			return false
		}
	}
	return true
}
