package pages

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/gasket"
	bolting "github.com/valvechest/valvechest/gasket/joint"
	"github.com/valvechest/valvechest/gasket/seal"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/thread"
	"github.com/valvechest/valvechest/thread/strength"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A boltedJoint is a full-face gasket with its studs, and the pressure that it holds.
type boltedJoint struct {
	outline  gasket.Outline
	thread   thread.Thread
	class    string         // of the studs; or
	proof    units.Pressure // their proof strength
	preload  float64        // share of that to tighten to
	pressure units.Pressure
	material *material.Material // of the gasket; nil: not known
	sheet    *units.Length      // its thickness; nil: not known
	tapped   []bolting.Tapped   // what the studs are screwed into, as far as known
	in       ruler
}

// A solvedJoint is a joint worked out.
type solvedJoint struct {
	boltedJoint
	measures gasket.Measures
	webs     []gasket.Web // the narrowest first
	area     strength.StressArea
	strong   source.Refs // where the proof strength is from
	load     bolting.StudLoad
	torque   strength.Tightened
	order    []string
	seats    []seal.Factor
	pressing bolting.Pressing
	pull     units.Force     // at the spanner, for the torque
	into     *bolting.Tapped // the weakest of what the studs are screwed into; nil: not known
	grip     bolting.Grip
	spacing  bolting.Spacing
	findings finding.List
}

// solve works a joint out. It complains of each part that cannot be used: the
// outline, thread, class, preload, pressure, material or sheet.
func (j boltedJoint) solve(complain func(part string, err error)) solvedJoint {
	s := solvedJoint{boltedJoint: j, area: strength.StressAreaOf(j.thread)}
	sound := true
	check := func(part string, err error) bool {
		if err != nil {
			sound = false
			complain(part, err)
		}
		return err == nil
	}
	if j.class != "" {
		bolt, err := strength.BoltFor(j.thread, j.class)
		check("class", err)
		s.proof, s.strong = bolt.Proof, bolt.Refs
	}
	var cut, held finding.List
	var err error
	if j.material != nil {
		held, err = seal.Check(*j.material, j.service())
		check(ofService(err), err)
	}
	if s.measures, err = j.outline.Measure(); check("outline", err) {
		s.webs, err = j.outline.Webs()
		check("outline", err)
		if j.sheet != nil {
			cut, err = j.outline.Check(*j.sheet)
			check("sheet", err)
		}
	}
	total, err := bolting.EndForce(j.pressure, s.measures.Enclosed)
	if s.measures.Enclosed > 0 {
		check("pressure", err)
	}
	if !sound {
		return s
	}
	studs := bolting.Studs{
		Number: len(j.outline.Holes), Diameter: j.thread.Major(), StressArea: s.area.Area,
		Proof: s.proof, Preload: j.preload,
	}
	if s.load, err = studs.Load(total); !check("preload", err) {
		return s
	}
	tighten := strength.Tightening{Diameter: j.thread.Major(), Factor: strength.DryThreads(), Pull: s.load.Preload}
	s.torque, err = tighten.Solve()
	check("thread", err)
	order, err := bolting.Order(j.outline.Holes)
	check("outline", err)
	for _, number := range order {
		s.order = append(s.order, j.outline.Holes[number-1].Name)
	}
	check("tapped", s.hold())
	s.spacing, err = bolting.SpacingOf(j.outline.Holes, j.thread.Major())
	check("thread", err)
	seating, err := s.seating()
	check("material", err)
	s.pressing, err = s.load.Press(s.measures.Area, seating)
	check("pressure", err)
	s.pull, err = bolting.SpannerPull(s.torque.Torque, s.spanner())
	check("thread", err)
	s.findings = slices.Concat(cut, s.load.Findings, s.grip.Findings, held, s.pressing.Findings, s.spacing.Findings)
	return s
}

// hold finds which of what the studs are screwed into holds them least. A metal whose
// strength no source gives is left out.
func (s *solvedJoint) hold() error {
	for _, t := range s.tapped {
		if !t.Material.Yield.Known() && !t.Material.Tensile.Known() {
			continue
		}
		t.Most = s.torque.PullMax
		g, err := s.load.Grip(t)
		if err != nil {
			return err
		}
		if s.into == nil || g.Strips < s.grip.Strips {
			s.into, s.grip = &t, g
		}
	}
	return nil
}

// seating finds what seats the gasket and keeps it tight, by all sources that know
// it, and what these studs would seat in its place.
func (s *solvedJoint) seating() (bolting.Seating, error) {
	var all bolting.Seating
	if s.material == nil {
		return all, nil
	}
	factors, err := seal.FactorsFor(*s.material)
	if err != nil { // of cork, for one, there are none
		return all, nil
	}
	for _, f := range factors {
		if f.Y <= 0 { // seats by itself
			continue
		}
		hold := units.Pressure(f.M) * s.pressure
		if len(s.seats) == 0 || f.Y < all.Min {
			all.Min = f.Y
		}
		if len(s.seats) == 0 || hold < all.Hold {
			all.Hold = hold
		}
		all.Max = max(all.Max, f.Y)
		all.Refs = all.Refs.With(f.Refs)
		s.seats = append(s.seats, f)
	}
	p, err := s.load.Press(s.measures.Area, bolting.Seating{})
	if err != nil {
		return all, err
	}
	softer, err := seal.SeatedBy(p.Seats, s.service())
	for _, f := range softer {
		all.Softer = append(all.Softer, f.Material)
	}
	return all, err
}

// ofService is the part of a joint that an error about its service is about.
func ofService(err error) string {
	var argument *units.ArgumentError
	if errors.As(err, &argument) && strings.HasPrefix(argument.Field, "pressure") {
		return "pressure"
	}
	return "material"
}

// service is what the gasket has to stand: saturated steam with the oil of the
// lubricator in it.
func (j boltedJoint) service() seal.Service {
	return seal.Service{Medium: seal.Steam, Pressure: max(j.pressure, 0), Oiled: true}
}

// spanner is where the hand pulls at a spanner for small nuts, as an example.
func (j boltedJoint) spanner() units.Length {
	if j.in.inch {
		return units.Inch(2)
	}
	return units.MM(50)
}

func bar(p units.Pressure) string { return fmt.Sprintf("%.3g bar", p.In(units.Bar)) }

func force(f units.Force) book.Quantity {
	return book.Number(f.In(units.Newton), 0, "N", "n").And(book.Number(f.In(units.PoundForce), 1, "lbf", ""))
}

func stress(p units.Pressure) book.Quantity {
	return book.Number(p.In(units.Megapascal), 1, "MPa", "mpa").And(book.Number(p.In(units.PSI), 0, "psi", ""))
}

func areaOf(a units.Area) book.Quantity {
	return book.Number(a.In(units.SquareMillimetre), 0, "mm2", "mm2").And(book.Number(a.In(units.SquareInch), 3, "in2", ""))
}

// item says what to do at the joint, then what it carries and the working.
func (s *solvedJoint) item(title string) book.Item {
	item := book.Item{
		Title:    title,
		Values:   append(s.doing(), s.carrying()...),
		Formulas: s.working(),
		Tables:   []book.Table{s.rules()},
	}
	if len(s.seats) > 0 {
		item.Tables = append(item.Tables, s.seated())
	}
	if s.preload == bolting.InCasting {
		item.Notes = []book.Note{{
			Text: fmt.Sprintf("The preload is %g of the proof strength: a thread tapped in a casting strips before the stud"+
				" breaks.", s.preload),
			Refs: source.Of(source.Practice()),
		}}
	}
	if s.into == nil {
		text := "Whether the tapped thread holds the studs was not worked out: what they are screwed into is not known here."
		if len(s.tapped) > 0 {
			text = fmt.Sprintf("Whether the tapped thread holds the studs was not worked out: we have no figure of the strength of %s.", s.tapped[0].Material.Name)
		}
		item.Notes = append(item.Notes, book.Note{Text: text})
	}
	least := units.Force(s.load.Number) * s.torque.PullMin
	if len(s.seats) > 0 && s.pressing.Seated && least < s.pressing.Needed {
		item.Notes = append(item.Notes, noted(s.torque.Refs, func(r ruler) string {
			return fmt.Sprintf("By torque alone all studs may come to no more than %s, which does not seat the gasket: go round until"+
				" it gives no more, and prove the joint with cold water.", r.force(least, 0))
		}))
	}
	return item
}

// working is how the load of the studs and their torque are worked out.
func (s *solvedJoint) working() []book.Formula {
	times, studs := "", "as given"
	if margin, loaded := s.load.Margin(); loaded {
		times = fmt.Sprintf(", %.1f times the load", margin)
	}
	if s.class != "" {
		studs = "of class " + s.class
	}
	formulas := []book.Formula{
		worked(source.Refs{}, func(r ruler) string {
			return fmt.Sprintf("F = p A = %s x %s = %s, reckoned to the edge of the gasket",
				r.pressure(s.pressure), r.area(s.measures.Enclosed, 0), r.force(s.load.Total, 0))
		}),
		worked(s.area.Refs, func(r ruler) string {
			return fmt.Sprintf("each stud F / n = %s / %d = %s, %s in %s of %v", r.force(s.load.Total, 0), s.load.Number,
				r.force(s.load.Working, 1), r.stress(s.load.Stress), r.area(s.area.Area, 2), s.thread)
		}),
		worked(s.strong.With(s.load.Refs), func(r ruler) string {
			return fmt.Sprintf("preload = %g x %s x %s = %s%s; proof strength %s",
				s.preload, r.stress(s.proof), r.area(s.area.Area, 2), r.force(s.load.Preload, 0), times, studs)
		}),
		worked(s.torque.Refs, func(r ruler) string {
			return fmt.Sprintf("torque T = K F d = %.2g x %s x %s = %s, K of %s", s.torque.Factor.K, r.force(s.load.Preload, 0),
				r.text(s.thread.Major(), 3), r.torque(s.torque.Torque), s.torque.Factor.Condition)
		}),
		worked(source.Refs{}, func(r ruler) string {
			return fmt.Sprintf("at the spanner T / l = %s / %s = %s", r.torque(s.torque.Torque), r.exact(s.spanner()), r.force(s.pull, 1))
		}),
	}
	if s.into != nil {
		formulas = append(formulas, worked(s.grip.Refs, func(r ruler) string {
			return fmt.Sprintf("the thread in %s of %s or more, %s engaged, strips at %s; a stud comes to no more than %s + %s = %s",
				s.into.Material.Name, r.stress(s.grip.Strength), r.text(s.grip.Engaged, 2), r.force(s.grip.Strips, 0),
				r.force(s.grip.Pull-s.load.Working, 0), r.force(s.load.Working, 0), r.force(s.grip.Pull, 0))
		}))
	}
	if len(s.seats) == 0 {
		return formulas
	}
	softest := slices.MinFunc(s.seats, func(a, b seal.Factor) int { return cmp.Compare(a.Y, b.Y) })
	return append(formulas, worked(softest.Refs, func(r ruler) string {
		return fmt.Sprintf("to seat it y A / 2 = %s x %s / 2 = %s; the studs give %d x %s = %s", r.stress(softest.Y),
			r.area(s.measures.Area, 0), r.force(s.pressing.Needed, 0), s.load.Number, r.force(s.load.Preload, 0),
			r.force(units.Force(s.load.Number)*s.load.Preload, 0))
	}))
}

// doing is what a person does at the joint.
func (s *solvedJoint) doing() []book.Value {
	pull := book.Range(force(s.torque.PullMin), force(s.torque.PullMax))
	torque := book.Number(s.torque.Torque.In(units.NewtonMetre), 2, "N m", "nm").
		And(book.Number(s.torque.Torque.In(units.PoundForceInch), 1, "lbf in", ""))
	margin := book.Never(book.Count(0), "no load")
	if times, loaded := s.load.Margin(); loaded {
		margin = book.Number(times, 1, "", "")
	}
	values := []book.Value{
		{Key: "order", Label: "tighten in the order", What: book.Words(s.order)},
		{Key: "torque", Label: "torque, dry", What: torque},
		{Key: "spanner_pull", Label: "pull at the spanner", What: force(s.pull), Remark: "at " + s.in.exact(s.spanner()) + " from the nut"},
		{Key: "spanner_length", What: book.Length(s.spanner(), 0)},
		{Key: "pull_by_torque", Label: "pull by torque alone", What: pull},
		{Key: "stud_preload", Label: "preload of each stud", What: force(s.load.Preload)},
		{Key: "preload_times_load", What: margin},
		{Key: "preload_share", What: book.Number(s.preload, 2, "", "")},
		{Key: "torque_factor", What: book.Number(s.torque.Factor.K, 2, "", "")},
		{Key: "thread", What: book.Word(s.thread.Designation())},
		{Key: "studs", What: book.Count(len(s.outline.Holes))},
		{Key: "stud_proof", What: stress(s.proof), Refs: s.strong},
		{Key: "stud_area", What: areaOf(s.area.Area), Refs: s.area.Refs},
	}
	if s.into != nil {
		values = append(values,
			book.Value{Key: "thread_strips", Label: "tapped thread strips at", What: force(s.grip.Strips), Remark: "in " + s.into.Material.Name},
			book.Value{Key: "thread_engaged", Label: "with engaged", What: book.Length(s.grip.Engaged, 2)},
			book.Value{Key: "stud_pull_most", What: force(s.grip.Pull)},
			book.Value{Key: "tapped_material", What: book.Word(s.into.Material.Name)})
	}
	if s.class != "" {
		values = append(values, book.Value{Key: "stud_class", What: book.Word(s.class)})
	}
	return values
}

// carrying is what the joint carries and how large it is.
func (s *solvedJoint) carrying() []book.Value {
	left := stress(s.pressing.Left)
	if s.pressing.Left <= 0 {
		left = book.Never(left, "nothing: the cover lifts")
	}
	values := []book.Value{
		{Key: "pressure", What: book.Number(s.pressure.In(units.Bar), 2, "bar", "bar")},
		{Key: "load", Label: "force on the cover", What: force(s.load.Total)},
		{Key: "stud_load", Label: "on each stud", What: force(s.load.Working)},
		{Key: "stud_stress", What: stress(s.load.Stress)},
		{Key: "gasket_bolted", Label: "bolted up, gasket", What: stress(s.pressing.Bolted)},
		{Key: "on_gasket", Label: "left on the gasket", What: left},
		{Key: "spacing", Label: "studs apart, at most", What: book.Length(s.spacing.Widest, 3)},
		{Key: "gasket_area", Label: "gasket, area", What: areaOf(s.measures.Area)},
		{Key: "enclosed", Label: "inside the edge of it", What: areaOf(s.measures.Enclosed)},
	}
	if s.material != nil {
		values = append(values, book.Value{Key: "gasket", Label: "gasket, made of", What: book.Word(s.material.Name)})
	}
	if len(s.seats) > 0 {
		values = append(values,
			book.Value{Key: "gasket_seated", Label: "gasket, seated", What: book.Answer(s.pressing.Seated)},
			book.Value{Key: "seating_force", Label: "all studs, to seat it", What: force(s.pressing.Needed)},
			book.Value{Key: "studs_force", Label: "all studs, tightened", What: force(units.Force(s.load.Number) * s.load.Preload)},
			book.Value{Key: "seats_factor", What: stress(s.pressing.Seats)})
	}
	if s.sheet != nil {
		values = append(values, book.Value{Key: "gasket_thickness", What: book.Length(*s.sheet, 2)})
	}
	if len(s.webs) > 0 {
		least := s.webs[0]
		values = append(values,
			book.Value{Key: "least_web", Label: "least web", What: book.Length(least.Width, 3),
				Remark: "from " + least.From + " to " + least.To},
			book.Value{Key: "least_web_between", What: book.Words([]string{least.From, least.To})})
	}
	return values
}

// rules compares the studs with the rules of thumb for their spacing.
func (s *solvedJoint) rules() book.Table {
	t := book.Table{Key: "spacing_rules", Title: "Rules of thumb for studs apart, which disagree:"}
	for _, r := range s.spacing.Rules {
		verdict, kept := "outside", r.Contains(s.spacing.Widest)
		if kept {
			verdict = "kept"
		}
		apart := book.Range(book.Length(r.Min, 0).Millimetres(), book.Length(r.Max, 0).Millimetres())
		t.Rows = append(t.Rows, book.Row{Label: r.Name, Values: []book.Value{
			{Key: "apart", Label: "apart", What: apart, Refs: r.Refs},
			{Key: "kept", Label: "here", What: book.Answer(kept).Shown(verdict)},
		}})
	}
	return t
}

// seated is which grades of the material the studs seat.
func (s *solvedJoint) seated() book.Table {
	t := book.Table{Key: "seating", Title: "The code's factor y for gaskets inside the studs, an indication here:"}
	for _, f := range s.seats {
		name := f.Printed
		if name == "" {
			name = f.Material
		}
		verdict, seated := "not seated", f.Y <= s.pressing.Seats
		if seated {
			verdict = "seated"
		}
		t.Rows = append(t.Rows, book.Row{Label: name, Values: []book.Value{
			{Key: "stress", Label: "factor y", What: book.Number(f.Y.In(units.Megapascal), 1, "MPa", "mpa"), Refs: f.Refs},
			{Key: "seated", Label: "here", What: book.Answer(seated).Shown(verdict)},
		}})
	}
	return t
}

// jointNotes are what every full-face gasket is told.
func jointNotes() []string {
	return []string{
		"The gaskets are full-face, with the studs through them: the pressure is reckoned to the edge of the gasket, as" +
			" if it had leaked that far, and no code gives a method for them.",
		"Tighten in three rounds of a third of the torque more each, then once in a ring; look again, cold and without" +
			" pressure, after the first steaming, as joints relax by 10 to 20 percent. A gasket does not put right faces" +
			" that are not flat.",
	}
}
