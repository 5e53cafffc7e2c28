package material

import (
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

const fail = fault.Package("material")

// A Material is something that parts are made of. Its figures may be replaced,
// with [Given], by those of the piece in hand. The zero value has no figures.
type Material struct {
	Name       string // trade name: "mild steel"
	Family     Family
	Grade      string // what the figures are of: "AISI 1020"
	Elasticity Figure[units.Pressure]
	Poisson    Figure[float64]
	Expansion  Figure[units.Expansivity]
	Density    Figure[units.Density]
	Yield      Figure[units.Pressure] // or 0.2 % proof stress, of the weakest condition read; grey iron has none
	Tensile    Figure[units.Pressure] // of the weakest grade read; of grey iron alone, which breaks before it yields
	// Melts is where it begins to melt, the solidus of an alloy; of what melts below
	// 1000 degrees C alone.
	Melts Figure[units.Temperature]
}

// The temperatures between which expansions are used: as cold as dry ice, as hot
// as the hottest of the means that were read. Near both ends they are wrong by up
// to a tenth, as metals contract less in the cold and expand more in the heat.
const (
	ExpansionFrom units.Temperature = 193.15 // -80 degrees C
	ExpansionTo   units.Temperature = 573.15 // 300 degrees C
)

// Lookup returns the material of that trade name, grade or other name, whatever
// its case, with spaces and hyphens as one. The bare words that the trade uses
// mean what it means by them, which Name tells: "steel" is mild steel,
// "stainless steel" 304 (18-8), "iron" grey cast iron, "bronze" bearing bronze. A name
// that no material has is a [*units.ParseError] with the names it might have
// meant; asbestos is one with the reason why not.
func Lookup(name string) (Material, error) {
	all := loaded()
	i, ok := all.index[name] // as the table writes it, without work
	if !ok {
		i, ok = all.index[names.Plain(name)]
	}
	if ok {
		return all.materials[i], nil
	}
	if asbestos(names.Plain(name)) {
		return Material{}, fail.Text("material", name, "never use it: its dust kills", withoutAsbestos, units.ErrUnknown)
	}
	near, every := candidates(name)
	return Material{}, fail.UnknownName("material", name, every, near...)
}

// withoutAsbestos is what serves where old drawings ask for asbestos.
const withoutAsbestos = "jointing without asbestos, flexible graphite, PTFE, oiled paper"

// asbestos reports whether a name in normal form asks for asbestos.
func asbestos(name string) bool {
	without := strings.NewReplacer("without asbestos", "", "non asbestos", "", "no asbestos", "", "asbestos free", "")
	return strings.Contains(without.Replace(name), "asbestos")
}

// All returns every material, in families: steels, stainless steels, irons,
// brasses, bronzes, the rest.
func All() []Material { return slices.Clone(loaded().materials) }

// OtherNames returns the names and grades that [Lookup] takes for the material,
// beside its own.
func (m Material) OtherNames() []string {
	all := loaded()
	i, ok := all.index[names.Plain(m.Name)]
	if !ok {
		return nil
	}
	return slices.Clone(all.others[i])
}

// String returns the trade name.
func (m Material) String() string { return m.Name }

// MarshalText implements [encoding.TextMarshaler] with the trade name alone:
// figures that were replaced are not in it.
func (m Material) MarshalText() ([]byte, error) { return []byte(m.Name), nil }

// UnmarshalText implements [encoding.TextUnmarshaler] with [Lookup]; blank text
// is the material without figures.
func (m *Material) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*m = Material{}
		return nil
	}
	v, err := Lookup(string(text))
	if err == nil {
		*m = v
	}
	return err
}

// GobEncode implements [gob.GobEncoder] with [Material.MarshalText].
func (m Material) GobEncode() ([]byte, error) { return m.MarshalText() }

// GobDecode implements [gob.GobDecoder] with [Material.UnmarshalText].
func (m *Material) GobDecode(text []byte) error { return m.UnmarshalText(text) }

// candidates returns the names of the materials that a wrong name may have
// meant, which are those that have one of its words, and the list of all.
func candidates(name string) (near []string, every string) {
	all := loaded()
	var list []string
	words := strings.Fields(names.Plain(name))
	for i, m := range all.materials {
		list = append(list, m.Name)
		text := " " + names.Plain(strings.Join(append([]string{m.Name, m.Family.String()}, all.others[i]...), " ")) + " "
		if slices.ContainsFunc(words, func(w string) bool { return len(w) > 2 && strings.Contains(text, " "+w+" ") }) {
			near = append(near, m.Name)
		}
	}
	return near, strings.Join(list, ", ")
}

type data struct {
	materials []Material
	others    [][]string
	index     map[string]int // by normal name
}

var dataOnce table.Once[*data]

func loaded() *data { return dataOnce.Get(load) }

func load() *data {
	all := &data{index: map[string]int{}}
	for _, row := range nameRows.Rows() {
		i := len(all.materials)
		all.materials = append(all.materials, row.material)
		all.others = append(all.others, row.others)
		all.index[names.Plain(row.material.Name)] = i
		for _, other := range row.others {
			all.index[names.Plain(other)] = i
		}
	}
	kelvins := func(celsius float64) float64 { return float64(units.Celsius(celsius)) }
	for _, p := range []struct {
		rows []figureRow
		add  func(*Material, *figureRow)
	}{
		{elasticities.Rows(), func(m *Material, r *figureRow) { add(&m.Elasticity, r, units.Gigapascal) }},
		{poissons.Rows(), func(m *Material, r *figureRow) { add(&m.Poisson, r, 1) }},
		{expansions.Rows(), func(m *Material, r *figureRow) { add(&m.Expansion, r, units.MillionthPerKelvin) }},
		{densities.Rows(), func(m *Material, r *figureRow) { add(&m.Density, r, units.KilogramPerCubicMetre) }},
		{yields.Rows(), func(m *Material, r *figureRow) { add(&m.Yield, r, units.Megapascal) }},
		{tensiles.Rows(), func(m *Material, r *figureRow) { add(&m.Tensile, r, units.Megapascal) }},
		{meltings.Rows(), func(m *Material, r *figureRow) {
			add(&m.Melts, &figureRow{r.material, kelvins(r.value), kelvins(r.low), kelvins(r.high), r.ref}, 1)
		}},
	} {
		for i := range p.rows {
			r := &p.rows[i]
			p.add(&all.materials[all.index[names.Plain(r.material)]], r)
		}
	}
	return all
}

// add counts one source's row towards a figure; the first one sets its value.
func add[Q ~float64](f *Figure[Q], r *figureRow, unit Q) {
	low, high := Q(r.low)*unit, Q(r.high)*unit
	if !f.Known() {
		f.Value, f.Min, f.Max = Q(r.value)*unit, low, high
	}
	f.Min, f.Max = min(f.Min, low), max(f.Max, high)
	f.Refs = f.Refs.With(source.Shared(&r.ref))
}
