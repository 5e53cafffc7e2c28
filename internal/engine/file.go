package engine

import (
	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis/symptom"
	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/fits/assembly"
	"github.com/valvechest/valvechest/gasket/cover"
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/material"
)

// A File is what an engine file may hold. A nil pointer is a key that is not
// there.
type File struct {
	Name     string `toml:"name"`
	Units    Unit   `toml:"units"`
	Made     []Part `toml:"made"` // parts of the gear that are there; not given: all that can be
	Cylinder struct {
		Bore   *units.Length `toml:"bore"`
		Stroke *units.Length `toml:"stroke"`
		Iron   *units.Mass   `toml:"iron"` // of cylinder, covers and chest, that steam warms

		Length         *units.Length `toml:"length"` // between the spigots of the covers
		Piston         *units.Length `toml:"piston"` // its length
		Gaskets        *units.Length `toml:"gaskets"`
		HeadClearance  *units.Length `toml:"head_clearance"`
		LeastClearance *units.Length `toml:"least_clearance"`
		Wear           *units.Length `toml:"wear"`

		PistonRod *units.Length   `toml:"piston_rod"` // its diameter
		Pressure  *units.Pressure `toml:"pressure"`   // that it is declared for
	} `toml:"cylinder"`
	Motion struct {
		ConnectingRod *eccentric.Rod `toml:"connecting_rod"`
		EccentricRod  *eccentric.Rod `toml:"eccentric_rod"`
		LeverRatio    *float64       `toml:"lever_ratio"`

		// What has been altered since the sizes were drawn or measured.
		Shims               *units.Length `toml:"shims"`
		ConnectingRodLonger *units.Length `toml:"connecting_rod_longer"`
		EccentricRodLonger  *units.Length `toml:"eccentric_rod_longer"`
	} `toml:"motion"`
	Ports struct {
		Steam   *units.Length `toml:"steam"`
		Bar     *units.Length `toml:"bar"`
		Exhaust *units.Length `toml:"exhaust"`
		Length  *units.Length `toml:"length"`

		CrankSteam *units.Length `toml:"crank_steam"` // of the crank end, where it is not as at the head end
		CrankBar   *units.Length `toml:"crank_bar"`
	} `toml:"ports"`
	Valve struct {
		Length    *units.Length `toml:"length"`
		Cavity    *units.Length `toml:"cavity"`
		Offset    *units.Length `toml:"offset"`
		Admission string        `toml:"admission"`

		CavityOffset *units.Length `toml:"cavity_offset"` // from the middle of the valve, towards the crank
		LostMotion   *units.Length `toml:"lost_motion"`   // between sheave and valve, in all, at the valve

		Width       *units.Length `toml:"width"` // across the travel, as the next is
		CavityWidth *units.Length `toml:"cavity_width"`
	} `toml:"valve"`
	Eccentric struct {
		Travel  *units.Length `toml:"travel"`
		Advance *units.Angle  `toml:"advance"`
		Lead    *units.Length `toml:"lead"`
		Stands  *units.Angle  `toml:"stands"` // ahead of the crank
	} `toml:"eccentric"`
	Chest struct {
		Length *units.Length `toml:"length"`
	} `toml:"chest"`
	Setting    Setting    `toml:"setting"`
	Running    Running    `toml:"running"`
	Flywheel   Flywheel   `toml:"flywheel"`
	Sheave     SheaveMade `toml:"sheave"`
	Wanted     Wanted     `toml:"wanted"`
	Tolerances Tolerances `toml:"tolerances"`
	Keep       Keep       `toml:"keep"`
	Lathe      struct {
		Speeds       *speeds.Ladder         `toml:"speeds"`
		Motor        *units.Power           `toml:"motor"`
		CentreHeight *units.Length          `toml:"centre_height"`
		ChuckSpeed   *units.RotationalSpeed `toml:"chuck_speed"`
	} `toml:"lathe"`
	Mill struct {
		Speeds *speeds.Ladder `toml:"speeds"`
		Motor  *units.Power   `toml:"motor"`
	} `toml:"mill"`
	Drills struct {
		Set *gauge.Set `toml:"set"`
	} `toml:"drills"`
	Operations []Operation `toml:"operations"`
	Fits       []Fit       `toml:"fits"`
	Fasteners  []Fastener  `toml:"fasteners"`
	Covers     []Cover     `toml:"covers"`
	Readings   []Reading   `toml:"readings"`

	Symptoms []symptom.Symptom `toml:"symptoms"` // what the engine does
}

// A Cover is one cover of the engine with the gasket under it: round, with its
// studs on a circle, or rectangular, with its studs on the sides of a rectangle.
type Cover struct {
	Where         string             `toml:"where"`
	Shape         string             `toml:"shape"`
	Diameter      *units.Length      `toml:"diameter"`
	Opening       *units.Length      `toml:"opening"`
	Width         *units.Length      `toml:"width"`
	Height        *units.Length      `toml:"height"`
	Corner        *units.Length      `toml:"corner"`
	OpeningWidth  *units.Length      `toml:"opening_width"`
	OpeningHeight *units.Length      `toml:"opening_height"`
	OpeningCorner *units.Length      `toml:"opening_corner"`
	PortMargin    *units.Length      `toml:"port_margin"`
	Studs         *int               `toml:"studs"`
	StudCircle    *units.Length      `toml:"stud_circle"`
	FirstStud     *units.Angle       `toml:"first_stud"`
	StudsAcross   *int               `toml:"studs_across"`
	StudsAlong    *int               `toml:"studs_along"`
	StudWidth     *units.Length      `toml:"stud_width"`
	StudHeight    *units.Length      `toml:"stud_height"`
	Thread        *thread.Thread     `toml:"thread"`
	Hole          *units.Length      `toml:"hole"`
	StudClass     string             `toml:"stud_class"`
	StudProof     *units.Pressure    `toml:"stud_proof"`
	Preload       *float64           `toml:"preload"`
	Pressure      *units.Pressure    `toml:"pressure"`
	Gasket        *material.Material `toml:"gasket"`
	Thickness     *units.Length      `toml:"gasket_thickness"`
	CoverPlate    *units.Length      `toml:"cover_thickness"`
	CoverMaterial *material.Material `toml:"cover_material"`
	CameOut       *units.Length      `toml:"cover_came_out"`
	CutFace       *cover.Face        `toml:"cover_cut"`
	Nut           *units.Length      `toml:"nut"`    // its height
	Washer        *units.Length      `toml:"washer"` // its thickness
	Passes        *units.Length      `toml:"passes"` // what else the studs pass, with its gasket
}

// A Fastener is one set of screws or studs of the engine: the thread, how many,
// and the metal that it is tapped into, right through or to a depth.
type Fastener struct {
	Where     string                 `toml:"where"`
	Thread    *thread.Thread         `toml:"thread"`
	Count     int                    `toml:"count"`
	Material  *material.Material     `toml:"material"`
	Through   *units.Length          `toml:"through"` // thickness of the metal
	Blind     *units.Length          `toml:"blind"`   // depth of the hole to full diameter
	Tap       *thread.Tap            `toml:"tap"`     // the last one into a blind hole
	Metal     *units.Length          `toml:"metal"`   // from the mouth of a blind hole to what lies below it
	Clearance *thread.ClearanceClass `toml:"clearance"`
}

// A Unit is that of lengths which a file gives without one. The zero value is
// none: then each has its own.
type Unit int

// The units.
const (
	Millimetre Unit = iota + 1
	Inch
)

var unitNames = names.Set{Package: "engine", Type: "Unit", Field: "units", Texts: []string{"", "mm", "inch"}}

// String returns "mm" or "inch".
func (u Unit) String() string { return unitNames.Text(int(u)) }

// MarshalText implements [encoding.TextMarshaler].
func (u Unit) MarshalText() ([]byte, error) { return unitNames.Marshal(int(u)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (u *Unit) UnmarshalText(text []byte) error { return names.Unmarshal(&unitNames, u, text) }

// A Fit is one joint of the engine: a fit, or the clearance that is wanted and
// left to the standard to meet, and what the parts are made of and how hot they
// get.
type Fit struct {
	Where          string             `toml:"where"`
	Shaft          string             `toml:"shaft"` // that it is of, where other fits are too
	Nominal        *units.Length      `toml:"nominal"`
	Fit            string             `toml:"fit"`
	ClearanceLeast *units.Length      `toml:"clearance_least"`
	ClearanceMost  *units.Length      `toml:"clearance_most"`
	Packing        *assembly.Packing  `toml:"packing"`        // of a piston, whose rule of practice decides
	Bar            *fits.Class        `toml:"bar"`            // that the shaft is, as it is bought
	HoleCameOut    *units.Length      `toml:"hole_came_out"`  // measured; the shaft is made to it
	ShaftCameOut   *units.Length      `toml:"shaft_came_out"` // measured; the hole is made to it
	HoleMaterial   *material.Material `toml:"hole_material"`
	ShaftMaterial  *material.Material `toml:"shaft_material"`
	HoleAt         *units.Temperature `toml:"hole_at"`
	ShaftAt        *units.Temperature `toml:"shaft_at"`
	Room           *units.Temperature `toml:"room"`
	HotLeast       *units.Length      `toml:"hot_least"`
}

// An Operation is one operation on one part of the engine.
type Operation struct {
	Part      string                 `toml:"part"`
	Operation *speeds.Operation      `toml:"operation"`
	Diameter  *units.Length          `toml:"diameter"`
	Material  *material.Material     `toml:"material"`
	Tool      *speeds.Tool           `toml:"tool"`
	On        string                 `toml:"on"`     // lathe or mill
	Length    *units.Length          `toml:"length"` // of the cut; of itself for facing, parting and holes
	Depth     *units.Length          `toml:"depth"`  // of a hole
	Pitch     *units.Length          `toml:"pitch"`  // of a thread that is screwcut
	Width     *units.Length          `toml:"width"`  // of a slot that is milled
	Cut       *units.Length          `toml:"cut"`    // depth of each cut; of turned work on the radius
	Stock     *units.Length          `toml:"stock"`  // to take off in such cuts
	Teeth     int                    `toml:"teeth"`  // of a milling cutter
	RunsAt    *units.RotationalSpeed `toml:"runs_at"`
}

// An Engine is an engine file that was read.
type Engine struct {
	*Document
	File
}

// Parse reads the text of an engine file; see [Decode]. Beside an error it returns
// what could be read, so that the methods that validate it, and with them the
// pages of the book, can tell what else is wrong. What was read may lack keys or
// contradict itself.
func Parse(name string, text []byte) (*Engine, error) {
	e := &Engine{}
	var err error
	e.Document, err = Decode(name, text, &e.File)
	return e, err
}
