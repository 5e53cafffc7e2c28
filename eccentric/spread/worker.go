package spread

import (
	"math"
	"math/rand/v2"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
)

// A worker draws engines and works them out, in memory of its own.
type worker struct {
	run    *run
	gear   kernel.Gear
	motion kernel.Motion
	events kernel.Events
	stream *rand.PCG
	normal *rand.Rand
	sizes  []size
}

// A size is where a dimension is drawn to.
type size struct {
	at           *float64
	also         *float64 // of the crank end, where it goes with it
	middle, sd   float64
	lower, upper float64
	whole        bool // to whole picometres
}

// deviations is how many standard deviations half a tolerance is.
const deviations = 3

func newWorker(r *run) *worker {
	w := &worker{run: r, gear: r.box.drawn, stream: rand.NewPCG(0, 0)}
	w.normal = rand.New(w.stream)
	for _, v := range r.box.varied {
		at, also := v.in(&w.gear)
		w.sizes = append(w.sizes, size{
			at: at, also: also, middle: (v.lower + v.upper) / 2, sd: (v.upper - v.lower) / 2 / deviations,
			lower: v.lower, upper: v.upper, whole: v.dimension.measure() == aLength,
		})
	}
	return w
}

// begin goes to the start of the stream of random numbers that a block has.
func (w *worker) begin(i int) {
	seed := w.run.study.Seed
	w.stream.Seed(mixed(seed), mixed(mixed(seed)+uint64(i)))
}

// mixed returns a number every bit of which depends on every bit of another, by
// the finalizer of splitmix64 (Steele, Lea and Flood, 2014).
func mixed(z uint64) uint64 {
	z += 0x9e3779b97f4a7c15
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// next draws the next engine.
func (w *worker) next() {
	for i := range w.sizes {
		s := &w.sizes[i]
		v := s.middle + s.sd*w.normal.NormFloat64()
		for v < s.lower || v > s.upper {
			v = s.middle + s.sd*w.normal.NormFloat64()
		}
		if s.whole {
			v = math.RoundToEven(v)
		}
		*s.at = v
		if s.also != nil {
			*s.also = v
		}
	}
}

// The columns hold what the engines of a run come to, in two groups, one for each
// end. Those of the events come first, crank angle and stroke in turn.
const (
	endEvents      = 4
	lead           = 2 * endEvents
	opening        = lead + 1
	exhaustOpening = lead + 2
	endColumns     = lead + 3
	columns        = 2 * endColumns
)

// block draws the engines of a block and returns how many.
func (w *worker) block(i int) int {
	n := w.run.size(i)
	count := &w.run.blocks[i]
	w.begin(i)
	for engine := range n {
		w.next()
		w.motion.Set(&w.gear)
		w.motion.Events(&w.events)
		w.keep(i, engine)
		if !w.run.study.EventsOnly {
			w.judge(count)
		}
	}
	return n
}

// keep puts what an engine of a block does into its columns.
func (w *worker) keep(i, engine int) {
	into, count := &w.run.columns[i], &w.run.blocks[i]
	keep(&w.events.Head, engine, (*endPiece)(into[:endColumns]), &count.steam[0], &count.exhaust[0], w.run.about[0])
	keep(&w.events.Crank, engine, (*endPiece)(into[endColumns:]), &count.steam[1], &count.exhaust[1], w.run.about[1])
}

// An endPiece is the columns of one end.
type endPiece [endColumns][block]float64

// keep puts what an engine does at one end into its columns, events behind those
// that have occurred; the crank angles in the turn in which admission is within
// half a turn of where it is about.
func keep(e *kernel.EndEvents, engine int, into *endPiece, steam, exhaust *int, about float64) {
	turn := 0.0
	if e.Steam == kernel.OpensAndCloses {
		if off := e.Admission.Crank - about; off > math.Pi {
			turn = -2 * math.Pi
		} else if off < -math.Pi {
			turn = 2 * math.Pi
		}
		at := *steam
		*steam = at + 1
		into[0][at], into[1][at] = e.Admission.Crank+turn, e.Admission.Stroke
		into[2][at], into[3][at] = e.CutOff.Crank+turn, e.CutOff.Stroke
	}
	if e.Exhaust == kernel.OpensAndCloses {
		at := *exhaust
		*exhaust = at + 1
		into[4][at], into[5][at] = e.Release.Crank+turn, e.Release.Stroke
		into[6][at], into[7][at] = e.Compression.Crank+turn, e.Compression.Stroke
	}
	into[lead][engine], into[opening][engine], into[exhaustOpening][engine] = e.Lead, e.Opening, e.ExhaustOpening
}

// judge counts the verdicts on an engine.
func (w *worker) judge(count *tally) {
	verdicts := w.gear.Judge(&w.motion, &w.events)
	fails := false
	for code, ends := range verdicts {
		worst := max(ends[kernel.Both], ends[kernel.Head], ends[kernel.Crank])
		if worst == kernel.Absent {
			continue
		}
		count.grades[code][worst]++
		fails = fails || worst == kernel.Stops
	}
	if fails {
		count.fails++
	}
}
