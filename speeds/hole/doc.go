// Package hole says which drill goes before a reamer, at what size a drilled
// hole comes out, how to grind the drill, which drill of the drawer will do, and
// where to drill a chain of holes along a slot.
//
//	holes, err := hole.ReamingFor(units.MM(6), gunmetal)
//	drills, err := holes[0].Drills(drawer)
//	drill, err := hole.ReamingDrillFor(units.MM(6), gunmetal, drawer)
//
// Cutting speeds, feeds, deep holes and pecks are in package speeds, holes to
// tap in package thread. What is out of range and a material that is not known
// are a [*units.ArgumentError]; a drawer without the drill is a finding. Sources
// and checks: testdata/speeds/hole/README.md.
package hole
