package strength

import (
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// BrokenTap returns what is commonly tried, and what to beware of, to get a
// broken tap of carbon or high speed steel out of a part.
func BrokenTap(part material.Material) []finding.Precaution {
	practice := func(code finding.Code, text string) finding.Precaution {
		return finding.Precaution{Code: code, Text: text, Ref: source.Practice()}
	}
	tries := []finding.Precaution{practice("broken-tap-grip",
		"Grip what stands out, or turn it with a tap extractor in the"+
			" flutes, back and forth, with penetrating oil. Wear eye protection.")}
	switch part.Family {
	case material.Aluminium, material.Brass, material.Bronze:
		tries = append(tries,
			practice("alum-bath-gas", "An alum bath gives off gas and can spit: outdoors or under extraction, with gloves and"+
				" goggles, no naked flame, and never in a kitchen pot that is used again."),
			practice("alum-bath", "A hot bath of alum dissolves the steel and leaves "+part.Name+" (certain for aluminium,"+
				" reported for brass and bronze): hours to days, topped up with hot water, and the finish suffers. Take every"+
				" steel part off first."))
	default:
		tries = append(tries,
			practice("no-alum-bath", "An alum bath is for aluminium, brass and bronze only: it would dissolve a steel or iron"+
				" part with the tap."),
			practice("spark-erosion", "A firm that does spark erosion takes the tap out of any metal."))
	}
	return append(tries, practice("broken-tap-remake", "Remake the part if it holds pressure and the hole has suffered."))
}
