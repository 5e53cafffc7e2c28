package engine

import (
	"errors"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagnosis"
	"github.com/valvechest/valvechest/eccentric/diagnosis/symptom"
	"github.com/valvechest/valvechest/units"
)

// A Reading is one thing that was measured on the built engine. Value and Within
// are in the measure of its kind.
type Reading struct {
	Kind   *diagnosis.Kind `toml:"kind"`
	End    *eccentric.End  `toml:"end"`
	Crank  *units.Angle    `toml:"crank"` // where it stood, from the head-end dead centre
	Value  Measured        `toml:"value"`
	Within Measured        `toml:"within"` // that it may be out by either way
}

// A Measured is what a reading says, whose measure goes by its kind.
type Measured string

// Observed is what was read on an engine, and what it does, in its own file or in one
// beside it.
type Observed struct {
	*Document
	Units    Unit              `toml:"units"`
	Symptoms []symptom.Symptom `toml:"symptoms"`
	Readings []Reading         `toml:"readings"`
}

// ParseObserved reads the text of a file with what was read on an engine, which has
// the keys that an engine file has for it; see [Parse].
func ParseObserved(name string, text []byte) (*Observed, error) {
	o := &Observed{}
	var err error
	o.Document, err = Decode(name, text, o)
	return o, err
}

// Observed returns what was read on the engine by its own file.
func (e *Engine) Observed() *Observed {
	return &Observed{Document: e.Document, Units: e.Units, Symptoms: e.File.Symptoms, Readings: e.File.Readings}
}

// Beside complains of what a file beside this one says too. All that was observed is
// to stand in one of the two.
func (o *Observed) Beside(other *Observed) error {
	var problems []error
	for _, key := range []string{"symptoms", "readings"} {
		if o.Has(key) {
			known := o.complaint(o.placeOf(key), key)
			problems = append(problems, other.Errorf(key, "%v has some too; accepted: all readings and symptoms in one of the two files",
				known))
		}
	}
	return Join(problems...)
}

// Taken returns the readings of an engine as package diagnosis has them, in order of
// the file. It complains of each that is not whole, of those that cannot both be, and
// of those that no engine of these sizes has.
func (o *Observed) Taken(e *Engine) ([]diagnosis.Reading, error) {
	var all []diagnosis.Reading
	var problems []error
	whole := true
	for i := range o.Readings {
		t := o.entry("readings[%d]", i)
		r := o.reading(t, o.Readings[i])
		err := said(t)
		problems = append(problems, err)
		whole = whole && err == nil
		all = append(all, r)
	}
	if whole {
		problems = append(problems, o.together(all), o.possible(e, all))
	}
	problems = append(problems, o.built(e))
	return all, errors.Join(problems...)
}

// reading reads one of them.
func (o *Observed) reading(t *entry, from Reading) (r diagnosis.Reading) {
	t.need(strings.Join(kinds(), ", "), "kind")
	if from.Kind == nil {
		return r
	}
	kind := *from.Kind
	t.need(measureOf(kind), "value")
	switch valve := ofTheValve(kind); {
	case !valve && from.End != nil && *from.End == eccentric.BothEnds:
		t.complain("end", `"both" ends at once; accepted: "head" or "crank", a reading for each`)
	case !valve:
		t.need(`"head", the end away from the crank, or "crank"`, "end")
	case from.End != nil && *from.End != eccentric.BothEnds:
		t.complain("end", `%q of a %s, which is the valve's; accepted: no such key, or "both"`, from.End.String(), kind)
	}
	switch {
	case kind == diagnosis.ValveAt:
		t.need(`where the crank stood, from the head-end dead centre in the direction of rotation, such as "90 deg"`, "crank")
	case t.has("crank"):
		t.complain("crank", "it belongs to valve_at; accepted: no such key for %s", kind)
	}
	if !t.has("value") || t.refused[t.path+"value"] || t.refused[t.path+"within"] {
		return r
	}
	value := string(o.withUnit(kind, from.Value))
	r, err := kind.Read(value, "")
	if err != nil {
		t.complain("value", "%v", err)
		return r
	}
	if t.has("within") {
		if kind == diagnosis.OpensNext {
			t.complain("within", "%q is not out by so much; accepted: no such key", value)
		} else if r.Never {
			if _, err := kind.Read("0 deg", string(from.Within)); err != nil { // the way it was looked for
				t.complain("within", "%v", err)
			}
		} else if r, err = kind.Read(value, string(o.withUnit(kind, from.Within))); err != nil {
			t.complain("within", "%v", err)
		} else if strings.TrimSpace(string(from.Within)) == "" {
			t.complain("within", "blank; accepted: what it may be out by either way, %s", measureOf(kind))
		}
	}
	if from.End != nil {
		r.End = *from.End
	}
	if from.Crank != nil {
		r.Crank = *from.Crank
	}
	if len(t.all) == 0 {
		o.validate(t, r)
	}
	return r
}

// validate places what the package refuses.
func (o *Observed) validate(t *entry, r diagnosis.Reading) {
	err := r.Validate()
	var bad *units.ArgumentError
	if err == nil || !errors.As(err, &bad) {
		return
	}
	key := "value"
	switch {
	case strings.HasPrefix(bad.Field, "what "):
		key = "within"
	case strings.HasPrefix(bad.Field, "crank angle"):
		key = "crank"
	}
	t.complain(key, "%v", err)
}

// withUnit gives a length that is a bare number the unit of the file.
func (o *Observed) withUnit(kind diagnosis.Kind, m Measured) Measured {
	if o.Units != 0 && isLength(kind) && bare([]byte(m)) {
		m += Measured(" " + o.Units.String())
	}
	return m
}

// together complains of two readings of one thing that differ, and of those of which
// only one can be.
func (o *Observed) together(all []diagnosis.Reading) error {
	var problems []error
	for i, r := range all {
		for k, other := range all[:i] {
			key, first := o.key(i, "value"), o.key(k, "value")
			same := r.End == other.End
			switch {
			case !r.Agrees(other):
				problems = append(problems, o.Contradicts(key, o.says(i, r), first, string(o.Readings[k].Value)+" for it",
					"readings of one thing that differ by no more than both may be out, or the one that you trust"))
			case same && r.Never != other.Never && partner(r.Kind) == other.Kind:
				problems = append(problems, o.Contradicts(key, named(r)+" "+happens(r), first, named(other)+" "+happens(other),
					"a port that both opens and shuts, or does neither"))
			}
		}
	}
	return Join(problems...)
}

func (o *Observed) key(i int, name string) string {
	return o.entry("readings[%d]", i).path + name
}

// says is what a reading says and of what.
func (o *Observed) says(i int, r diagnosis.Reading) string {
	return string(o.Readings[i].Value) + " for " + named(r)
}

// possible complains of openings that are half as wide again as the port: one that
// was cut a little too wide is a fault to be found.
func (o *Observed) possible(e *Engine, all []diagnosis.Reading) error {
	gear, ok := e.Gear()
	if !ok {
		return nil // told elsewhere
	}
	var problems []error
	for i, r := range all {
		if r.Kind != diagnosis.Lead && r.Kind != diagnosis.Opening && r.Kind != diagnosis.ExhaustOpening {
			continue
		}
		port, _ := gear.Ports.At(r.End)
		key := "ports.steam"
		if r.End == eccentric.CrankEnd && e.Has("ports.crank_steam") {
			key = "ports.crank_steam"
		}
		if r.Length.Sub(r.Within.Length).Cmp(port.Scale(1.5)) > 0 {
			problems = append(problems, o.against(o.key(i, "value"), o.says(i, r), e, key,
				port.String()+" is all that the port is wide",
				"what is seen of the port; or the port in the engine file as it measures"))
		}
	}
	return Join(problems...)
}

// built complains of readings on an engine that is not made.
func (o *Observed) built(e *Engine) error {
	all := eccentric.Made{Ports: true, Valve: true, Eccentric: true, Rods: true}
	if !o.Has("readings") || e.PartsMade() == all {
		return nil
	}
	return o.against("readings", "they are taken on a built engine", e, "made", "not all of the gear is made",
		`readings where "ports", "valve", "eccentric" and "rods" are made`)
}

// against is a contradiction between what was read and the engine file, which may be
// two files.
func (o *Observed) against(key, says string, e *Engine, other, otherSays, accepted string) error {
	if o.Document == e.Document {
		return o.Contradicts(key, says, other, otherSays, accepted)
	}
	known := e.complaint(e.placeOf(other), shown(other)+": "+otherSays)
	return o.Errorf(key, "%s, but %s; accepted: %s", says, known.Error(), accepted)
}

func kinds() (names []string) {
	for _, k := range diagnosis.Kinds() {
		names = append(names, k.String())
	}
	return names
}

func ofTheValve(k diagnosis.Kind) bool { return k == diagnosis.Travel || k == diagnosis.ValveAt }

func isLength(k diagnosis.Kind) bool { return k >= diagnosis.Lead && k <= diagnosis.ValveAt }

// partner is the event that comes with another: a port that opens shuts too.
func partner(k diagnosis.Kind) diagnosis.Kind {
	switch k {
	case diagnosis.Admission:
		return diagnosis.CutOff
	case diagnosis.CutOff:
		return diagnosis.Admission
	case diagnosis.Release:
		return diagnosis.Compression
	case diagnosis.Compression:
		return diagnosis.Release
	}
	return 0
}

func happens(r diagnosis.Reading) string {
	if r.Never {
		return "never happens"
	}
	return "happens"
}

// named says what a reading is of.
func named(r diagnosis.Reading) string {
	text := strings.ReplaceAll(r.Kind.String(), "_", "-")
	if r.End != eccentric.BothEnds {
		text += " of the " + r.End.String() + " end"
	}
	return text
}

// measureOf says what a reading of the kind looks like.
func measureOf(k diagnosis.Kind) string {
	switch {
	case k == diagnosis.OpensNext:
		return `"steam" or "exhaust"`
	case isLength(k):
		return `a length with its unit, such as "0.2 mm" or "8 thou"`
	}
	return `a crank angle from that end's own dead centre, such as "-4 deg", a share of the stroke, "87 %", or "never"`
}
