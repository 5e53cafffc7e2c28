package pages

import (
	"fmt"

	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/eccentric/marking"
	"github.com/valvechest/valvechest/eccentric/marking/casting"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/speeds"
	"github.com/valvechest/valvechest/speeds/holding"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// Flywheel is the page of the engine book on turning the flywheel: its two settings with
// what the dial reads in each, what its seat lets it run out, and its balance.
func Flywheel(e *engine.Engine) (*Page, error) {
	sizes, known := e.FlywheelSizes()
	if !known {
		return nil, nil
	}
	if err := sizes.Validate(); err != nil {
		return nil, placed(e, err, runningKeys)
	}
	w := wheelSet{e: e, sizes: sizes, seat: sizes.BossWidth}
	if w.seat.IsZero() {
		w.seat = sizes.RimWidth
	}
	section := book.Section{Key: "making_flywheel", Title: "TURNING THE FLYWHEEL"}
	for _, part := range []func() (book.Item, error){w.settings, w.onShaft, w.balance} {
		item, err := part()
		if err != nil {
			return nil, err
		}
		if len(item.Values) > 0 {
			section.Items = append(section.Items, item)
		}
	}
	p := &Page{Sections: []book.Section{section}}
	p.Precautions = addPrecautions(nil, marking.Precautions())
	p.Precautions = addPrecautions(p.Precautions, holding.Work{}.Precautions())
	p.Precautions = addPrecautions(p.Precautions, speeds.Turning.Precautions())
	return p, nil
}

// A wheelSet is the flywheel of an engine in the making.
type wheelSet struct {
	e     *engine.Engine
	sizes indicator.Flywheel
	seat  units.Length // how long its bore is
}

// What is wanted of the second face, and by how much an inside is taken to lie off: figures
// of our own, to show what they do.
var (
	facesParallel = units.MM(0.05)
	insideOff     = units.MM(0.1)
)

const balanceGrade units.Speed = 0.0063 // m/s; G 6.3

// settings are both settings, in the order of the work.
func (w *wheelSet) settings() (book.Item, error) {
	edges, err := casting.EdgesAgree(w.sizes.Diameter, w.sizes.RimWidth, facesParallel)
	if err != nil {
		return book.Item{}, placed(w.e, err, runningKeys)
	}
	taper := casting.MandrelTaperFor()
	item := book.Item{Key: "settings", Title: "Two settings, in this order:", Values: []book.Value{
		{Key: "rim", Label: "rim, finished", What: book.Length(w.sizes.Diameter, 2)},
		{Key: "parallel", Label: "second face parallel within", What: book.LengthThou(facesParallel, 2, 1), Remark: "a figure of our own"},
		{Key: "edges", Label: "  the dial at both edges", What: book.LengthThou(edges, 3, 1), Remark: "may differ by so much, at one place"},
	}}
	for _, m := range []struct {
		key, label string
		taper      float64
	}{{"mandrel_least", "face, on a mandrel of 0.006 in/ft", taper.Min}, {"mandrel_most", "face, on one of 0.010 in/ft", taper.Max}} {
		out, err := casting.Seat{Taper: m.taper, Length: w.seat}.RunOut(w.sizes.Diameter)
		if err != nil {
			return book.Item{}, placed(w.e, err, map[string]string{"length of the bore": "flywheel.boss_width"})
		}
		item.Values = append(item.Values, book.Value{Key: m.key, Label: m.label, What: book.LengthThou(out.Face, 3, 1),
			Remark: "goes over at most", Refs: taper.Refs})
	}
	if item.Figures, err = pictures(flywheelPicture(w.sizes, w.e.Inches())); err != nil {
		return book.Item{}, err
	}
	item.Notes = []book.Note{
		{Text: "1. Hold the casting by the boss, or by the inside of the rim, rough as it is. Read a dial at six places or more round the rim" +
			" and round its face, and let examples/chuck -rim -inside -face say the moves and the shims under the spokes. An inside that" +
			" stays rough decides, so that the rim comes even in thickness. Shims first, then the rim.", Refs: source.Of(jonesOnRims())},
		{Text: "2. Without letting go of it, turn the rim to size, face the front of the rim and of the boss, and bore and ream the hole. What" +
			" is cut in one setting is true to itself: the dial on rim, face and bore then stands still. Write down what it shows.", Refs: practice()},
		{Text: "3. Turn it round, on a mandrel between centres, or by the turned rim in soft jaws with the faced side hard against them. The" +
			" second setting must repeat the first: the dial still on the bore, still on the rim, and at both edges of the rim the same, within" +
			" what is said above. A dial that moves on the rim alike at both edges is off centre; one that moves otherwise at the one edge is" +
			" tilted, and the second face comes out of parallel by so much.", Refs: practice()},
		{Text: "4. Face the back of the rim and of the boss to the widths, and nothing else: the rim and the bore are finished. On a taper" +
			" mandrel cut towards the thick end, so that the cut drives the wheel on.", Refs: practice()},
	}
	return item, nil
}

// onShaft is what the seat on the shaft lets it run out.
func (w *wheelSet) onShaft() (book.Item, error) {
	i, ok := w.e.FlywheelFit()
	if !ok || w.e.ValidateFit(i) != nil {
		return book.Item{}, nil // the page of the fits tells why
	}
	j, err := jointOf(w.e.File.Fits[i])
	if err != nil || j.limits.Clearance.Max.Sign() <= 0 {
		return book.Item{}, nil
	}
	out, err := casting.Seat{Clearance: j.limits.Clearance.Max, Length: w.seat}.RunOut(w.sizes.Diameter)
	if err != nil {
		return book.Item{}, placed(w.e, err, map[string]string{
			"length of the bore": "flywheel.boss_width", "clearance": fmt.Sprintf("fits[%d].nominal", i)})
	}
	return book.Item{
		Key: "on_shaft", Title: "On its shaft, true as it was turned:",
		Values: []book.Value{
			{Key: "clearance", Label: "clearance, at most", What: book.LengthThou(j.limits.Clearance.Max, 3, 1), Remark: j.name},
			{Key: "offset", Label: "the grub screw draws it over by", What: book.LengthThou(out.Offset, 3, 1), Remark: "to the side of the screw"},
			{Key: "rim", Label: "  a dial on the rim goes over", What: book.LengthThou(out.Rim, 3, 1), Refs: out.Refs},
			{Key: "face", Label: "slanting, a dial on the face", What: book.LengthThou(out.Face, 3, 1),
				Remark: fmt.Sprintf("at most, with %s of bore", w.seat)},
		},
		Notes: []book.Note{{Text: "The rim stands out on the side of the screw. If it shows, take the clearance away (a closer bore, or the bond of" +
			" examples/bond), or use two screws a quarter turn apart, which hold better but draw it over all the same.", Refs: practice()}},
	}, nil
}

// balance is what an inside that lies off does to the balance, and how it is put right.
func (w *wheelSet) balance() (book.Item, error) {
	inside := w.sizes.Diameter.Sub(w.sizes.RimDepth.Scale(2))
	if inside.Cmp(insideOff.Scale(2)) <= 0 || inside.Cmp(w.sizes.Bore) <= 0 {
		return book.Item{}, nil // a disc has no inside but its bore
	}
	hollow, err := casting.HollowOff(w.sizes.Metal, inside, w.sizes.RimWidth, insideOff, 0)
	if err != nil {
		return book.Item{}, placed(w.e, err, runningKeys)
	}
	radius := w.sizes.Diameter.Sub(w.sizes.RimDepth).Scale(0.5)
	weight, err := casting.Balance(radius, hollow)
	if err != nil {
		return book.Item{}, placed(w.e, err, runningKeys)
	}
	item := book.Item{Key: "balance", Title: "Balance, for an inside of the rim that lies 0.1 mm off:", Values: []book.Value{
		{Key: "inside_off", What: book.Length(insideOff, 2)},
		{Key: "drilled", Label: "drilled from the thick side", What: book.Number(weight.Mass.In(units.Gram), 2, "g", "g"),
			Remark: "out of the middle of the rim, at " + radius.String()},
	}}
	if n := w.e.File.Running.Speed; n != nil && *n > 0 {
		wheel, err := w.sizes.Wheel()
		if err != nil {
			return book.Item{}, placed(w.e, err, runningKeys)
		}
		work, err := hollow.Of(wheel.Mass)
		if err != nil {
			return book.Item{}, err
		}
		force, err := work.Force(*n)
		if err != nil {
			return book.Item{}, err
		}
		allowed, err := casting.BalanceGrade(balanceGrade, *n)
		if err != nil {
			return book.Item{}, w.e.Errorf("running.speed", "%v", err)
		}
		item.Values = append(item.Values,
			book.Value{Key: "force", Label: "force that goes round with it", What: book.Number(float64(force), 2, "N", "n"),
				Remark: fmt.Sprintf("at %.0f rev/min", n.In(units.RevPerMinute))},
			book.Value{Key: "off", Label: "middle of the mass then off", What: book.LengthThou(work.Offset, 3, 1)},
			book.Value{Key: "allowed", Label: "  grade G 6.3 lets it be off", What: book.LengthThou(allowed, 3, 1), Refs: source.Of(gradeRef())})
	}
	item.Notes = []book.Note{{Text: "Let the wheel roll on its shaft on two level edges: the thick side comes to rest below. Drill shallow holes there, in" +
		" the face of the rim, never through it nor at a spoke, until it stands anywhere.", Refs: practice()}}
	return item, nil
}

func gradeRef() source.Ref {
	return source.Ref{Kind: source.Published, Title: "ISO 1940-1, balance quality of rigid rotors, as quoted in catalogues of tools",
		Locator: "balancing page, worked example", Note: "e = G/w; G 6.3 for flywheels is from memory"}
}
