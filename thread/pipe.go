package thread

import (
	"fmt"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/gauge"
	"github.com/valvechest/valvechest/units/source"
)

// A PipeHoleKind says which hole a taper pipe screws into, and how it is made.
// The zero value is none.
type PipeHoleKind int

// The kinds. A drill of one leaks as another.
const (
	ParallelHole PipeHoleKind = iota + 1 // a parallel thread, Rp of ISO 7-1; there is none for NPT
	DrilledTaper                         // a taper thread, tapped in a drilled hole without a taper reamer
	ReamedTaper                          // a taper thread, tapped after a reamer with a taper of 1 in 16
)

var pipeHoleKinds = names.Set{Package: "thread", Type: "PipeHoleKind", Field: "hole for a taper pipe", Texts: []string{
	ParallelHole: "parallel", DrilledTaper: "drilled", ReamedTaper: "reamed",
}}

// String returns "parallel", "drilled" or "reamed".
func (k PipeHoleKind) String() string { return pipeHoleKinds.Text(int(k)) }

// ParsePipeHoleKind returns the kind of that name, in capitals or not; see
// [PipeHoleKind.String].
func ParsePipeHoleKind(name string) (PipeHoleKind, error) {
	v, err := pipeHoleKinds.Value(name)
	return PipeHoleKind(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (k PipeHoleKind) MarshalText() ([]byte, error) { return pipeHoleKinds.Marshal(int(k)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (k *PipeHoleKind) UnmarshalText(text []byte) error {
	return names.Unmarshal(&pipeHoleKinds, k, text)
}

// PipeHoleKinds returns all of them, in order.
func PipeHoleKinds() []PipeHoleKind { return []PipeHoleKind{ParallelHole, DrilledTaper, ReamedTaper} }

// A PipeHole is one answer to what to drill for a taper pipe: the hole between
// Min and Max.
type PipeHole struct {
	Kind     PipeHoleKind
	Internal string // the thread in the hole: "Rp 1/8", "Rc 1/8", "1/8-27 NPT"
	Min, Max units.Length

	// Mouth is the minor diameter at the gauge plane, the face of the fitting; a
	// reamed hole is opened to it. Length is how far from there a taper thread is
	// to be whole, its crests not cut short by the hole. Zero of a parallel hole.
	Mouth, Length units.Length `json:",omitzero"`

	// Open is the largest hole of a taper thread that runs out in the open, into a
	// recess or right through, and need not be whole so far; zero where we have none.
	Open units.Length `json:",omitzero"`

	Printed []PipeDrill // what is in print for it, with what comes of it
	Refs    source.Refs
}

// A PipeDrill is a drill for such a hole and what it leaves of the thread.
type PipeDrill struct {
	Drill    gauge.Size
	Whole    units.Length `json:",omitzero"` // of a taper thread, from the face; zero: none of it
	Turns    float64      `json:",omitzero"` // in Whole
	Wanted   units.Length `json:",omitzero"` // of Whole: Length, or less where the thread runs out in the open
	Open     bool         // printed for a thread that runs out in the open
	Findings finding.List // one, or none where the drill suits
	Refs     source.Refs
}

// Suits reports whether the drill makes the hole.
func (d PipeDrill) Suits() bool { return len(d.Findings) == 0 && d.Drill.Name != "" }

// String returns the drill and what it leaves in one line.
func (d PipeDrill) String() string {
	text := d.Drill.Name
	if !d.Wanted.IsZero() {
		text += fmt.Sprintf(": whole thread for %s of %s", d.Whole.Text(units.Millimetres, 1), d.Wanted.Text(units.Millimetres, 1))
	}
	for _, f := range d.Findings {
		text += ". " + f.Text
	}
	return text
}

type pipeInternal struct {
	size                    string
	tolerance, length, open units.Length
	drill, drillOpen        gauge.Size
	ref                     source.Ref
}

type pipePrinted struct {
	thread string
	kind   PipeHoleKind
	drill  gauge.Size
	ref    source.Ref
}

var (
	pipeInternals = table.Table[pipeInternal]{FS: &tables, Name: "tables/pipe_internal.csv",
		Row: func(r *table.Row) pipeInternal {
			mm := func(column string) units.Length { return table.As(r, column, units.Millimetres.Parse) }
			drill := func(column string) gauge.Size {
				return table.As(r, column, func(text string) (gauge.Size, error) { return gauge.Parse(text + " mm") })
			}
			return pipeInternal{r.Text("size"), mm("tolerance"), mm("length"), mm("length_open"),
				drill("hole"), drill("hole_open"), r.Ref()}
		}}
	pipeDrills = table.Table[pipePrinted]{FS: &tables, Name: "tables/pipe_drills.csv",
		Row: func(r *table.Row) pipePrinted {
			return pipePrinted{r.Text("thread"), table.As(r, "hole", ParsePipeHoleKind), table.As(r, "drill", gauge.Parse), r.Ref()}
		}}
	coneRef = source.Ref{Kind: source.Derived,
		Note: "minor diameter at the gauge plane less 1/16 of the length of whole thread"}
	reamRef = source.Ref{Kind: source.Derived,
		Note: "as the hole without a reamer, down to as much again below it as the taper takes"}
	wrenchRef = source.Ref{Kind: source.Derived,
		Note: "L1 of ASME B1.20.1 and the wrench make-up, three turns or from 2 1/2 up two, less 1/16 of them"}
)

// PipeHoles returns the holes that a taper pipe R or NPT is screwed into, each
// with its own drill; none for other threads.
//
//	Max   = D1 + T                 parallel, Rp; Min = D1 - T
//	Max   = D1 - length/16         taper, in a drilled hole or before the reamer
//	whole = 16 * (D1 - drill)      length of whole thread that a drill leaves, from the face
//
//	D1      minor diameter at the gauge plane, the face of the fitting
//	T       tolerance of the diameter of Rp
//	length  of whole thread: useful length of Rc; L1 of NPT, and before a reamer
//	        the wrench make-up of three turns too, two from 2 1/2 up
//
// A drill over D1 leaves no whole turn of a taper thread anywhere, and the joint
// leaks along the crests; the drills that charts give for "taper" British pipe are
// such, and serve for Rp. Min of a drilled hole is the smaller hole that is in
// print or, of NPT, that before a reamer; a smaller one still works the tap harder.
//
// Sources: ISO 7-1 and JIS B 0203 as a catalogue of thread tools prints them, with
// its holes for Rc; ASME B1.20.1; drills of a tap maker's catalogue and of pages
// that nobody reviewed.
func (t Thread) PipeHoles() []PipeHole {
	switch t.series {
	case NPT:
		return t.americanPipeHoles()
	case BSPTaper:
		return t.britishPipeHoles()
	}
	return nil
}

func (t Thread) britishPipeHoles() []PipeHole {
	size := t.name[len("R "):]
	for _, row := range pipeInternals.Rows() {
		if row.size != size {
			continue
		}
		refs := t.Refs().With(source.Shared(&row.ref))
		inner := t.coneAt(row.length)
		parallel := PipeHole{
			Kind: ParallelHole, Internal: "Rp " + size, Refs: refs,
			Min: t.minor.Sub(row.tolerance), Max: t.minor.Add(row.tolerance),
		}
		drilled := PipeHole{
			Kind: DrilledTaper, Internal: "Rc " + size, Min: row.drill.Diameter, Max: inner,
			Mouth: t.minor, Length: row.length, Open: t.coneAt(row.open), Refs: refs.With(source.Shared(&coneRef)),
		}
		for _, d := range []struct {
			drill gauge.Size
			open  bool
		}{{row.drill, false}, {row.drillOpen, true}} {
			printed := drilled
			if d.open {
				printed.Length = row.open
				printed.Max = drilled.Open
			}
			checked := printed.check(t, d.drill)
			checked.Open, checked.Refs = d.open, source.Of(row.ref)
			drilled.Printed = append(drilled.Printed, checked)
		}
		reamed := PipeHole{
			Kind: ReamedTaper, Internal: "Rc " + size, Min: inner.Sub(t.minor.Sub(inner)), Max: inner,
			Mouth: t.minor, Length: row.length, Refs: refs.With(source.Shared(&coneRef)).With(source.Shared(&reamRef)),
		}
		return t.printed(parallel, drilled, reamed)
	}
	return nil
}

func (t Thread) americanPipeHoles() []PipeHole {
	turns := 3.0 // ASME B1.20.1, wrench make-up of the internal thread
	if t.outside.Cmp(units.Inch(2.5)) > 0 {
		turns = 2 // nominal 2 1/2 and up, whose pipe is over 2 1/2 in outside
	}
	long := t.gaugeLength.Add(t.pitch.Scale(turns))
	inner, short := t.coneAt(long), t.coneAt(t.gaugeLength)
	drilled := PipeHole{
		Kind: DrilledTaper, Internal: t.name, Min: inner, Max: short, Mouth: t.minor, Length: t.gaugeLength,
		Refs: t.Refs().With(source.Shared(&coneRef)),
	}
	reamed := PipeHole{
		Kind: ReamedTaper, Internal: t.name, Min: inner.Sub(t.minor.Sub(inner)), Max: inner, Mouth: t.minor, Length: long,
		Refs: t.Refs().With(source.Shared(&wrenchRef)).With(source.Shared(&reamRef)),
	}
	return t.printed(drilled, reamed)
}

// coneAt returns the minor diameter of the taper thread at a depth below the
// gauge plane.
func (t Thread) coneAt(depth units.Length) units.Length {
	return t.minor.Sub(depth.Scale(taperOnDiameter)) // 1 in 16 on the diameter, ISO 7-1 and ASME B1.20.1
}

// printed adds the drills that are in print.
func (t Thread) printed(holes ...PipeHole) []PipeHole {
	for _, row := range pipeDrills.Rows() {
		if row.thread != t.name {
			continue
		}
		for i := range holes {
			if holes[i].Kind == row.kind {
				d := holes[i].check(t, row.drill)
				d.Refs = source.Of(row.ref)
				holes[i].Printed = append(holes[i].Printed, d)
			}
		}
	}
	return holes
}

// CheckPipeDrill says what one drill leaves in a hole of [Thread.PipeHoles],
// whoever recommends it. A thread without such a hole is an error.
func (t Thread) CheckPipeDrill(drill gauge.Size, kind PipeHoleKind) (PipeDrill, error) {
	if err := t.Validate(); err != nil {
		return PipeDrill{}, err
	}
	if !pipeHoleKinds.Known(int(kind)) {
		return PipeDrill{}, pipeHoleKinds.Unknown(int(kind))
	}
	for _, h := range t.PipeHoles() {
		if h.Kind == kind {
			return h.check(t, drill), nil
		}
	}
	return PipeDrill{}, fail.Argument("hole for "+t.name, kind, "we have none",
		"taper pipe threads R, parallel, drilled or reamed, and NPT, drilled or reamed", units.ErrUnknown)
}

// check says what a drill leaves in the hole.
func (h PipeHole) check(t Thread, drill gauge.Size) PipeDrill {
	d := PipeDrill{Drill: drill, Wanted: h.Length, Refs: h.Refs}
	say := func(code finding.Code, severity finding.Severity, format string, args ...any) {
		d.Findings = finding.List{{
			Code: code, Severity: severity, Text: fmt.Sprintf("Drill %s ", drill.Name) + fmt.Sprintf(format, args...),
			Refs: h.Refs,
		}}
	}
	mm := func(l units.Length, places int) string { return l.Text(units.Millimetres, places) }
	if h.Kind == ParallelHole {
		switch {
		case drill.Diameter.Cmp(h.Max) > 0:
			say(PipeLeaks, finding.Fails, "is over the largest minor diameter of %s, %s: the taper screw seals on less than it should.",
				h.Internal, mm(h.Max, 3))
		case drill.Diameter.Cmp(h.Min) < 0:
			say(SmallDrill, finding.Fails, "is below the least minor diameter of %s, %s, and not for a cutting tap.",
				h.Internal, mm(h.Min, 3))
		}
		return d
	}
	if whole := t.minor.Sub(drill.Diameter); whole.Sign() > 0 {
		d.Whole = whole.Scale(1 / taperOnDiameter)
		d.Turns = d.Whole.Ratio(t.pitch)
	}
	switch {
	case d.Whole.IsZero():
		say(PipeLeaks, finding.Fails, "is over the minor diameter of %s at its mouth, %s: no turn of the taper thread is whole,"+
			" and the joint leaks along the crests.", h.Internal, mm(h.Mouth, 3))
	case d.Whole.Cmp(h.Length) < 0:
		say(PartPipeThread, finding.Caution, "leaves %s of whole thread in %s, %.1f turns from the mouth; %s are wanted."+
			" Seal it well, or take the smaller drill or a taper reamer.", mm(d.Whole, 1), h.Internal, d.Turns, mm(h.Length, 1))
	}
	return d
}

// A PipeChoice is a hole for a taper pipe with the drill for it of those there
// are.
type PipeChoice struct {
	PipeHole
	Choice   PipeDrill    `json:",omitzero"` // zero where none of the drills makes the hole
	Findings finding.List // that none does, and what to take
}

// choosePipe picks the drill of a set for each hole: the largest between its
// limits.
func (t Thread) choosePipe(own gauge.Set) []PipeChoice {
	var choices []PipeChoice
	for _, h := range t.PipeHoles() {
		c := PipeChoice{PipeHole: h}
		if size, err := own.AtMost(h.Max); err == nil && size.Diameter.Cmp(h.Min) >= 0 {
			c.Choice = h.check(t, size)
		} else {
			c.Findings = finding.List{{
				Code: NoTappingDrill, Severity: finding.Note,
				Text:     fmt.Sprintf("None of the drills makes the %v hole for %s.", h.Kind, h.Internal),
				Remedies: []string{h.buy()}, Refs: h.Refs,
			}}
			if size, err := own.AtMost(h.Open); err == nil && size.Diameter.Cmp(h.Min) >= 0 {
				c.Findings[0].Remedies = append(c.Findings[0].Remedies, fmt.Sprintf("Only where the thread of %s runs out in the open, "+
					"into a recess or right through, drill %s serves.", h.Internal, size.Name))
			}
		}
		choices = append(choices, c)
	}
	return choices
}

// buy says which drill makes the hole.
func (h PipeHole) buy() string {
	made := [...]string{ParallelHole: "", DrilledTaper: " without a reamer", ReamedTaper: " before the taper reamer"}[h.Kind]
	return fmt.Sprintf("For %s%s, take a drill from %s to %s (%s to %s).", h.Internal, made,
		h.Min.Text(units.Millimetres, 3), h.Max.Text(units.Millimetres, 3),
		h.Min.Text(units.Inches, 4), h.Max.Text(units.Inches, 4))
}
