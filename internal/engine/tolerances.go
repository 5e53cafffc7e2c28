package engine

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// Tolerances are how far the sizes of the valve gear may be off, each under the
// key of the size; a size without one is exact.
type Tolerances struct {
	Cylinder struct {
		Stroke *OffBy `toml:"stroke"`
	} `toml:"cylinder"`
	Motion struct {
		ConnectingRod *OffBy   `toml:"connecting_rod"`
		EccentricRod  *OffBy   `toml:"eccentric_rod"`
		LeverRatio    *float64 `toml:"lever_ratio"`
	} `toml:"motion"`
	Ports struct {
		Steam      *OffBy `toml:"steam"`
		Bar        *OffBy `toml:"bar"`
		Exhaust    *OffBy `toml:"exhaust"`
		CrankSteam *OffBy `toml:"crank_steam"`
		CrankBar   *OffBy `toml:"crank_bar"`
	} `toml:"ports"`
	Valve struct {
		Length       *OffBy `toml:"length"`
		Cavity       *OffBy `toml:"cavity"`
		Offset       *OffBy `toml:"offset"`
		CavityOffset *OffBy `toml:"cavity_offset"`
		LostMotion   *OffBy `toml:"lost_motion"`
	} `toml:"valve"`
	Eccentric struct {
		Travel  *OffBy       `toml:"travel"`
		Advance *units.Angle `toml:"advance"`
		Stands  *units.Angle `toml:"stands"`
		Lead    *OffBy       `toml:"lead"`
	} `toml:"eccentric"`
	Chest struct {
		Length *OffBy `toml:"length"`
	} `toml:"chest"`
}

// A Keep is how far what the valve does may wander from the drawing, either way
// and at both ends, for tolerances that are found; nil is as far as it likes.
type Keep struct {
	CutOff      *Share        `toml:"cut_off"` // of the stroke, as the next two are
	Release     *Share        `toml:"release"`
	Compression *Share        `toml:"compression"`
	Lead        *units.Length `toml:"lead"`
}

// An OffBy is how far a length may be off: as much either way, or by a class of
// ISO 286.
type OffBy struct {
	PlusMinus units.Length
	Class     fits.Class // in place of it, unless it is zero
}

// UnmarshalText reads a length, not below zero, or a class: "0.05 mm", "h7".
func (o *OffBy) UnmarshalText(text []byte) error {
	s := strings.TrimSpace(string(text))
	refuse := func(kind error) error {
		return fault.Package("engine").Text("tolerance", s, "", orClass, kind)
	}
	first, _ := utf8.DecodeRuneInString(s)
	if unicode.IsLetter(first) && !strings.Contains(s, " ") {
		class, err := fits.ParseClass(s)
		if err == nil {
			*o = OffBy{Class: class}
		}
		return err
	}
	l, err := units.ParseLength(s)
	switch {
	case err != nil && !unicode.IsDigit(first):
		return refuse(units.ErrSyntax)
	case err != nil:
		return err
	case l.Sign() < 0:
		return refuse(units.ErrOutOfRange)
	}
	*o = OffBy{PlusMinus: l}
	return nil
}

const orClass = `how much it may be off either way, not below zero, such as "0.05 mm"; or a class of ISO 286, such as "h7" or "H8"`

// A Toleranced is the tolerance of one size of the valve gear, with the key of the
// file that it stands under and how the file says it.
type Toleranced struct {
	spread.Tolerance
	Key  string
	Says string
	Refs source.Refs // of a class
}

// Tolerances returns the tolerances that the file has for the sizes of a valve
// gear, which is the one that it states. It complains of those of sizes that the
// file does not state.
func (e *Engine) Tolerances(gear eccentric.Gear) ([]Toleranced, error) {
	t := &tolerances{entry: e.entry("tolerances"), gear: gear, inUnit: e.InUnit}
	f, has := &e.File.Tolerances, &e.File
	t.size("cylinder.stroke", f.Cylinder.Stroke, has.Cylinder.Stroke)
	t.rod("motion.connecting_rod", f.Motion.ConnectingRod, has.Motion.ConnectingRod)
	t.rod("motion.eccentric_rod", f.Motion.EccentricRod, has.Motion.EccentricRod)
	t.ratio("motion.lever_ratio", f.Motion.LeverRatio)
	t.size("ports.steam", f.Ports.Steam, has.Ports.Steam)
	t.size("ports.bar", f.Ports.Bar, has.Ports.Bar)
	t.size("ports.exhaust", f.Ports.Exhaust, has.Ports.Exhaust)
	t.atCrankEnd("ports.crank_steam", f.Ports.CrankSteam, has.Ports.CrankSteam, has.Ports.Steam)
	t.atCrankEnd("ports.crank_bar", f.Ports.CrankBar, has.Ports.CrankBar, has.Ports.Bar)
	t.size("valve.length", f.Valve.Length, has.Valve.Length)
	t.size("valve.cavity", f.Valve.Cavity, has.Valve.Cavity)
	t.central("valve.offset", f.Valve.Offset)
	t.central("valve.cavity_offset", f.Valve.CavityOffset)
	t.size("valve.lost_motion", f.Valve.LostMotion, has.Valve.LostMotion)
	t.size("eccentric.travel", f.Eccentric.Travel, has.Eccentric.Travel)
	t.angle("eccentric.advance", f.Eccentric.Advance)
	t.angle("eccentric.stands", f.Eccentric.Stands)
	t.lead("eccentric.lead", f.Eccentric.Lead, has.Eccentric.Lead)
	t.size("chest.length", f.Chest.Length, has.Chest.Length)
	return t.found, said(t.entry)
}

// ValidateKeep complains of what is to be kept and cannot be.
func (e *Engine) ValidateKeep() error {
	keep := e.entry("keep")
	for key, share := range map[string]*Share{
		"cut_off": e.Keep.CutOff, "release": e.Keep.Release, "compression": e.Keep.Compression,
	} {
		if share != nil && *share <= 0 {
			keep.complain(key, `%g; accepted: above zero, such as "1 %%" of the stroke either way`, float64(*share))
		}
	}
	keep.above("lead", e.Keep.Lead, aboveZero+`, such as "0.05 mm" either way`)
	if e.Has("keep") && !e.Has("tolerances") {
		keep.all = append(keep.all, e.Errorf("keep", "there are no tolerances to widen; accepted: [keep] beside [tolerances]"))
	}
	return said(keep)
}

// tolerances collects the tolerances of a file.
type tolerances struct {
	*entry
	gear   eccentric.Gear
	inUnit func(units.Length) string
	found  []Toleranced
}

// stated complains of a tolerance of what the file does not state.
func (t *tolerances) stated(key string) bool {
	if !t.has(key) {
		return false
	}
	if t.Has(key) || key == "eccentric.advance" && (t.Has("eccentric.stands") || t.Has("eccentric.lead")) { // an angle all the same
		return true
	}
	table, name, _ := strings.Cut(key, ".")
	accepted := "tolerances of sizes that it states, such as " + name + " under [" + table + "]"
	for _, other := range []string{"advance", "stands", "lead"} {
		if table == "eccentric" && t.Has("eccentric."+other) {
			accepted = "eccentric." + other + ", which it has"
		}
	}
	if !t.doubtful(key) {
		t.complain(key, "the file does not state %s itself; accepted: %s", key, accepted)
	}
	return false
}

func (t *tolerances) add(d spread.Dimension, key, says string, lower, upper spread.Deviation, refs source.Refs) {
	for _, other := range t.found {
		if other.Dimension == d { // the angle of the eccentric, by another name
			t.complain(key, "it is the same angle as %s; accepted: a tolerance of one of them", other.Key)
			return
		}
	}
	t.found = append(t.found, Toleranced{spread.Tolerance{Dimension: d, Lower: lower, Upper: upper}, key, says, refs})
}

// InUnit writes a small length in the unit of the file, inches as thou.
func (e *Engine) InUnit(l units.Length) string {
	if thou := l.In(units.Thousandths); e.Inches() && math.Abs(thou-math.Round(100*thou)/100) < 1e-9 {
		return strconv.FormatFloat(math.Round(100*thou)/100, 'f', -1, 64) + " thou"
	}
	return l.String()
}

// size adds the tolerance of a length.
func (t *tolerances) size(key string, off *OffBy, size *units.Length) {
	if t.stated(key) && off != nil && size != nil {
		t.length(key, *off, *size)
	}
}

// central adds that of what is in the middle where the file does not state it.
func (t *tolerances) central(key string, off *OffBy) {
	switch {
	case off == nil:
	case off.Class != (fits.Class{}):
		t.complain(key, "%v is a class of a part's size; accepted: plus-minus so much, such as %q", off.Class, "0.05 mm")
	default:
		t.length(key, *off, units.Length{})
	}
}

func (t *tolerances) length(key string, off OffBy, size units.Length) {
	d, err := spread.ParseDimension(key)
	if err != nil {
		t.complain(key, "%v", err)
		return
	}
	if off.Class == (fits.Class{}) {
		t.add(d, key, "+/- "+t.inUnit(off.PlusMinus),
			spread.Deviation{Length: off.PlusMinus.Neg()}, spread.Deviation{Length: off.PlusMinus}, source.Refs{})
		return
	}
	limits, err := off.Class.LimitsFor(size)
	if err != nil {
		t.complain(key, "%v; or plus-minus so much, such as %q", err, "0.05 mm")
		return
	}
	t.add(d, key, off.Class.String(),
		spread.Deviation{Length: limits.Lower()}, spread.Deviation{Length: limits.Upper()}, limits.Refs)
}

// atCrankEnd adds that of a size of the crank end, which is as at the head end where
// the file does not state it.
func (t *tolerances) atCrankEnd(key string, off *OffBy, size, head *units.Length) {
	if size == nil && !t.Has(key) {
		size = head
	}
	if t.has(key) && off != nil && size != nil {
		t.length(key, *off, *size)
	}
}

func (t *tolerances) rod(key string, off *OffBy, rod *eccentric.Rod) {
	if !t.stated(key) || off == nil || rod == nil {
		return
	}
	length, finite := rod.Length()
	if !finite {
		t.complain(key, "an infinitely long rod has no length to be off; accepted: a rod of a length")
		return
	}
	t.length(key, *off, length)
}

func (t *tolerances) ratio(key string, off *float64) {
	switch {
	case !t.stated(key) || off == nil:
	case !(*off >= 0):
		t.complain(key, "%g; accepted: plus-minus so much, not below zero, such as 0.01", *off)
	default:
		t.add(spread.LeverRatio, key, "+/- "+strconv.FormatFloat(*off, 'f', -1, 64),
			spread.Deviation{Ratio: 0 - *off}, spread.Deviation{Ratio: *off}, source.Refs{})
	}
}

func (t *tolerances) angle(key string, off *units.Angle) {
	switch {
	case !t.stated(key) || off == nil:
	case !(*off >= 0):
		t.complain(key, `%v; accepted: plus-minus so much, not below zero, such as "1 deg"`, *off)
	default:
		t.add(spread.Advance, key, "+/- "+off.String(), spread.Deviation{Angle: 0 - *off}, spread.Deviation{Angle: *off},
			source.Refs{})
	}
}

// lead adds the tolerance of the advance that sets the lead: what the drawing has
// for the least and for the greatest lead.
func (t *tolerances) lead(key string, off *OffBy, lead *units.Length) {
	if !t.stated(key) || off == nil || lead == nil {
		return
	}
	if off.Class != (fits.Class{}) {
		t.complain(key, "%v is a class of a part's size; accepted: plus-minus so much, such as %q", off.Class, "0.05 mm")
		return
	}
	var ends [2]units.Angle
	for i, wanted := range []units.Length{lead.Sub(off.PlusMinus), lead.Add(off.PlusMinus)} {
		set, err := t.gear.WithLead(wanted, eccentric.BothEnds)
		if err != nil {
			t.complain(key, "%v", err)
			return
		}
		ends[i] = set.Advance - t.gear.Advance
	}
	t.add(spread.Advance, key, "+/- "+t.inUnit(off.PlusMinus)+" of lead",
		spread.Deviation{Angle: ends[0]}, spread.Deviation{Angle: ends[1]}, source.Refs{})
}
