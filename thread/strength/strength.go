package strength

import (
	"embed"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/thread"
)

const fail = fault.Package("strength")

//go:embed tables/*.csv
var files embed.FS

// halfAngle is half the angle of thread in radians.
func halfAngle(t thread.Thread) float64 { return t.Form().Angle().Radians() / 2 }
