package cutting

import (
	"embed"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// Scatter is the share by which a force or power of this package may be off
// either way: the tables differ by as much, and more where a tool is blunt.
const Scatter = 0.3

// A Kienzle is the force that a material asks for each square millimetre of
// chip: kc11 at a chip 1 mm thick, more for thinner ones.
type Kienzle struct {
	KC11     units.Pressure
	Exponent float64
	Group    string // of VDI 3323
	Material string // as published, with its condition
	Ref      source.Ref
}

// At returns the specific cutting force at a chip thickness h:
//
//	kc = kc11 / h^m, h in mm
//
// for chips from 0.005 mm (below it tools rub) to 3 mm; others are an
// [*units.ArgumentError], and so are constants without a force.
func (k Kienzle) At(h units.Length) (units.Pressure, error) {
	if err := positive("specific cutting force", k.KC11); err != nil {
		return 0, err
	}
	if !(k.Exponent >= 0 && k.Exponent < 1) {
		return 0, bad("exponent of the cutting force", fmt.Sprint(k.Exponent), "", "from 0, below 1", units.ErrOutOfRange)
	}
	if h.Cmp(units.Micron(5)) < 0 || h.Cmp(units.MM(3)) > 0 {
		return 0, bad("chip thickness", h.String(), "", "0.005 to 3 mm", units.ErrOutOfRange)
	}
	return k.KC11 * units.Pressure(math.Pow(h.MM(), -k.Exponent)), nil
}

// KienzleFor returns the constants of a material, for a sharp tool without
// rake, give or take [Scatter]. Wrought iron, cast steel and free-cutting steel
// go as mild steel (the last asks for less), gunmetal and the bronzes as the
// group of brasses; plastics, zinc and nickel-copper alloys, for which the table
// has no group, are an [*units.ArgumentError].
func KienzleFor(m speeds.Material) (Kienzle, error) {
	for _, row := range kienzleTable.Rows() {
		if slices.Contains(row.materials, m) {
			return row.value, nil
		}
	}
	return Kienzle{}, noFigure("cutting force", m)
}

// A Force is a published specific cutting force at a feed.
type Force struct {
	Feed     units.Length
	Pressure units.Pressure
	Material string // as published, with its condition
	Ref      source.Ref
}

// ForceAtFeed returns the figures that are printed for a material in turning,
// by feed, in the order of the sources; they lie well above [KienzleFor] for
// steel. A material without a figure is an [*units.ArgumentError].
func ForceAtFeed(m speeds.Material) ([]Force, error) {
	var all []Force
	for _, row := range feedTable.Rows() {
		if slices.Contains(row.materials, m) {
			all = append(all, row.value)
		}
	}
	if all == nil {
		return nil, noFigure("cutting force", m)
	}
	return all, nil
}

// A UnitPower is the power that a material asks for each volume of metal
// removed in time, with sharp tools.
type UnitPower struct {
	PerFlow  float64 // W for each m3/s: 1 hp per in3/min is 2.730 GW per m3/s
	Material string  // as published, with its condition
	Ref      source.Ref
}

// Power returns the power at the cutter for a removal rate. P = constant times
// removal rate; a rate or a constant that is not above zero is an
// [*units.ArgumentError].
func (u UnitPower) Power(q units.VolumeFlow) (units.Power, error) {
	if err := positive("removal rate", q); err != nil {
		return 0, err
	}
	if !(u.PerFlow > 0 && u.PerFlow < 1e15) {
		return 0, bad("power constant", fmt.Sprintf("%g W for each m3/s", u.PerFlow), "", "above zero", units.ErrOutOfRange)
	}
	return units.Power(u.PerFlow * float64(q)), nil
}

// UnitPowerFor returns the power constant of a material; feed, cutter and wear
// change it. A material without a figure is an [*units.ArgumentError].
func UnitPowerFor(m speeds.Material) (UnitPower, error) {
	for _, row := range powerTable.Rows() {
		if slices.Contains(row.materials, m) {
			return row.value, nil
		}
	}
	return UnitPower{}, noFigure("power", m)
}

func noFigure(what string, m speeds.Material) error {
	return bad(what, m.String(), "no figure is held for it", "another material of much the same strength", units.ErrUnknown)
}

//go:embed tables/*.csv
var tables embed.FS

var (
	kienzleTable = table.Table[row[Kienzle]]{FS: &tables, Name: "tables/kienzle.csv", Row: readKienzle}
	feedTable    = table.Table[row[Force]]{FS: &tables, Name: "tables/force_at_feed.csv", Row: readForce}
	powerTable   = table.Table[row[UnitPower]]{FS: &tables, Name: "tables/unit_power.csv", Row: readPower}
)

type row[T any] struct {
	materials []speeds.Material
	value     T
}

func materials(r *table.Row) []speeds.Material {
	var all []speeds.Material
	for name := range strings.SplitSeq(r.Optional("materials"), ";") {
		if name = strings.TrimSpace(name); name == "" {
			continue
		}
		m, err := speeds.ParseMaterial(name)
		if err != nil {
			r.Complain("%v", err)
		}
		all = append(all, m)
	}
	return all
}

// printed returns the material and its condition in the words of the source.
func printed(r *table.Row) string {
	return strings.TrimSuffix(r.Text("material_as_published")+", "+r.Optional("condition"), ", ")
}

func readKienzle(r *table.Row) row[Kienzle] {
	k := Kienzle{units.Pressure(r.Float("kc11")) * units.Megapascal, r.Float("exponent"), r.Text("group"), printed(r), r.Ref()}
	if k.KC11 <= 0 || k.Exponent <= 0 || k.Exponent >= 1 {
		r.Complain("want a force above zero and an exponent between 0 and 1")
	}
	return row[Kienzle]{materials(r), k}
}

func readForce(r *table.Row) row[Force] {
	f := Force{table.As(r, "feed", units.Millimetres.Parse), units.Pressure(r.Float("kc")) * units.Megapascal, printed(r), r.Ref()}
	if f.Feed.Sign() <= 0 || f.Pressure <= 0 {
		r.Complain("want feed and force above zero")
	}
	return row[Force]{materials(r), f}
}

func readPower(r *table.Row) row[UnitPower] {
	perFlow := r.Float("kp") * float64(units.Horsepower) / float64(units.CubicInchPerMinute)
	u := UnitPower{perFlow, printed(r), r.Ref()}
	if u.PerFlow <= 0 {
		r.Complain("want a constant above zero")
	}
	return row[UnitPower]{materials(r), u}
}

// A Load is what a cut asks of the machine, give or take [Scatter].
type Load struct {
	Force  units.Force  // along the cut: at the tool, or at one lip of a drill
	Torque units.Torque // at the spindle
	Power  units.Power  // at the spindle
}

// TurningLoad returns the load of a turning cut:
//
//	h = f sin k     F = kc a f     T = F d/2     P = F v
//
// a is the depth on the radius, f the feed, k the angle of the edge to the feed
// (90 degrees: square shoulder), d the diameter before the cut, n the spindle
// speed. kc is that of [Kienzle.At] at the chip h, w the angular speed and v =
// w d/2. The formulas are those of every handbook of machining. Limits as for
// [TurningRemoval], [ChipThickness] and [Kienzle.At].
func TurningLoad(k Kienzle, diameter, depth, feed units.Length, edge units.Angle, n units.RotationalSpeed) (Load, error) {
	if err := turning(diameter, depth, feed, n); err != nil {
		return Load{}, err
	}
	h, err := ChipThickness(feed, edge)
	if err != nil {
		return Load{}, err
	}
	kc, err := k.At(h)
	if err != nil {
		return Load{}, err
	}
	force := float64(kc) * depth.Metres() * feed.Metres()
	return loadOf(force, force*diameter.Metres()/2, n), nil
}

// DrillingLoad returns the load of a drill in the solid:
//
//	h = f/2 sin(a/2)    T = kc f d^2/8    P = T w
//
// with two lips, point angle a included. It leaves out the chisel edge, which
// pushes more than it twists. d is the drill, f the feed per turn, w the
// angular speed. Formulas as for [TurningLoad]; limits as for
// [DrillingRemoval], [PointLength] and [Kienzle.At].
func DrillingLoad(k Kienzle, diameter, feed units.Length, point units.Angle, n units.RotationalSpeed) (Load, error) {
	if _, err := DrillingRemoval(diameter, feed, n); err != nil {
		return Load{}, err
	}
	if _, err := PointLength(diameter, point); err != nil {
		return Load{}, err
	}
	kc, err := k.At(feed.Scale(math.Sin(point.Radians()/2) / 2))
	if err != nil {
		return Load{}, err
	}
	d, f := diameter.Metres(), feed.Metres()
	return loadOf(float64(kc)*d/2*f/2, float64(kc)*f*d*d/8, n), nil
}

// MillingLoad returns the mean load of a milling cut:
//
//	P = kc a w vf, kc at the mean chip fz sqrt(w/d)
//
// a is the depth, w the width across the feed, d the cutter with z teeth, fz
// the feed per tooth. The peak, tooth by tooth, is higher. Force is the mean at
// the rim of the cutter. Formulas as for [TurningLoad]; limits as for
// [MeanChip], [TableFeed] and [Kienzle.At].
func MillingLoad(k Kienzle, diameter, depth, width, perTooth units.Length, teeth int, n units.RotationalSpeed) (Load, error) {
	h, err := MeanChip(perTooth, width, diameter)
	if err != nil {
		return Load{}, err
	}
	kc, err := k.At(h)
	if err != nil {
		return Load{}, err
	}
	vf, err := TableFeed(n, perTooth, teeth)
	if err != nil {
		return Load{}, err
	}
	q, err := MillingRemoval(depth, width, vf)
	if err != nil {
		return Load{}, err
	}
	torque := float64(kc) * float64(q) / float64(n)
	return loadOf(torque/(diameter.Metres()/2), torque, n), nil
}

func loadOf(force, torque float64, n units.RotationalSpeed) Load {
	return Load{units.Force(force), units.Torque(torque), units.Power(torque * float64(n))}
}

// A MotorCheck says whether a motor carries a cut.
type MotorCheck struct {
	Needed units.Power // at the motor: the load divided by the efficiency of the drive
	Share  float64     // of the motor's power
	Holds  bool        // with the scatter on top
	Text   string
}

// CheckMotor compares a load with a motor of the given output and the
// efficiency of the drive, 0.3 to 1 (a belt and plain bearings: 0.7 to 0.8,
// common practice). The margin is [Scatter]. Powers that are not above zero and
// another efficiency are an [*units.ArgumentError].
func CheckMotor(l Load, motor units.Power, efficiency float64) (MotorCheck, error) {
	if err := positive("load", l.Power); err != nil {
		return MotorCheck{}, err
	}
	if err := positive("motor", motor); err != nil {
		return MotorCheck{}, err
	}
	if !(efficiency >= 0.3 && efficiency <= 1) {
		return MotorCheck{}, bad("efficiency of the drive", fmt.Sprint(efficiency), "", "0.3 to 1", units.ErrOutOfRange)
	}
	c := MotorCheck{Needed: l.Power / units.Power(efficiency)}
	c.Share = float64(c.Needed / motor)
	c.Holds = c.Share*(1+Scatter) <= 1
	verdict := "the motor carries it"
	switch {
	case c.Share > 1:
		verdict = "the motor stalls or the belt slips: take a lighter cut"
	case !c.Holds:
		verdict = "it may stall a motor of this size: the figures scatter by 30 %"
	}
	c.Text = fmt.Sprintf("%.0f W at the motor of %.0f W, %.0f %%: %s", float64(c.Needed), float64(motor), 100*c.Share, verdict)
	return c, nil
}
