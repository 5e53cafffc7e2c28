// Package screwcut sets up a lathe for cutting a thread: the change wheels, where
// to close the half nuts, how deep the tool goes and how far the topslide travels
// for it.
//
// A [Lathe] finds the trains for a [Lead] with [Lathe.Trains], each with its
// error, and the wheel to buy with [Lathe.WheelsToBuy]; [PickUpOnDial] reads the
// thread dial, [ToolTip.DepthFor] allows for the point of the tool, of which
// [GroundTips] are the usual,
// [InfeedAlongSlide] for the set of the topslide, and [PitchErrorOnDiameter] puts a
// near train beside the tolerance of the thread.
//
// Thread milling, chasers and trains of more than four wheels are left out. Sources
// and checks: testdata/thread/screwcut/README.md. A bad argument is a
// [*units.ArgumentError], text that cannot be read a [*units.ParseError].
package screwcut
