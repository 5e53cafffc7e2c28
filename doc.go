// Package valvechest is the root of a library of reference-checked workshop
// numbers for the builder of a small slide-valve steam engine. It holds no code;
// this page tells which package and function uses which standard or handbook.
//
//	standard or handbook                        package         function
//	Bevan, The Theory of Machines, ch. 5        eccentric       Gear.Events, Gear.WithLead
//	Tennant and Kinealy, The Slide Valve        eccentric       Gear.Events, Gear.Laps
//	Low, Machine Drawing; Sinclair, clearances  eccentric       Room.Clearance, Room.Check
//	Rose, Modern Machine-Shop Practice, valves  eccentric       Design
//	Sinclair, faults of the valve gear          eccentric       Salvage
//	tolerances of a valve gear                  eccentric/spread Study.Random, Study.Worst, Study.Hold, Study.Widest
//	Sinclair, finding what is wrong             eccentric/diagnosis Case.Diagnose
//	Sinclair, Maggard: signs of faults          eccentric/diagnosis/symptom Case.Explain
//	the cycle of a slide-valve engine           eccentric/indicator Running.Cycle
//	Machinery's Reference Series no. 70         eccentric/indicator Running.Cycle, Running.Power
//	Bevan, Khurmi: forces, turning moment       eccentric/indicator Running.Forces, Running.Turning, Running.Inertia
//	Bourne, Rankine: steam through ports        eccentric/indicator Running.PortFlow, Running.Throttled, PortLimits
//	Zeuner's rule and indices of expansion      eccentric/indicator WetSteam, Medium.Expansions
//	Lineham, the missing quantity of steam      eccentric/indicator Running.SteamUse
//	Tredgold, steam and exhaust pipes           eccentric/indicator Running.SteamPipe
//	Bevan, crank effort and flywheels           eccentric/indicator Running.Excess, Running.Evenness
//	Ahrons, Sinclair: halving the leads         eccentric/setting Setting.Correct
//	marking out, chucks: geometry               eccentric/marking Vee.Heights, ThreeJaw.Packing, FourJaw.Solve
//	valve, ports, crank and rods drawn          eccentric/diagram Valve, Positions, Drive
//	forks, the valve's nut, ports: geometry     eccentric/marking Clevis.Solve, NutSlot.Solve, PortFace.Cuts
//	circles through points; rough castings      eccentric/marking/casting FitCircle, Casting.Centre, Casting.Tilt
//	Bevan, ISO 1940-1, balance of wheels        eccentric/marking/casting Balance, BalanceGrade
//	Lobben, lathe mandrels                      eccentric/marking/casting MandrelTaperFor, Seat.RunOut
//	ISO 68-1, 261 metric threads                thread          Parse, Thread.Minor
//	ISO 965-1 limits of metric threads          thread          Thread.Limits
//	ASME B1.1 Unified threads                   thread          Parse, Thread.Limits
//	BS 84 Whitworth, BS 93 BA                   thread          Parse, Thread.Limits
//	ISO 228, ISO 7, ASME B1.20.1 pipe threads   thread          Parse, Thread.Taper
//	ISO 2901 to 2903, ASME B1.5 Acme            thread          Parse, Thread.Limits
//	ISO 273, BS 4186 clearance holes            thread          Thread.ClearanceFor
//	FED-STD-H28 wires                           thread/wires    Set.Over, Set.Window
//	FED-STD-H28 length of engagement            thread/strength Joint.Solve
//	ISO 898-1 strength of bolts                 thread/strength BoltFor, StressAreaOf
//	Shigley, nut factors and torque             thread/strength NutFactors, Tightening.Solve
//	Jones, Turning and Boring, change wheels    thread/screwcut Lathe.Trains
//	ASME B1.1, looseness of threads alike       thread/alike    Mate, Substitutes, Specimen.Identify
//	ISO 4032, BS 1083, ASME B18.2.2 hexagons    thread          Thread.Hexagon
//	ISO 286-1 and -2 limits and fits            fits            Class.LimitsFor, Fit.LimitsFor
//	ANSI B4.1 inch fits, B4.2 preferred fits    fits            InchFit.LimitsFor, PreferredFits
//	Lame's thick cylinders                      fits/assembly   Press.Solve
//	DIN 7190 friction, set screws, adhesives    fits/assembly   Frictions, GrubScrew.Solve, Bond.Solve
//	DIN 6885, ASME B17.1 keys; ISO 2339 pins    fits/keys       For, PinsFor, DimpleFor
//	Lame's thick cylinders                      gasket/cover    Wall.Solve, Wall.Lame
//	Carvill, flat plates                        gasket/cover    Round.Under, Rectangular.Under
//	training manuals and handbooks, speeds      speeds          Recommend, FeedFor, Job.Plan
//	reaming allowances, AND10387 holes          speeds/hole     ReamingFor, DrilledFor, PointFor
//	ISO 3 preferred numbers                     speeds          PreferredNumbers
//	Kienzle cutting force, VDI 3323             speeds/cutting  KienzleFor, TurningLoad, DrillingLoad
//	US Army OD1644 indexing                     speeds/dividing Head.Divide
//	rim speeds of cast iron                     speeds/holding  RimLimitFor, CheckRim
//	VDI 3106 grip of turning chucks             speeds/holding  Chuck.Speed
//	tapers, sine bar, rollers: geometry         speeds/setting  Taper.SetOver, SineBar
//	Machinery's Handbook hole circles           gasket          BoltCircle
//	ASME Y14.5 fixed and floating fasteners     gasket          PositionZones
//	ASME VIII-1 App. 2 gaskets inside the studs gasket/joint    Gasket.Loads
//	Shigley, preload of studs                   gasket/joint    Studs.Load
//	ASME VIII-1 table 2-5.1 gasket factors      gasket/seal     FactorsFor
//	AS568 O-rings and a groove table            gasket/seal     LookupRing, GrooveFor
//	findings of every package                   units/finding   List.Sort, List.OK
//	IAPWS R7-97 water and steam                 units/steam     AtGauge, Saturated.Steam, State.Expanded
//	one length in several figures               units/figure    Check, Differences
//	ISO 216 paper                               gasket/template New
//	number, letter and wire gauges              units/gauge     Number, Letter, Parse
//	textbook properties of materials            units/material  Lookup
//	NIST SP 811 conversions                     units           ParseLength, ParsePressure
//
// Package gasket/dial sets a hole pattern out on the handwheels of a machine.
// Results that rest on a table or a rule have a field Refs, which says where the
// figure was read, or that it is from memory or was reviewed by nobody;
// testdata/sources.csv lists the works. A bad argument is a *units.ArgumentError,
// text that cannot be read a *units.ParseError; what is to be said of sound input
// comes as findings, each of which prints in one line, the worst first.
// examples/enginebook does the whole job on one engine.
package valvechest
