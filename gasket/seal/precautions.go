package seal

import (
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// Precautions returns what to mind wherever an old joint or gland is taken apart:
// common practice.
func Precautions() []finding.Precaution {
	return []finding.Precaution{{
		Code: OldAsbestos, Ref: source.Practice(),
		Text: "Old sheet gaskets, rope and packing may hold asbestos, up to 80 percent of it. Treat grey or white " +
			"material of unknown age as asbestos until a laboratory has said otherwise: keep it damp, lift it " +
			"with hand tools, no power tools and no wire wheel, bag it, and follow the rules of your country " +
			"for its disposal.",
	}}
}
