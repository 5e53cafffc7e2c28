package diagnosis

import (
	"math"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/eccentric/spread"
	"github.com/valvechest/valvechest/units"
)

// A Reading is one thing that was measured on the engine. What the kind does not
// ask for is zero.
type Reading struct {
	Kind Kind          `json:"kind"`
	End  eccentric.End `json:"end"` // head or crank; both for [Travel] and [ValveAt]

	// Of an event one of three: the crank angle from that end's own dead centre, in
	// the direction of rotation, whole turns more or less; with ByStroke the piston's
	// way from that end, as a share of the stroke; or that it never happens.
	Angle    units.Angle `json:"angle,omitzero"`
	ByStroke bool        `json:"by_stroke,omitzero"`
	Stroke   float64     `json:"stroke,omitzero"`
	Never    bool        `json:"never,omitzero"`

	Length units.Length `json:"length,omitzero"` // of a lead, an opening, the travel, or where the valve stands
	Crank  units.Angle  `json:"crank,omitzero"`  // of ValveAt: where the crank stood, from the head-end dead centre
	Opens  Side         `json:"opens,omitzero"`  // of OpensNext

	// Within is by how much the reading may be out either way, two standard
	// deviations, in its own measure. Zero: 2 degrees, 0.1 mm, or 1 % of the stroke.
	Within spread.Deviation `json:"within,omitzero"`
}

const never = "never"

// Read returns the reading of that kind from text, without its end and, of
// [ValveAt], its crank angle. An event is an angle, a share of the stroke ("87 %")
// or "never"; [OpensNext] is "steam" or "exhaust"; the others are lengths. Within
// may be blank; of OpensNext and of an event that never happens it has to be. Text
// that cannot be read is a [*units.ParseError].
func (k Kind) Read(value, within string) (r Reading, err error) {
	r.Kind = k
	value, within = strings.TrimSpace(value), strings.TrimSpace(within)
	field := "reading of " + k.String()
	switch {
	case !kindNames.Known(int(k)):
		return Reading{}, kindNames.Unknown(int(k))
	case k == OpensNext:
		r.Opens, err = ParseSide(value)
	case k.isEvent() && strings.EqualFold(value, never):
		r.Never = true
	case k.isEvent() && strings.HasSuffix(value, "%"):
		r.ByStroke = true
		if r.Stroke, err = percent(field, value); err == nil && within != "" {
			r.Within.Ratio, err = percent("what the "+field+" may be out by", within)
		}
	case k.isEvent():
		if r.Angle, err = units.ParseAngle(value); err == nil && within != "" {
			r.Within.Angle, err = units.ParseAngle(within)
		}
	default:
		if r.Length, err = units.ParseLength(value); err == nil && within != "" {
			r.Within.Length, err = units.ParseLength(within)
		}
	}
	if err == nil && within != "" && r.Within == (spread.Deviation{}) {
		err = fail.Text("what the "+field+" may be out by", within, "it cannot be out by so much", "more than nothing, "+
			"in the measure of the reading, or left out", units.ErrOutOfRange)
	}
	if err != nil {
		return Reading{}, err
	}
	return r, nil
}

// percent reads a share of the stroke.
func percent(field, text string) (float64, error) {
	number, marked := strings.CutSuffix(text, "%")
	v, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if err != nil || !marked || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fail.Unreadable(field, text, "it is not a share of the stroke", `a number with a percent sign, such as "87 %"`)
	}
	return v / 100, nil
}

// What a reading may be out by where it does not say: a protractor on a small
// shaft and the eye at a port's edge, feelers, and the piston's place by a rule.
// Common practice.
const (
	usualAngle  = 2 * math.Pi / 180
	usualLength = 1e8 // 0.1 mm
	usualShare  = 0.01
)

// within returns by how much a reading may be out, in the numbers of the kernel.
func (r *Reading) within() float64 {
	switch {
	case r.Kind == OpensNext || r.Never:
		return 0
	case r.Kind.isLength():
		return or(float64(r.Within.Length.Picometres()), usualLength)
	case r.ByStroke:
		return or(r.Within.Ratio, usualShare)
	}
	return or(float64(r.Within.Angle), usualAngle)
}

func or(v, otherwise float64) float64 {
	if v == 0 {
		return otherwise
	}
	return v
}

// Agrees reports whether two readings of one thing, the same kind at the same end and
// crank angle, differ by no more than both may be out. Readings of different things
// agree.
func (r Reading) Agrees(other Reading) bool {
	if r.Kind != other.Kind || r.End != other.End || r.Crank != other.Crank || r.ByStroke != other.ByStroke {
		return true
	}
	by, out := 0.0, r.within()+other.within()
	switch {
	case r.Kind == OpensNext:
		return r.Opens == other.Opens
	case r.Never || other.Never:
		return r.Never == other.Never
	case r.Kind.isLength():
		by = float64(r.Length.Sub(other.Length).Picometres())
	case r.ByStroke:
		by = r.Stroke - other.Stroke
	default:
		by = math.Remainder(float64(r.Angle-other.Angle), 2*math.Pi)
	}
	return math.Abs(by) <= out
}

// validate refuses what no reading can be.
func (r *Reading) validate() error {
	if !kindNames.Known(int(r.Kind)) {
		return kindNames.Unknown(int(r.Kind))
	}
	field := "reading of " + r.Kind.String()
	switch one := r.End == eccentric.HeadEnd || r.End == eccentric.CrankEnd; {
	case r.Kind.ofTheValve() && r.End != eccentric.BothEnds:
		return fail.Wrong(field, r.End, "it belongs to neither end", `"both", or no end`)
	case !r.Kind.ofTheValve() && !one:
		return fail.Wrong(field, r.End, "it does not say of which end", `"head" or "crank"`)
	}
	for _, a := range [...]units.Angle{r.Angle, r.Crank, r.Within.Angle} {
		if !(math.Abs(float64(a)) <= math.MaxFloat64) {
			return fail.NotFinite(field, a)
		}
	}
	if r.Kind.isEvent() && !r.ByStroke && !r.Never {
		out := min(units.Angle(r.within()).Degrees(), 10) + 1e-9 // what is read of one near the end of the range
		if d := r.Angle.Degrees(); !(d >= -180-out && d <= 360+out) {
			return fail.OutOfRange(field, r.Angle, "from -180 to 360 degrees from that end's own dead centre")
		}
	}
	if d := r.Crank.Degrees(); !(d >= -360-1e-9 && d <= 360+1e-9) {
		return fail.OutOfRange("crank angle of the "+field, r.Crank, "from -360 to 360 degrees from the head-end dead centre")
	}
	switch {
	case r.ByStroke && !(r.Stroke >= -min(r.within(), 0.05) && r.Stroke <= 1+min(r.within(), 0.05)):
		return fail.OutOfRange(field, r.Stroke, "a share of the stroke from 0 to 1")
	case r.ByStroke && r.Never:
		return fail.Wrong(field, r.Stroke, "it is said never to happen too", "one of both")
	case math.Abs(float64(r.Length.Picometres())) > kernel.Longest:
		return fail.OutOfRange(field, r.Length, "up to 1 km either way")
	case (r.Kind == Opening || r.Kind == ExhaustOpening || r.Kind == Travel) && r.Length.Sign() < 0:
		return fail.OutOfRange(field, r.Length, "a length of zero or more")
	case r.Kind == OpensNext && !sideNames.Known(int(r.Opens)):
		return sideNames.Unknown(int(r.Opens))
	}
	if stray := r.stray(); stray != "" {
		return fail.Wrong(field, nil, "it has "+stray+" too", "what the kind is measured in, and nothing else")
	}
	return r.validateWithin(field)
}

// stray names what a reading has that its kind is not measured in.
func (r *Reading) stray() string {
	event := r.Kind.isEvent()
	switch {
	case r.Angle != 0 && (!event || r.ByStroke || r.Never):
		return "an angle"
	case (r.ByStroke || r.Stroke != 0) && (!event || !r.ByStroke):
		return "a share of the stroke"
	case r.Never && !event:
		return "a never"
	case !r.Length.IsZero() && !r.Kind.isLength():
		return "a length"
	case r.Crank != 0 && r.Kind != ValveAt:
		return "a crank angle"
	case r.Opens != 0 && r.Kind != OpensNext:
		return "a side to which it opens"
	}
	return ""
}

// The widest that a reading may be out by and still tell something.
const (
	widestAngle  = math.Pi / 2
	widestLength = 1e10 // 10 mm
	widestShare  = 0.5
)

func (r *Reading) validateWithin(field string) error {
	w, field := r.Within, "what the "+field+" may be out by"
	angle := r.Kind.isEvent() && !r.ByStroke && !r.Never
	switch {
	case w.Angle != 0 && !angle, !w.Length.IsZero() && !r.Kind.isLength(), w.Ratio != 0 && !r.ByStroke:
		return fail.Wrong(field, w, "it is measured in something else", "the measure of the reading")
	case !(w.Angle >= 0 && w.Angle <= widestAngle):
		return fail.OutOfRange(field, w.Angle, "up to 90 degrees, or zero for 2 degrees")
	case w.Length.Sign() < 0 || float64(w.Length.Picometres()) > widestLength:
		return fail.OutOfRange(field, w.Length, "up to 10 mm, or zero for 0.1 mm")
	case !(w.Ratio >= 0 && w.Ratio <= widestShare):
		return fail.OutOfRange(field, w.Ratio, "up to half the stroke, or zero for a hundredth of it")
	}
	return nil
}
