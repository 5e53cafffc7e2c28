package thread

import (
	"fmt"
	"math"
	"strconv"

	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A NutFactor turns the torque on a nut into pull, and says how far the pull
// may be from what it gives.
type NutFactor struct {
	K       float64 // torque = K * pull * nominal diameter
	Scatter float64 // share by which the pull may be more or less
	Ref     source.Ref
}

// DryThreads is the factor for plain steel as it comes: K 0.20, with 35 % of
// scatter. The scatter is that which an aerospace specification states for
// unlubricated fasteners (Journal of Failure Analysis and Prevention 2019,
// 10.1007/s11668-019-00693-z, introduction); K is common practice.
func DryThreads() NutFactor { return NutFactor{K: 0.20, Scatter: 0.35, Ref: nutFactorRef()} }

// OiledThreads is the factor for steel with oil on thread and face: K 0.15,
// with 25 % of scatter; sources as [DryThreads].
func OiledThreads() NutFactor { return NutFactor{K: 0.15, Scatter: 0.25, Ref: nutFactorRef()} }

func nutFactorRef() source.Ref {
	return source.Ref{Kind: source.CommonPractice, Note: "K of steel; scatter as Journal of Failure Analysis and Prevention 2019, 10.1007/s11668-019-00693-z, quotes it"}
}

func (k NutFactor) check() error {
	if !(k.K >= 0.05 && k.K <= 0.5) {
		return argument("nut factor", strconv.FormatFloat(k.K, 'g', -1, 64), "K from 0.05 to 0.5", units.ErrOutOfRange)
	}
	if !(k.Scatter >= 0 && k.Scatter < 1) {
		return argument("scatter of the pull", strconv.FormatFloat(k.Scatter, 'g', -1, 64), "a share from 0 to below 1, such as 0.35", units.ErrOutOfRange)
	}
	return nil
}

// A Tightening is a torque and the pull it makes.
type Tightening struct {
	Torque      units.Torque
	Pull        units.Force // at the nut factor itself
	Least, Most units.Force // with the scatter
	Factor      NutFactor
}

// String returns the torque and its pull in one line.
func (t Tightening) String() string {
	return fmt.Sprintf("%.3g N·m for %.0f N (%.0f to %.0f N)", float64(t.Torque), float64(t.Pull), float64(t.Least), float64(t.Most))
}

// TorqueForPull returns the torque that pulls a stud or bolt so hard.
//
//	T = K * F * d
//
// with K the nut factor, F the pull and d the nominal diameter. Nine tenths of
// the torque go into friction, so that K, and with it the pull, is a guess; the
// result gives its spread. Pull must be above zero. It is no method for the
// joint of a boiler or a pressure vessel, which is for its code and a qualified
// person.
//
// Source: the short formula of every handbook of bolting; checked against
// published examples. A pull that is not above zero, and a nut factor outside
// 0.05 to 0.5, are an [*units.ArgumentError].
func (t Thread) TorqueForPull(pull units.Force, factor NutFactor) (Tightening, error) {
	if t.Form() == 0 {
		return Tightening{}, noThread()
	}
	if err := factor.check(); err != nil {
		return Tightening{}, err
	}
	if !(pull > 0) || math.IsInf(float64(pull), 0) {
		return Tightening{}, argument("pull", pull.String(), "above zero", units.ErrOutOfRange)
	}
	return Tightening{
		Torque: units.Torque(factor.K * float64(pull) * t.Major().Metres()),
		Pull:   pull,
		Least:  units.Force(1-factor.Scatter) * pull,
		Most:   units.Force(1+factor.Scatter) * pull,
		Factor: factor,
	}, nil
}

// PullFromTorque returns the pull that a torque makes; see
// [Thread.TorqueForPull]. A torque that is not above zero, and a nut factor
// outside 0.05 to 0.5, are an [*units.ArgumentError].
func (t Thread) PullFromTorque(torque units.Torque, factor NutFactor) (Tightening, error) {
	if t.Form() == 0 {
		return Tightening{}, noThread()
	}
	if !(torque > 0) || math.IsInf(float64(torque), 0) {
		return Tightening{}, argument("torque", torque.String(), "above zero", units.ErrOutOfRange)
	}
	if err := factor.check(); err != nil {
		return Tightening{}, err
	}
	return t.TorqueForPull(units.Force(float64(torque)/(factor.K*t.Major().Metres())), factor)
}

// NutFactorFromFriction returns the nut factor that coefficients of friction in
// the thread and under the nut amount to, to put a figure on dirt, oil or a
// washer.
//
//	K = dm/2d (tan B + f sec A)/(1 - f tan B sec A) + fc dc/2d
//
// with dm the pitch diameter, d the nominal diameter, B the lead angle at the
// pitch diameter, A half the angle of thread, f the friction of the thread, fc
// that under the nut and dc the mean diameter it turns on (for an ordinary
// hexagon 1.25 d). Coefficients are from 0 to 0.5. The result has no scatter;
// state one. It holds for a single start.
//
// Source: Shigley, Mechanical Engineering Design, chapter on screws; the
// formula is the wedge's. Other arguments are an [*units.ArgumentError].
func (t Thread) NutFactorFromFriction(thread, face float64, faceDiameter units.Length) (NutFactor, error) {
	if t.Form() == 0 {
		return NutFactor{}, noThread()
	}
	for _, f := range []float64{thread, face} {
		if !(f >= 0 && f <= 0.5) {
			return NutFactor{}, argument("coefficient of friction", strconv.FormatFloat(f, 'g', -1, 64), "0 to 0.5", units.ErrOutOfRange)
		}
	}
	d := t.Major().Metres()
	if faceDiameter.Metres() < d || faceDiameter.Metres() > 4*d {
		return NutFactor{}, argument("mean diameter under the nut", faceDiameter.String(), "from the nominal diameter to four times it", units.ErrOutOfRange)
	}
	dm := t.PitchDiameter().Metres()
	tanB := t.Pitch().Metres() / (math.Pi * dm)
	sec := 1 / math.Cos(t.halfAngle())
	k := dm/(2*d)*(tanB+thread*sec)/(1-thread*tanB*sec) + face*faceDiameter.Metres()/(2*d)
	return NutFactor{K: k, Ref: source.Ref{Kind: source.Derived, Note: "from friction, by the wedge: dm/2d (tan B + f sec A)/(1 - f tan B sec A) + fc dc/2d"}}, nil
}
