package thread

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A Basis says what counts as a full depth of thread, of which a tapped hole
// leaves a share. Three of them are in print, and a share without its basis
// means three different holes: M6 in a 5 mm hole is 81.5 % of the full depth,
// 92.4 % of the internal height and 77.0 % of three quarters of the height. The
// zero value is no basis.
type Basis int

// The bases.
const (
	FullDepth          Basis = iota + 1 // depth of the screw: Thread.Depth; on the diameter 1.2269 p for ISO metric, 1.1908 p for Unified (UNR)
	InternalHeight                      // height of the nut's basic form, 5H/8 for 60 degrees: 1.0825 p; the root of the Whitworth, BA and cycle forms
	ThreeQuarterHeight                  // 3H/4 of the 60-degree forms, 1.2990 p: charts from the USA
)

var bases = names.Set{Package: "thread", Type: "Basis", Field: "basis of the depth", Texts: []string{FullDepth: "full depth", InternalHeight: "internal height", ThreeQuarterHeight: "three-quarter height"}}

// String returns "full depth", "internal height" or "three-quarter height".
func (b Basis) String() string { return bases.Text(int(b)) }

// ParseBasis returns the basis of that name, in capitals or not; see
// [Basis.String]. Another text is an [*units.ArgumentError] that lists the
// accepted ones.
func ParseBasis(name string) (Basis, error) {
	v, err := bases.Value(name)
	return Basis(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (b Basis) MarshalText() ([]byte, error) { return bases.Marshal(int(b)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (b *Basis) UnmarshalText(text []byte) error { return unmarshal(b, text, ParseBasis) }

// fullOn returns the full depth on the diameter, in pitches, by the form
// unrounded.
func (t Thread) fullOn(basis Basis) (float64, error) {
	if t.Form() == 0 {
		return 0, noThread()
	}
	if _, taper := t.Taper(); taper {
		return 0, wrong("thread", t.name, "a taper thread has no one depth on a drilled hole", "parallel threads; charts give the drill of a taper thread (ChartDrills)", units.ErrUnknown)
	}
	var full, internal float64
	switch t.Form() {
	case FormISO:
		full, internal = 1.2268693220, 1.0825317547 // 17/12 H, 5/4 H
	case FormUnified:
		full, internal = 1.19078493, 1.08253175 // UNR, 5/4 H
	case FormWhitworth:
		full, internal = 1.280654, 1.280654 // 4/3 H
	case FormBA:
		full, internal = 1.2, 1.2
	case FormCycle:
		full, internal = 1.0653, 1.0653
	case FormTrapezoidal, FormAcme:
		full, internal = t.depth.Scale(2).Ratio(t.pitch), 1
	}
	switch basis {
	case FullDepth:
		return full, nil
	case InternalHeight:
		return internal, nil
	case ThreeQuarterHeight:
		if t.Form() != FormISO && t.Form() != FormUnified {
			return 0, wrong("basis of the depth", basis.String(), "belongs to the ISO metric and Unified forms", "full depth or internal height for "+t.name, units.ErrUnknown)
		}
		return 1.2990381057, nil // 3/2 H
	}
	return 0, argument("basis of the depth", basis.String(), "FullDepth, InternalHeight, ThreeQuarterHeight", units.ErrUnknown)
}

// DepthOfThread returns the share of a full thread that a cutting tap leaves in
// a drilled hole:
//
//	(D - hole) / (k p)
//
// with the major diameter D, the pitch p and k the full depth on the diameter,
// in pitches, of the basis. The share is above 1 when the hole is smaller than
// the basis allows; no cutting tap can work there. The hole is the one that is
// there: a drill cuts over its size. A hole that is not between zero and the
// major diameter is an [*units.ArgumentError], as is a taper thread and, for
// forms other than ISO metric and Unified, the three-quarter height.
//
// Both 5H/8 and 3H/4 stand in Machinery's Handbook, 31st edition: the first in
// the formula, the second in the table of p. 2155.
func (t Thread) DepthOfThread(hole units.Length, basis Basis) (float64, error) {
	k, err := t.fullOn(basis)
	if err != nil {
		return 0, err
	}
	if hole.Sign() <= 0 || hole.Cmp(t.major) >= 0 {
		return 0, wrong("hole for "+t.name, hole.String(), "leaves no thread", "above zero and below the major diameter "+t.major.String(), units.ErrOutOfRange)
	}
	return t.major.Sub(hole).Ratio(t.pitch) / k, nil
}

// TappingHole returns the hole that leaves the given share of a full thread for
// a cutting tap, D - share k p as in [Thread.DepthOfThread]. A share is 0.75 and
// not 75. A share that needs a hole below the minor diameter of the nut is an
// [*units.ArgumentError] that names the most there is on that basis.
func (t Thread) TappingHole(share float64, basis Basis) (units.Length, error) {
	k, err := t.fullOn(basis)
	if err != nil {
		return units.Length{}, err
	}
	if err := checkShare(share); err != nil {
		return units.Length{}, err
	}
	internal, _ := t.fullOn(InternalHeight) // the thread is good, or k would have failed
	if share*k > internal*(1+1e-9) {
		return units.Length{}, wrong("depth of thread", fmt.Sprintf("%.4g", share), "needs a hole below the minor diameter of the nut, "+t.minor.String(), fmt.Sprintf("up to %.3f of the %v", internal/k, basis), units.ErrOutOfRange)
	}
	return t.major.Sub(t.pitch.Scale(share * k)), nil
}

// ConvertDepth returns the share on another basis that means the same hole. The
// share may be above 1, as DepthOfThread may return it. A share that is not
// above zero, and a basis that DepthOfThread refuses, are an
// [*units.ArgumentError].
func (t Thread) ConvertDepth(share float64, from, to Basis) (float64, error) {
	a, err := t.fullOn(from)
	if err != nil {
		return 0, err
	}
	b, err := t.fullOn(to)
	if err != nil {
		return 0, err
	}
	switch {
	case math.IsNaN(share) || math.IsInf(share, 0):
		return 0, argument("depth of thread", fmt.Sprint(share), "a finite share", units.ErrNotFinite)
	case share <= 0:
		return 0, argument("depth of thread", fmt.Sprint(share), "a share above 0", units.ErrOutOfRange)
	}
	return share * a / b, nil
}

func checkShare(share float64) error {
	bad := &units.ArgumentError{Package: "thread", Field: "depth of thread", Value: fmt.Sprintf("%.4g", share), Accepted: "a share above 0 and up to 1, such as 0.75", Err: units.ErrOutOfRange}
	switch {
	case math.IsNaN(share) || math.IsInf(share, 0):
		bad.Err = units.ErrNotFinite
	case share > 1 && share <= 100:
		bad.Problem = fmt.Sprintf("looks like per cent; write %.4g", share/100)
	case share > 0 && share <= 1:
		return nil
	}
	return bad
}

// A DrillVerdict says what a hole does to the thread and the tap.
type DrillVerdict int

// The verdicts, from good to bad.
const (
	Suits    DrillVerdict = iota + 1 // enough depth, and not so much that the tap is in danger
	Shallow                          // less than half of the full depth, 45 % in hard metal: easy on the tap, weak
	Tight                            // over the limit for the size and the material: the tap may break
	TooSmall                         // below the minor diameter of the nut, over 100 % of the internal height: not for a cutting tap
)

var drillVerdicts = names.Set{Package: "thread", Type: "DrillVerdict", Field: "verdict on a drill", Texts: []string{Suits: "suits", Shallow: "shallow", Tight: "tight", TooSmall: "too small"}}

// String returns "suits", "shallow", "tight" or "too small".
func (v DrillVerdict) String() string { return drillVerdicts.Text(int(v)) }

// ParseDrillVerdict returns the verdict of that name, in capitals or not; see
// [DrillVerdict.String]. Another text is an [*units.ArgumentError] that lists
// the accepted ones.
func ParseDrillVerdict(name string) (DrillVerdict, error) {
	v, err := drillVerdicts.Value(name)
	return DrillVerdict(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (v DrillVerdict) MarshalText() ([]byte, error) { return drillVerdicts.Marshal(int(v)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (v *DrillVerdict) UnmarshalText(text []byte) error {
	return unmarshal(v, text, ParseDrillVerdict)
}

// A Choice is a drill for a tapping hole and what becomes of the thread.
type Choice struct {
	Drill   gauge.Size
	Depth   float64 // share of a full thread, on Basis
	Basis   Basis
	Over    units.Length // drill less the hole asked for: positive is the larger, safer side
	Verdict DrillVerdict
	Why     string // the verdict in words, with its limit
}

// String returns the choice in one line.
func (c Choice) String() string {
	return fmt.Sprintf("%s: %.1f %% of %v, %v: %s", c.Drill.Name, 100*c.Depth, c.Basis, c.Verdict, c.Why)
}

// The limits of the verdicts, as shares of the full depth. They are common
// practice and no standard's: 85 % breaks no sharp tap in free-cutting metal,
// small taps and hard or tough metal need more room, and in hard metal a shallower
// thread is the price of a whole tap.
type depthLimits struct{ least, most float64 }

// depthLimitsFor returns the limits for a thread in free-cutting or hard metal.
func depthLimitsFor(t Thread, hard bool) depthLimits {
	switch {
	case hard:
		return depthLimits{0.45, 0.75}
	case t.major.Cmp(units.MM(2)) < 0:
		return depthLimits{0.50, 0.80}
	}
	return depthLimits{0.50, 0.85}
}

// TappingDrills ranks the drills of a set for a cutting tap: first those that
// suit, the nearest to the wanted share of a full thread in front, of two
// equally near the larger; then the next one below, with the reason it is
// refused or risky, because it is what a hurried hand reaches for. When no drill
// suits, the nearest shallow, tight and too small ones are returned with their
// verdicts, and the answer is to buy one; [gauge.Metric] and the other standard
// sets say which. Forming taps take another hole: see [Thread.FormingHole].
//
// The share is checked as in [Thread.TappingHole]. An empty set, or one with no
// drill below the major diameter and above half of it, is an
// [*units.ArgumentError].
func (t Thread) TappingDrills(set gauge.Set, share float64, basis Basis) ([]Choice, error) {
	return t.rank(set, share, basis, depthLimitsFor(t, false), false)
}

// rank does the work of TappingDrills. When largerOnly is set, drills below the
// wanted hole come behind all that are not.
func (t Thread) rank(set gauge.Set, share float64, basis Basis, limits depthLimits, largerOnly bool) ([]Choice, error) {
	hole, err := t.TappingHole(share, basis)
	if err != nil {
		return nil, err
	}
	if set.Len() == 0 {
		return nil, wrong("set of drills", "", "empty", "a set with at least one drill", units.ErrMissing)
	}
	sizes, err := set.Between(t.major.Scale(0.5), t.major.Sub(units.Micron(1)))
	if err != nil {
		return nil, err
	}
	if len(sizes) == 0 {
		return nil, wrong("set of drills", "", "no drill near "+hole.Text(units.Millimetres, 2)+", the hole for "+t.name, "a drill from "+t.major.Scale(0.5).Text(units.Millimetres, 2)+" to below "+t.major.Text(units.Millimetres, 2), units.ErrOutOfRange)
	}
	var suited, shallow, tight, small []Choice
	for _, size := range sizes {
		c, err := t.judge(size, hole, basis, limits)
		if err != nil {
			return nil, err
		}
		switch c.Verdict {
		case Suits:
			suited = append(suited, c)
		case Shallow:
			shallow = append(shallow, c)
		case Tight:
			tight = append(tight, c)
		case TooSmall:
			small = append(small, c)
		}
	}
	slices.SortStableFunc(suited, func(a, b Choice) int {
		if largerOnly && (a.Over.Sign() < 0) != (b.Over.Sign() < 0) {
			return cmp.Compare(b.Over.Sign(), a.Over.Sign())
		}
		return cmp.Or(a.Over.Abs().Cmp(b.Over.Abs()), b.Over.Cmp(a.Over))
	})
	// The sizes run upwards: the last tight or too small drill is the next one
	// below, the first shallow one the next above.
	choices := suited
	if len(suited) == 0 && len(shallow) > 0 {
		choices = append(choices, shallow[0])
	}
	if len(tight) > 0 {
		choices = append(choices, tight[len(tight)-1])
	} else if len(small) > 0 {
		choices = append(choices, small[len(small)-1])
	}
	return choices, nil
}

// CheckTappingDrill says what one drill does, whoever recommends it, on the
// given basis. Errors are those of [Thread.DepthOfThread].
func (t Thread) CheckTappingDrill(drill gauge.Size, basis Basis) (Choice, error) {
	return t.judge(drill, drill.Diameter, basis, depthLimitsFor(t, false))
}

func (t Thread) judge(drill gauge.Size, hole units.Length, basis Basis, limits depthLimits) (Choice, error) {
	depth, err := t.DepthOfThread(drill.Diameter, basis)
	if err != nil {
		return Choice{}, err
	}
	full, err := t.DepthOfThread(drill.Diameter, FullDepth)
	if err != nil {
		return Choice{}, err
	}
	c := Choice{Drill: drill, Depth: depth, Basis: basis, Over: drill.Diameter.Sub(hole)}
	switch {
	case drill.Diameter.Cmp(t.minor) < 0:
		c.Verdict = TooSmall
		c.Why = fmt.Sprintf("below the minor diameter %s, over 100 %% of the internal height; not for a cutting tap", t.minor.Text(units.Millimetres, 3))
	case full > limits.most:
		c.Verdict = Tight
		c.Why = fmt.Sprintf("%.1f %% of the full depth, over the limit of %.0f %%; the tap may break", 100*full, 100*limits.most)
	case full < limits.least:
		c.Verdict = Shallow
		c.Why = fmt.Sprintf("%.1f %% of the full depth, less than %.0f %%; easy on the tap and weak", 100*full, 100*limits.least)
	default:
		c.Verdict = Suits
		c.Why = fmt.Sprintf("%.1f %% of the full depth, from %.0f to %.0f %%", 100*full, 100*limits.least, 100*limits.most)
	}
	return c, nil
}

// A DepthAdvice is the depth of thread that is commonly tapped in a material.
type DepthAdvice struct {
	Least, Most float64 // shares of ThreeQuarterHeight
	Hard        bool    // tough or hard on taps: take the larger drill, not the smaller
	Ref         source.Ref
}

type depthRow struct {
	material string
	family   material.Family
	advice   DepthAdvice
}

var depths = table.Table[depthRow]{FS: &tables, Name: "tables/tap_depth.csv", Row: readDepth}

func readDepth(r *table.Row) depthRow {
	row := depthRow{material: r.Optional("material"), advice: DepthAdvice{Least: r.Float("least"), Most: r.Float("most"), Ref: r.Ref()}}
	if row.material == "" {
		var err error
		if row.family, err = material.ParseFamily(r.Text("family")); err != nil {
			r.Complain("%v", err)
		}
	}
	switch hard := r.Text("hard"); hard {
	case "yes":
		row.advice.Hard = true
	case "no":
	default:
		r.Complain("hard is %q, not yes or no", hard)
	}
	return row
}

// AdvisedDepth returns the common practice for a material, by its name or its
// family. Copper, nickel alloys and plastics have none here, which is an
// [*units.ArgumentError].
func AdvisedDepth(m material.Material) (DepthAdvice, error) {
	for _, row := range depths.Rows() {
		if row.material != "" && row.material == m.Name || row.material == "" && row.family == m.Family {
			return row.advice, nil
		}
	}
	return DepthAdvice{}, wrong("material to tap", m.Name, "no practice is held for it", "steels, stainless steels, irons, brasses, bronzes and aluminium", units.ErrUnknown)
}

// TappingDrillsFor is [Thread.TappingDrills] with the depth and the limit that
// a material calls for; the choices are on the full depth. In hard metal, and
// for threads below 3 mm in any metal, a drill smaller than the hole for the
// most depth advised ranks behind all that are not. The three-quarter height of
// the advice is read as 1.2990 pitches on the diameter for every form. Errors
// are those of [AdvisedDepth] and [Thread.TappingDrills].
func (t Thread) TappingDrillsFor(set gauge.Set, m material.Material) ([]Choice, error) {
	advice, err := AdvisedDepth(m)
	if err != nil {
		return nil, err
	}
	full, err := t.fullOn(FullDepth)
	if err != nil {
		return nil, err
	}
	careful := advice.Hard || t.major.Cmp(units.MM(3)) < 0
	share := (advice.Least + advice.Most) / 2
	if careful {
		share = advice.Most
	}
	return t.rank(set, share*1.2990381057/full, FullDepth, depthLimitsFor(t, advice.Hard), careful)
}
