package speeds

import (
	"slices"
	"strings"
)

// A Material is a metal as the tool meets it. The names are those of package
// material; the ones it does not have are states that only a tool can tell
// (iron with its skin on) and metals that books of speeds keep apart.
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

var materialNames = []string{"", "free-cutting mild steel", "mild steel", "medium carbon steel", "alloy steel", "silver steel", "tool steel",
	"cast steel", "wrought iron", "stainless steel 303", "stainless steel 304", "stainless steel 316", "stainless steel 416",
	"cast iron", "cast iron, skin on", "chilled iron", "ductile iron", "malleable iron", "brass", "gunmetal", "bronze",
	"phosphor bronze", "copper", "aluminium", "cast aluminium", "zinc alloy", "nickel-copper alloy", "plastics"}

// otherMaterialNames returns the further names that ParseMaterial takes. An
// engine's cast iron is grey iron, its annealed tool steels are near silver
// steel, and 18-8 stainless steel is what "stainless steel" alone has always
// meant.
func otherMaterialNames(m Material) []string {
	switch m {
	case FreeCuttingSteel:
		return []string{"free-cutting steel", "leaded mild steel", "EN1A", "230M07", "12L14", "1213"}
	case MildSteel:
		return []string{"bright mild steel", "low carbon steel", "steel", "EN3", "EN3B", "070M20", "1018", "1020"}
	case MediumCarbonSteel:
		return []string{"EN8", "080M40", "1040", "1045"}
	case AlloySteel:
		return []string{"EN19", "EN24", "4140", "4340"}
	case SilverSteel:
		return []string{"drill rod", "W1"}
	case ToolSteel:
		return []string{"gauge plate", "O1", "D2"}
	case Stainless303:
		return []string{"stainless 303", "303"}
	case Stainless304:
		return []string{"stainless 304", "304", "stainless steel"}
	case Stainless316:
		return []string{"stainless 316", "316"}
	case Stainless416:
		return []string{"stainless 416", "416"}
	case CastIron:
		return []string{"grey iron", "gray iron", "grey cast iron", "gray cast iron", "iron"}
	case CastIronSkin:
		return []string{"grey iron, skin on", "cast iron with skin", "iron casting", "cast iron casting"}
	case ChilledIron:
		return []string{"hard cast iron", "chilled cast iron"}
	case DuctileIron:
		return []string{"SG iron", "nodular iron", "spheroidal graphite iron"}
	case MalleableIron:
		return []string{"malleable cast iron"}
	case Brass:
		return []string{"free-cutting brass", "CZ121", "C36000", "cartridge brass"}
	case Gunmetal:
		return []string{"LG2", "leaded gunmetal"}
	case Bronze:
		return []string{"bearing bronze", "SAE 660", "tin bronze"}
	case PhosphorBronze:
		return []string{"PB102"}
	case Copper:
		return []string{"C101"}
	case Aluminium:
		return []string{"aluminum", "aluminium alloy", "aluminum alloy", "6082", "6061", "HE30", "aluminium 2014", "2014", "duralumin"}
	case CastAluminium:
		return []string{"cast aluminum", "aluminium casting alloy", "LM25"}
	case ZincAlloy:
		return []string{"zinc die casting"}
	case Plastics:
		return []string{"plastic", "PTFE"}
	}
	return nil
}

// Materials returns all of them, in order.
func Materials() []Material { return sequence[Material](len(materialNames)) }

// String returns the trade name: "cast iron".
func (m Material) String() string { return nameOf(materialNames, int(m), "Material") }

// ParseMaterial returns the material of that trade name, grade or other usual
// name, in any case: "EN8" is medium carbon steel, "grey iron" is cast iron. An
// unknown one is an error that lists the known ones.
func ParseMaterial(s string) (Material, error) {
	for _, m := range Materials() {
		if slices.ContainsFunc(otherMaterialNames(m), func(name string) bool { return plain(name) == plain(s) }) {
			return m, nil
		}
	}
	i, err := parseName(materialNames, "material", strings.TrimSpace(s))
	return Material(i), err
}

// MarshalText implements [encoding.TextMarshaler].
func (m Material) MarshalText() ([]byte, error) {
	return marshalName(materialNames, int(m), "material")
}

// UnmarshalText implements [encoding.TextUnmarshaler].
func (m *Material) UnmarshalText(text []byte) error {
	v, err := ParseMaterial(string(text))
	if err == nil {
		*m = v
	}
	return err
}
