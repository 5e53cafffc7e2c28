package seal

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
	"github.com/valvechest/valvechest/units/steam"
)

// A Limit is what one source says that a gasket material stands in long service.
// Two sources on one material are two limits.
type Limit struct {
	Material string
	Dry      units.Temperature // upper guide value; zero: not said
	Steam    units.Temperature // upper value in steam; zero: not said
	NoSteam  bool              // not for steam
	NoOil    bool              // not with oil
	Pressure units.Pressure    // above that outside; zero: not said
	Note     string
	Ref      source.Ref
}

var limits = table.Table[Limit]{FS: &files, Name: "tables/limits.csv", Row: func(r *table.Row) Limit {
	l := Limit{Material: r.Text("material"), Note: r.Optional("note"), Ref: r.Ref()}
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
	return l
}}

// Limits returns the limits of all materials, by material.
func Limits() []Limit { return slices.Clone(limits.Rows()) }

// A Medium is what a gasket keeps in.
type Medium int

// The media.
const (
	Steam Medium = iota
	Air
	Water
	Oil
)

var mediumNames = names.Set{Package: "seal", Type: "Medium", Field: "medium", Texts: []string{"steam", "air", "water", "oil"}}

// String returns "steam", "air", "water" or "oil".
func (m Medium) String() string { return mediumNames.Text(int(m)) }

// ParseMedium returns the medium of that name, in capitals or not; see
// [Medium.String]. Another text is an [*units.ArgumentError] that lists the
// accepted ones.
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
	Temperature units.Temperature // zero, for steam only: that of saturated steam of the pressure; steam is no colder
	Oiled       bool              // steam oil reaches it
}

// Check compares a material with a service and returns what is worth saying, by
// every source that knows the material; nothing means that none of them objects.
// The limits are guide values for long service: paper under saturated steam of a
// few bar is above its limit, and oiled paper is what engines have always had, so
// that a finding is a warning and no ban. An unknown material is an error that
// lists the known ones; asbestos is refused.
func Check(material string, s Service) (finding.List, error) {
	if strings.Contains(strings.ToLower(material), "asbestos") && !strings.Contains(strings.ToLower(material), "without asbestos") {
		return nil, &units.ArgumentError{Package: "seal", Field: "material", Value: strconv.Quote(material), Problem: "never use it: its dust kills", Accepted: knownMaterials(), Err: units.ErrUnknown}
	}
	if !(s.Pressure >= 0) || math.IsInf(float64(s.Pressure), 0) {
		return nil, bad("pressure", s.Pressure.String(), "zero or more")
	}
	if _, err := s.Medium.MarshalText(); err != nil { // which knows the media there are
		return nil, err
	}
	t := s.Temperature
	if s.Medium == Steam {
		at, err := steam.AtGauge(s.Pressure)
		if err != nil {
			return nil, err
		}
		saturated := at.Temperature
		switch {
		case t == 0:
			t = saturated
		case t < saturated-1: // 1 K, for one that was rounded
			return nil, bad("temperature of the steam", t.String(), fmt.Sprintf("that of saturated steam of the pressure, %.1f °C, or more; zero stands for it", saturated.Celsius()))
		}
	} else if t == 0 {
		return nil, &units.ArgumentError{Package: "seal", Field: "temperature", Accepted: "the temperature of the " + s.Medium.String(), Err: units.ErrMissing}
	}
	if !finite(float64(t)) || t <= 0 {
		return nil, bad("temperature", t.String(), "above absolute zero")
	}
	var fs finding.List
	known := false
	for _, l := range limits.Rows() {
		if l.Material == material {
			known = true
			fs = append(fs, l.findings(s, t)...)
		}
	}
	if !known {
		return nil, &units.ArgumentError{Package: "seal", Field: "material", Value: strconv.Quote(material), Accepted: knownMaterials(), Err: units.ErrUnknown}
	}
	if material == "paper" && s.Medium == Steam && len(fs) > 0 {
		fs = append(fs, finding.Finding{
			Severity: finding.Note,
			Text:     "Oiled brown paper is nevertheless what small engines have always had; expect to renew it.",
			Remedies: []string{"Jointing without asbestos or graphite sheet stays within its limits."},
			Refs:     source.Of(source.Practice()),
		})
	}
	return fs, nil
}

func (l Limit) findings(s Service, t units.Temperature) finding.List {
	var fs finding.List
	add := func(format string, args ...any) {
		ref := l.Ref // with what the source says beside the figure
		if ref.Note != "" && l.Note != "" {
			ref.Note += "; "
		}
		ref.Note += l.Note
		fs = append(fs, finding.Finding{Severity: finding.Fails, Text: fmt.Sprintf(format, args...), Refs: source.Of(ref)})
	}
	name := strings.ToUpper(l.Material[:1]) + l.Material[1:]
	most, where := l.Dry, ""
	if s.Medium == Steam && l.Steam != 0 {
		most, where = l.Steam, " in steam"
	}
	switch {
	case s.Medium == Steam && l.NoSteam:
		add("%s is not for steam.", name)
	case most != 0 && t > most:
		add("%s has a guide limit of %.0f °C%s; here it is %.0f °C.", name, most.Celsius(), where, t.Celsius())
	}
	if l.Pressure > 0 && s.Pressure > l.Pressure {
		add("%s has a guide limit of %.3g bar; here it is %.3g bar.", name, l.Pressure/units.Bar, s.Pressure/units.Bar)
	}
	if l.NoOil && (s.Oiled || s.Medium == Oil) {
		add("%s does not stand oil.", name)
	}
	return fs
}

func knownMaterials() string {
	var names []string
	for _, l := range limits.Rows() {
		if !slices.Contains(names, l.Material) {
			names = append(names, l.Material)
		}
	}
	return strings.Join(names, ", ")
}

// AsbestosCaution is what to say wherever an old joint is taken apart.
func AsbestosCaution() string {
	return "Old sheet gaskets, rope and packing may hold asbestos, up to 80 percent of it. Treat grey or white material of unknown age as asbestos until a laboratory has said otherwise: keep it damp, lift it with hand tools, no power tools and no wire wheel, bag it, and follow the rules of your country for its disposal."
}
