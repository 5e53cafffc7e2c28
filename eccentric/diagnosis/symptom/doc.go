// Package symptom explains what a builder sees and hears of an engine that does not
// run as it should. A [Case] is the engine, the symptoms in plain words and, if there
// are any, what package diagnosis makes of readings. Case.Explain ranks the faults of
// a catalogue by how well each shows what was told, and has the cheapest test that
// tells the first two apart.
//
// What a fault of the valve gear shows is computed: the fault is put into the drawing
// in a few sizes, and each is run through a turn of this engine's own ideal cycle,
// forwards and backwards, at rest, slowly and at speed. So are leaks past valve and
// rings, friction, and passages that are too narrow, by a rough model of our own. What
// no cycle can show, such as a loose wheel, is in a table with the work that says so.
//
// Symptoms rank; they never decide. No figure is known of how often each fault is
// met, so that all count alike until readings have been taken, and where the
// builder's ear decides the answer says so. A bad argument is an *units.ArgumentError.
// A model engine under air or steam is a pressure vessel with a flywheel on it: no
// answer here replaces the boiler code, the club's test or licensed practice.
// Sources and checks: testdata/eccentric/diagnosis/symptom/README.md.
package symptom
