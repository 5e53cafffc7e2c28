package speeds

import (
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units/material"
)

// A Material is a metal as the tool meets it. The names are those of package
// material; the ones it does not have are states that only a tool can tell
// (iron with its skin on) and metals that books of speeds keep apart. Brass
// stands for cartridge brass too, and bronze for bearing bronze.
type Material int

// The materials. The zero value is none.
const (
	FreeCuttingSteel Material = iota + 1
	MildSteel
	MediumCarbonSteel
	AlloySteel
	SilverSteel
	ToolSteel
	CastSteel
	WroughtIron
	Stainless303
	Stainless304
	Stainless316
	Stainless416
	CastIron     // grey iron below its skin
	CastIronSkin // grey iron as it comes from the foundry
	ChilledIron
	DuctileIron
	MalleableIron
	Brass
	Gunmetal
	Bronze
	PhosphorBronze
	Copper
	Aluminium
	CastAluminium
	ZincAlloy
	NickelCopperAlloy
	Plastics
)

var materialNames = names.Set{Package: "speeds", Type: "Material", Field: "material", Texts: []string{"", "free-cutting mild steel", "mild steel", "medium carbon steel", "alloy steel", "silver steel", "tool steel",
	"cast steel", "wrought iron", "stainless steel 303", "stainless steel 304", "stainless steel 316", "stainless steel 416",
	"cast iron", "cast iron, skin on", "chilled iron", "ductile iron", "malleable iron", "brass", "gunmetal", "bronze",
	"phosphor bronze", "copper", "aluminium", "cast aluminium", "zinc alloy", "nickel-copper alloy", "plastics"}}

// otherMaterialNames returns the names that package material does not have:
// states of iron, metals of other books, and words that the trade uses for one
// thing only.
func otherMaterialNames(m Material) []string {
	switch m {
	case MildSteel:
		return []string{"steel"}
	case ToolSteel:
		return []string{"D2"}
	case Stainless303:
		return []string{"stainless 303"}
	case Stainless304: // 18-8 is what the bare word has always meant
		return []string{"stainless 304", "stainless steel"}
	case Stainless316:
		return []string{"stainless 316"}
	case Stainless416:
		return []string{"stainless 416"}
	case CastIron:
		return []string{"iron"}
	case CastIronSkin:
		return []string{"grey iron, skin on", "cast iron with skin", "iron casting"}
	case ChilledIron:
		return []string{"hard cast iron", "chilled cast iron"}
	case Brass:
		return []string{"cartridge brass"}
	case Bronze:
		return []string{"bearing bronze", "tin bronze"}
	case Aluminium:
		return []string{"aluminium 2014"}
	case FreeCuttingSteel:
		return []string{"free-cutting steel"}
	case ZincAlloy:
		return []string{"zinc die casting"}
	case Plastics:
		return []string{"plastic", "PTFE"}
	}
	return nil
}

// Materials returns all of them, in order.
func Materials() []Material { return sequence[Material](len(materialNames.Texts)) }

// String returns the trade name: "cast iron".
func (m Material) String() string { return materialNames.Text(int(m)) }

// ParseMaterial returns the material of that trade name, grade or other usual
// name, in any case, as package material has them: "EN8" is medium carbon steel,
// "grey iron" is cast iron. An unknown one is an error that lists the known ones.
func ParseMaterial(s string) (Material, error) {
	byName := materialsByName.Get(indexMaterials)
	if m, ok := byName[plain(s)]; ok {
		return m, nil
	}
	if known, err := material.Lookup(s); err == nil {
		if m, ok := byName[plain(known.Name)]; ok {
			return m, nil
		}
	}
	_, err := materialNames.Value(s) // the complaint, with the known ones
	return 0, err
}

var materialsByName table.Once[map[string]Material]

func indexMaterials() map[string]Material {
	names := map[string]Material{}
	for _, m := range Materials() {
		names[plain(m.String())] = m
		for _, other := range otherMaterialNames(m) {
			names[plain(other)] = m
		}
	}
	return names
}

// MarshalText implements [encoding.TextMarshaler].
func (m Material) MarshalText() ([]byte, error) {
	return materialNames.Marshal(int(m))
}

// UnmarshalText implements [encoding.TextUnmarshaler].
func (m *Material) UnmarshalText(text []byte) error {
	v, err := ParseMaterial(string(text))
	if err == nil {
		*m = v
	}
	return err
}
