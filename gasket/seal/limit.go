package seal

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
	"github.com/valvechest/valvechest/units/steam"
)

// A Limit is what one source says that a gasket material stands in long service.
// Two sources on one material are two limits.
type Limit struct {
	Material string            // a name of package material
	Printed  string            // what the source calls it, where that differs
	Dry      units.Temperature `json:",omitzero"` // upper guide value; zero: not said
	Steam    units.Temperature `json:",omitzero"` // upper value in steam; zero: not said
	NoSteam  bool              // not for steam
	NoOil    bool              // not with oil
	Pressure units.Pressure    `json:",omitzero"` // above that outside; zero: not said
	Note     string
	Refs     source.Refs
}

var limits = keyed[Limit]{
	table: table.Table[printed[Limit]]{FS: &files, Name: "tables/limits.csv", Row: readLimit},
	name:  func(l *Limit) *string { return &l.Material },
}

func readLimit(r *table.Row) printed[Limit] {
	l := Limit{Printed: r.Optional("printed"), Note: r.Optional("note")}
	l.Refs = limitRefs(r, l.Printed, l.Note)
	if r.Has("dry_c") {
		l.Dry = units.Celsius(r.Float("dry_c"))
	}
	if r.Has("pressure_bar") {
		l.Pressure = units.Pressure(r.Float("pressure_bar")) * units.Bar
	}
	switch s := r.Optional("steam"); s {
	case "":
	case "yes":
		l.Steam = l.Dry
	case "no":
		l.NoSteam = true
	default:
		c, err := strconv.ParseFloat(s, 64)
		if err != nil {
			r.Complain("steam %q", s)
		}
		l.Steam = units.Celsius(c)
	}
	switch s := r.Optional("oil"); s {
	case "", "yes":
	case "no":
		l.NoOil = true
	default:
		r.Complain("oil %q", s)
	}
	return printed[Limit]{readKeys(r), l}
}

// limitRefs returns the source of a row, with what it calls the material and what
// it says beside the figure: the findings have no other place for that.
func limitRefs(r *table.Row, printed, note string) source.Refs {
	ref := r.Ref()
	if printed != "" {
		printed = "given as " + printed
	}
	notes := slices.DeleteFunc([]string{ref.Note, note, printed}, func(s string) bool { return s == "" })
	ref.Note = strings.Join(notes, "; ")
	return source.Of(ref)
}

// Limits returns the limits of all materials, by material.
func Limits() []Limit { return slices.Clone(limits.all()) }

// LimitsFor returns the limits of a material by every source; none is an error
// that lists the materials with some. See the example of [Check].
func LimitsFor(m material.Material) ([]Limit, error) { return limits.of(m) }

// A Medium is what a gasket keeps in.
type Medium int

// The media. The zero value is none.
const (
	Steam Medium = iota + 1
	Air
	Water
	Oil
)

var mediumNames = names.Set{
	Package: "seal", Type: "Medium", Field: "medium", Texts: []string{"", "steam", "air", "water", "oil"},
}

// Media returns all of them.
func Media() []Medium { return []Medium{Steam, Air, Water, Oil} }

// String returns "steam", "air", "water" or "oil".
func (m Medium) String() string { return mediumNames.Text(int(m)) }

// ParseMedium returns the medium of that name; another text is a
// [*units.ParseError] that lists them.
func ParseMedium(name string) (Medium, error) {
	v, err := mediumNames.Value(name)
	return Medium(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (m Medium) MarshalText() ([]byte, error) { return mediumNames.Marshal(int(m)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (m *Medium) UnmarshalText(text []byte) error { return names.Unmarshal(&mediumNames, m, text) }

// A Service is what a gasket has to stand.
type Service struct {
	Medium      Medium
	Pressure    units.Pressure    // above that outside
	Temperature units.Temperature // zero, for steam only: that of saturated steam; steam is no colder
	Oiled       bool              // steam oil reaches it
}

// mostOver is how far above every source's guide limit fibre and rubber are
// short-lived and no more. They age about twice as fast for each 10 degrees, so that
// they then have about a sixth of the life that the guide value was given for.
const mostOver = units.Temperature(25)

var aging = source.Ref{
	Kind: source.CommonPractice, Note: "rubber and fibre age about twice as fast for each 10 degrees",
}

// Check compares a material with a service and returns what is worth saying, by
// every source that knows the material; nothing means that none of them objects.
// The limits are guide values for long service: above them a gasket is short-lived,
// which is a caution and no ban, as paper is what small engines have always had at
// low pressure. Fibre or rubber more than 25 degrees above what any source gives it
// fails, as does a material that is not for steam at all. What suits is named.
// Pressures are zero or more, up to 200 bar for steam; a material without limits is
// an error that lists those that have some. See the example.
func Check(m material.Material, s Service) (finding.List, error) {
	t, err := s.temperature()
	if err != nil {
		return nil, err
	}
	rows, err := limits.of(m)
	if err != nil {
		return nil, err
	}
	var list finding.List
	ages := m.Family == material.Sheet || m.Family == material.Rubber
	if most, refs := mostOf(rows, s); ages && most != 0 && t > most+mostOver {
		list = append(list, finding.Finding{
			Code: GasketMaterial, Severity: finding.Fails,
			Text: fmt.Sprintf("%s does not last at %.0f °C: %.0f °C is the most that any source gives it.",
				capital(m.Name), t.Celsius(), most.Celsius()),
			Refs: refs.With(source.Shared(&aging)),
		})
	}
	for _, l := range rows {
		list = append(list, l.findings(s, t)...)
	}
	if len(list) > 0 {
		unobjected := slices.DeleteFunc(suitedTo(s, t), func(name string) bool {
			rows, _ := limits.of(material.Material{Name: name})
			return slices.ContainsFunc(rows, func(l Limit) bool { return len(l.findings(s, t)) > 0 })
		})
		if len(unobjected) > 0 {
			list[0].Remedies = []string{"No source objects to these: " + strings.Join(unobjected, ", ") + "."}
		}
	}
	if s.Medium == Steam && list != nil && (m.Name == "paper" || m.Name == "oiled paper") {
		list = append(list, finding.Finding{
			Code: GasketMaterial, Severity: finding.Note,
			Text: "Oiled brown paper is nevertheless what small engines have always had at low pressure; whoever keeps it renews it.",
			Refs: source.Of(source.Practice()),
		})
	}
	list.Sort()
	return list, nil
}

// mostOf returns the highest temperature that a source gives a material in a
// service, by those on steam where there are any; zero where none gives one.
func mostOf(rows []Limit, s Service) (most units.Temperature, refs source.Refs) {
	inSteam := s.Medium == Steam && slices.ContainsFunc(rows, func(l Limit) bool { return l.Steam != 0 })
	for _, l := range rows {
		limit := l.Dry
		if inSteam {
			limit = l.Steam
		}
		if limit > most {
			most, refs = limit, l.Refs
		}
	}
	return most, refs
}

// suitedTo returns the materials that are for a service and of which some source says
// that they stand its heat and its pressure.
func suitedTo(s Service, t units.Temperature) []string {
	var names []string
	all := limits.all()
	for i := range all {
		name := all[i].Material
		if slices.Contains(names, name) {
			continue
		}
		rows, _ := limits.of(material.Material{Name: name})
		unfit, pressed := false, units.Pressure(0)
		for _, l := range rows {
			unfit = unfit || l.NoSteam && s.Medium == Steam || l.NoOil && (s.Oiled || s.Medium == Oil)
			pressed = max(pressed, l.Pressure)
		}
		if most, _ := mostOf(rows, s); !unfit && t <= most && (pressed == 0 || s.Pressure <= pressed) {
			names = append(names, name)
		}
	}
	return names
}

// SeatedBy returns the softest row of each material that a stress seats and of which
// some source says that it stands a service, the softest first: what may stand in for
// a gasket that its studs do not seat. The stress is the factor y that they seat, above
// zero; the service is as for [Check]. See the example.
func SeatedBy(stress units.Pressure, s Service) ([]Factor, error) {
	if err := fault.Positive(fail, "stress that seats the gasket", stress); err != nil {
		return nil, err
	}
	t, err := s.temperature()
	if err != nil {
		return nil, err
	}
	suited := suitedTo(s, t)
	var soft []Factor
	all := factors.all()
	for i := range all {
		f := all[i]
		if f.Y <= 0 || f.Y > stress || !slices.Contains(suited, f.Material) { // an O-ring is no sheet
			continue
		}
		same := func(other Factor) bool { return other.Material == f.Material }
		if at := slices.IndexFunc(soft, same); at < 0 {
			soft = append(soft, f)
		} else if f.Y < soft[at].Y {
			soft[at] = f
		}
	}
	slices.SortStableFunc(soft, func(a, b Factor) int { return cmp.Compare(a.Y, b.Y) })
	return soft, nil
}

func capital(name string) string { return strings.ToUpper(name[:1]) + name[1:] }

// temperature returns how hot the medium is.
func (s Service) temperature() (units.Temperature, error) {
	if s.Medium == 0 {
		return 0, fail.Missing("medium", "steam, air, water or oil")
	}
	if !mediumNames.Known(int(s.Medium)) {
		return 0, mediumNames.Unknown(int(s.Medium))
	}
	if err := fault.Finite(fail, "pressure", s.Pressure); err != nil {
		return 0, err
	}
	if err := fault.Finite(fail, "temperature", s.Temperature); err != nil {
		return 0, err
	}
	switch {
	case s.Pressure < 0:
		return 0, fail.OutOfRange("pressure", s.Pressure, "zero or more")
	case s.Temperature < 0:
		return 0, fail.OutOfRange("temperature", s.Temperature, "above absolute zero")
	case s.Medium != Steam && s.Temperature == 0:
		return 0, fail.Missing("temperature", "the temperature of the "+s.Medium.String())
	case s.Medium != Steam:
		return s.Temperature, nil
	}
	saturated, err := steam.AtGauge(s.Pressure)
	if err != nil {
		return 0, err
	}
	switch {
	case s.Temperature == 0:
		return saturated.Temperature, nil
	case s.Temperature < saturated.Temperature-1: // 1 K, for one that was rounded
		return 0, fail.OutOfRange("temperature of the steam", s.Temperature,
			fmt.Sprintf("that of saturated steam of the pressure, %.1f °C, or more; zero stands for it", saturated.Temperature.Celsius()))
	}
	return s.Temperature, nil
}

func (l Limit) findings(s Service, t units.Temperature) finding.List {
	var list finding.List
	add := func(severity finding.Severity, format string, args ...any) {
		list = append(list, finding.Finding{
			Code: GasketMaterial, Severity: severity, Text: fmt.Sprintf(format, args...), Refs: l.Refs,
		})
	}
	name := capital(l.Material)
	most, where := l.Dry, ""
	if s.Medium == Steam && l.Steam != 0 {
		most, where = l.Steam, " in steam"
	}
	switch {
	case s.Medium == Steam && l.NoSteam:
		add(finding.Fails, "%s is not for steam.", name)
	case most != 0 && t > most:
		limit, here := degrees(most, t)
		add(finding.Caution, "%s has a guide limit of %s °C%s; here it is %s °C.", name, limit, where, here)
	}
	if l.Pressure > 0 && s.Pressure > l.Pressure {
		add(finding.Caution, "%s has a guide limit of %.3g bar; here it is %.3g bar.", name, l.Pressure.In(units.Bar), s.Pressure.In(units.Bar))
	}
	if l.NoOil && (s.Oiled || s.Medium == Oil) {
		add(finding.Caution, "%s does not stand oil.", name)
	}
	return list
}

// degrees returns two temperatures in degrees, or in tenths where they would read alike.
func degrees(limit, here units.Temperature) (string, string) {
	for _, format := range []string{"%.0f", "%.1f"} {
		a, b := fmt.Sprintf(format, limit.Celsius()), fmt.Sprintf(format, here.Celsius())
		if a != b {
			return a, b
		}
	}
	return fmt.Sprint(limit.Celsius()), fmt.Sprint(here.Celsius())
}
