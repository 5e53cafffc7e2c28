package pages

import (
	"errors"
	"fmt"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/eccentric/diagram"
	"github.com/valvechest/valvechest/eccentric/indicator"
	"github.com/valvechest/valvechest/internal/book"
	"github.com/valvechest/valvechest/internal/cli"
	"github.com/valvechest/valvechest/internal/engine"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
)

// A RunningQuestion is what an engine runs on, where it is not as the table [running]
// of its file has it; nil is as there.
type RunningQuestion struct {
	Pressure, Back *units.Pressure // above the atmosphere
	Speed          *units.RotationalSpeed
	Medium         *indicator.Medium
	Index          *float64
	Clearance      *engine.Share
}

// ReadIndicator makes the book of an engine at work; see [IndicatorFile].
func ReadIndicator(name string, ask RunningQuestion) (book.Book, error) {
	text, err := cli.ReadFile(name, engine.Largest)
	if err != nil {
		return book.Book{}, fmt.Errorf("%w; accepted: an engine file in TOML, such as engines/demo.toml", err)
	}
	return IndicatorFile(name, text, ask)
}

// IndicatorFile makes that book from the text of the engine's file: what there is to be
// said of its valve gear and of the engine at work, the page of the engine book, and
// the answer as other programs want it.
func IndicatorFile(name string, text []byte, ask RunningQuestion) (book.Book, error) {
	e, unread := engine.Parse(name, text)
	a, err := atWork(e, ask, runningFlags)
	if errors.Is(err, errNoRoom) {
		err = e.Errorf("cylinder.length", "the piston strikes its covers: do not turn the engine under air or steam; accepted: room for it"+
			" at both dead centres, of which the engine book says more")
	}
	if err := engine.Join(unread, e.Cross(), err); err != nil {
		return book.Book{}, err
	}
	if a == nil {
		return book.Book{}, unread
	}
	page, err := a.page()
	if err != nil {
		return book.Book{}, err
	}
	b := book.Book{
		Title: "AT WORK, ON " + capitals(a.run.Medium.String()), From: e.Document.Name,
		Findings:    append(finding.ListOf(checked(e, a.run.Gear)), page.Findings...),
		Precautions: page.Precautions,
	}
	if e.File.Name != "" {
		b.Title += ": " + e.File.Name
	}
	if room, known, err := roomOf(e); err == nil && known { // with a stated clearance too, a piston may strike
		b.Findings = append(b.Findings, finding.ListOf(room.Check())...)
	}
	answer, err := a.answer()
	if err != nil {
		return book.Book{}, err
	}
	b.Sections = append(page.Sections, answer...)
	return firstRead(e, b), nil
}

// workPage is the page of the engine book on the engine at work, on air and on
// steam.
func workPage(e *engine.Engine) (*Page, error) {
	if !e.Has("running") {
		return nil, e.ValidateRunning()
	}
	if _, err := gearOf(e); err != nil {
		return nil, e.ValidateRunning() // the rest is told on the page of the valve
	}
	a, err := atWork(e, RunningQuestion{}, nil)
	if errors.Is(err, errNoRoom) {
		return &Page{Sections: []book.Section{{Key: "running", Title: onAirAndSteam, Items: []book.Item{{Notes: []book.Note{{
			Text: "The piston has no room that an engine could run with: see what is said of it."}}}}}}}, nil
	}
	if err != nil || a == nil {
		return nil, err
	}
	return a.page()
}

const onAirAndSteam = "ON AIR AND ON STEAM"

// An engineAtWork makes the pages of an engine that runs.
type engineAtWork struct {
	e    *engine.Engine
	run  indicator.Running
	from string // what the clearance is

	flags map[string]string // that stand for keys of the file; none in the engine book
}

// errNoRoom is a piston that leaves no room at a dead centre.
var errNoRoom = errors.New("no room")

// runningKeys are the keys of what package indicator names in its errors, and
// runningFlags the flags.
var runningKeys = map[string]string{
	"bore": "cylinder.bore", "piston rod": "cylinder.piston_rod", "medium": "running.medium",
	"pressure in the chest": "running.pressure", "back pressure": "running.back", "index of expansion": "running.index",
	"clearance": "running.clearance", "clearance of the head end": "running.clearance", "clearance of the crank end": "running.clearance",
	"speed": "running.speed", "mass of the moving parts": "running.moving", "angle between cranks": "running.second_crank",
	"pressure of the atmosphere": "running.atmosphere", "friction": "running.friction",
	"velocity in the pipe": "running.pipe_velocity", "room for oil": "running.lubricator",
	"diameter of the flywheel": "flywheel.diameter", "width of the rim": "flywheel.rim_width", "depth of the rim": "flywheel.rim_depth",
	"thickness of the web": "flywheel.web", "diameter of the boss": "flywheel.boss", "width of the boss": "flywheel.boss_width",
	"bore of the flywheel": "flywheel.bore", "metal of the flywheel": "flywheel.material", "evenness": "flywheel.evenness",
	"width of the valve": "valve.width", "width of the cavity": "valve.cavity_width", "port length": "ports.length",
	"pressure that the cylinder is declared for": "cylinder.pressure",
}

var runningFlags = map[string]string{
	"running.medium": "-medium", "running.pressure": "-pressure", "running.back": "-back", "running.index": "-index",
	"running.clearance": "-clearance", "running.speed": "-speed",
}

// atWork puts the engine at work together, from its file and what was asked, and
// complains of all that is missing; nil where that was told when the file was read.
func atWork(e *engine.Engine, ask RunningQuestion, flags map[string]string) (*engineAtWork, error) {
	problems := []error{e.ValidateRunning()}
	gear, err := gearOf(e)
	problems = append(problems, err)
	a := &engineAtWork{e: e, run: indicator.Running{Gear: gear}, flags: flags}
	if err := errors.Join(problems...); err != nil {
		return nil, err
	}
	if gear == (eccentric.Gear{}) {
		return nil, nil
	}
	file, r := &e.File.Running, &a.run
	given := map[string]bool{} // keys of the file for which a flag stands
	take(&r.Bore, e.Cylinder.Bore, nil, given, "")
	take(&r.PistonRod, e.Cylinder.PistonRod, nil, given, "")
	take(&r.Medium, file.Medium, ask.Medium, given, "running.medium")
	take(&r.Chest, file.Pressure, ask.Pressure, given, "running.pressure")
	hasBack := take(&r.Back, file.Back, ask.Back, given, "running.back")
	take(&r.Index, file.Index, ask.Index, given, "running.index")
	hasSpeed := take(&r.Speed, file.Speed, ask.Speed, given, "running.speed")
	take(&r.Moving, file.Moving, nil, given, "")
	take(&r.Atmosphere, file.Atmosphere, nil, given, "")
	if file.SecondCrank != nil {
		r.Cranks = []units.Angle{*file.SecondCrank}
	}
	var share engine.Share
	stated := take(&share, file.Clearance, ask.Clearance, given, "running.clearance")
	r.Clearance, a.from = indicator.Both(float64(share)), "as stated, ports and passages and all"
	if !stated {
		room, known, err := roomOf(e)
		if err != nil {
			return nil, err
		}
		if known {
			c, err := room.Clearance()
			if err != nil {
				return nil, err
			}
			if c.Head.Sign() <= 0 || c.Crank.Sign() <= 0 {
				return nil, errNoRoom
			}
			r.Clearance = indicator.Shares{Head: c.HeadShare, Crank: c.CrankShare}
			a.from = "piston to cover alone; ports and passages come to it"
		} else {
			problems = append(problems, fail.Missing("clearance", usualClearance))
			r.Clearance = indicator.Both(0.1) // the rest is looked at with any
		}
	}
	if !hasBack {
		problems = append(problems, fail.Missing("back pressure", usualBack))
	}
	if !hasSpeed {
		problems = append(problems, fail.Missing("speed", usualSpeed))
	}
	problems = append(problems, r.Validate())
	if err := errors.Join(problems...); err != nil {
		return nil, a.placed(err, given)
	}
	return a, nil
}

// What is usual of that which must be stated, where the library takes a zero.
const (
	usualClearance = "the share of the swept volume at each end, 3 % to 10 % is usual and up to 15 % on small engines," +
		" or length and piston of the [cylinder]"
	usualBack  = "0 bar into the open air, up to 0.2 bar through a pipe, as a gauge shows it"
	usualSpeed = "above zero; 200 to 600 rev/min is usual on small engines"
)

// take takes a value from a flag or from the file, and notes the flag; false where
// neither has it.
func take[T any](to *T, file, ask *T, given map[string]bool, key string) bool {
	switch {
	case ask != nil:
		*to, given[key] = *ask, true
	case file != nil:
		*to = *file
	default:
		return false
	}
	return true
}

// placed gives each error the flag or the place in the file that it is about.
func (a *engineAtWork) placed(err error, given map[string]bool) error {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var all []error
		for _, inner := range joined.Unwrap() {
			all = append(all, a.placed(inner, given))
		}
		return errors.Join(all...)
	}
	var bad *units.ArgumentError
	if !errors.As(err, &bad) {
		return err
	}
	key := runningKeys[bad.Field]
	switch flag := a.flags[key]; {
	case flag != "" && given[key]:
		return cli.Named(flag, err)
	case flag != "" && !a.e.Has(key):
		return a.e.Errorf(key, "%v; or the flag %s", err, flag)
	}
	return placed(a.e, err, runningKeys)
}

// page is the page on the engine at work.
func (a *engineAtWork) page() (*Page, error) {
	page := &Page{Precautions: indicator.Precautions()}
	section := book.Section{Key: "running", Title: onAirAndSteam, Intro: []string{
		"First: steam only from a tested boiler, by the rules of the place and under licensed inspection. Never test a cylinder" +
			" with compressed air. Stand clear of what turns; open the valve slowly.",
		"Pressures are told as a gauge shows them, above the atmosphere of " + a.run.Absolute(0).String() + ", and absolute. The cycle is the ideal one of" +
			" the valve's own events, without leaks, cold walls, friction and what ports take; it is not a promise.",
	}}
	drawn := func() (book.Item, finding.List, error) {
		item, found, err := a.turning()
		if err != nil {
			return item, found, err
		}
		pictures, err := diagram.AtWork(a.run, diagram.Options{Inch: a.e.Inches()})
		for _, p := range pictures {
			item.Figures = append(item.Figures, figureOf(p))
		}
		return item, found, err
	}
	for _, part := range []func() (book.Item, finding.List, error){
		a.stated, a.pressures, a.work, drawn, a.starting, a.takes, a.others, a.throughPorts, a.onFace, a.wheel,
		a.pipe,
		a.oilAndWater,
	} {
		item, found, err := part()
		if err != nil {
			return nil, a.placed(err, nil)
		}
		page.Findings = append(page.Findings, found...)
		if len(item.Values)+len(item.Tables)+len(item.Notes)+len(item.Formulas) > 0 {
			section.Items = append(section.Items, item)
		}
	}
	for _, check := range []func() (finding.List, error){a.run.Check, a.declared} {
		found, err := check()
		if err != nil {
			return nil, a.placed(err, nil)
		}
		page.Findings = append(page.Findings, found...)
	}
	page.Sections = []book.Section{section}
	return page, nil
}

// declared is what is to be said of what the cylinder is declared for.
func (a *engineAtWork) declared() (finding.List, error) {
	var pressure units.Pressure
	if p := a.e.Cylinder.Pressure; p != nil {
		pressure = *p
	}
	return a.run.CheckPressure(pressure)
}
