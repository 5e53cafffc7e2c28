package keys

import (
	"embed"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units/source"
)

const fail = fault.Package("keys")

//go:embed tables/*.csv
var files embed.FS

var (
	quarterRef = source.Ref{Kind: source.CommonPractice, Note: "a taper pin a quarter as thick as its shaft, a third at the most"}
	shorterRef = source.Ref{Kind: source.Published, Title: "Budynas and Nisbett, Shigley's Mechanical Engineering Design",
		Edition: "9th edition, 2009", Locator: "p. 390", Note: "a pin shorter than its hub is thick, as what stands out of what turns injures"}
	geometryRef = source.Ref{Kind: source.Derived, Note: "geometry"}
)
