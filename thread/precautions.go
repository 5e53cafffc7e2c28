package thread

import (
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// TappingPrecautions returns what to mind in tapping by hand: some of it holds
// for every tap, some for small ones and for blind holes.
func (t Thread) TappingPrecautions(blind bool) []finding.Precaution {
	practice := func(code finding.Code, text string) finding.Precaution {
		return finding.Precaution{Code: code, Text: text, Ref: source.Practice()}
	}
	list := []finding.Precaution{
		practice("tap-square", "Start the tap square, with a guide or in the drill spindle turned by hand, the motor isolated."+
			" Wear eye protection: a broken tap is brittle."),
		practice("tap-chips", "Turn back to break the chip, and clear the flutes."+
			" Use cutting oil for steel, paraffin oil for aluminium, and tap cast iron dry."),
	}
	if t.major.Cmp(units.MM(3)) <= 0 {
		list = append(list, practice("small-tap", "A tap of 3 mm and below breaks at less than a hand can feel:"+
			" take a small wrench held by its middle, a sharp tap, and the larger drill if in doubt."))
	}
	if t.series.Pipe() {
		list = append(list, practice("pipe-joint", "A screwed joint that gives way under steam scalds. Prove it with cold water"+
			" before steam, to the pressure and by the person that the code for boilers and fittings where you live asks for."))
	}
	if blind {
		list = append(list, practice("blind-tap", "Mark the depth on the tap, and stop before it stands on the bottom."+
			" Take it out and clear the hole."))
	}
	return list
}
