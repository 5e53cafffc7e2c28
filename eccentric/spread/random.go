package spread

import (
	"context"
	"fmt"
	"math"
	"runtime"
	"sync"
	"sync/atomic"

	"github.com/valvechest/valvechest/eccentric/internal/kernel"
	"github.com/valvechest/valvechest/units"
)

// A Random is what a run of engines drawn at random comes to.
type Random struct {
	Runs    int       `json:"runs"` // engines drawn
	Head    EndSpread `json:"head"`
	Crank   EndSpread `json:"crank"`
	Chances []Chance  `json:"chances"` // of every finding that some engine has, the gravest and then the likeliest first
	Fails   float64   `json:"fails"`   // share of the engines with a finding that fails
}

// An EndSpread is how the events of one end of the cylinder spread.
type EndSpread struct {
	Admission      EventSpread               `json:"admission"`
	CutOff         EventSpread               `json:"cut_off"`
	Release        EventSpread               `json:"release"`
	Compression    EventSpread               `json:"compression"`
	Lead           Percentiles[units.Length] `json:"lead"`
	Opening        Percentiles[units.Length] `json:"opening"`         // greatest, to steam
	ExhaustOpening Percentiles[units.Length] `json:"exhaust_opening"` // greatest
}

// An EventSpread is how one event spreads.
type EventSpread struct {
	Occurs float64                  `json:"occurs"` // share of the engines in which it happens; what follows is of these
	Crank  Percentiles[units.Angle] `json:"crank"`  // from that end's own dead centre, in the turn of the drawing's admission
	Stroke Percentiles[float64]     `json:"stroke"` // share of the stroke gone from that end
}

// Percentiles are the values below which 5, 50 and 95 per cent of the engines lie,
// between two engines in proportion; all zero where nothing happens.
type Percentiles[T any] struct {
	P05 T `json:"p05"`
	P50 T `json:"p50"`
	P95 T `json:"p95"`
}

// Random draws engines at random and returns how their events spread and how often
// Gear.Check (where the study is Placed, Gear.CheckPlaced) has something to say of
// them:
//
//	size = middle + width/6 * z
//
//	middle, width   of the dimension's tolerance
//	z               from the normal distribution, drawn again beyond 3 either way
//
// each dimension for itself, lengths to a whole picometre. A tolerance as wide as six
// standard deviations is common practice for a process in hand. The answer goes with
// the seed, whatever the number of cores. A share p of n engines is good to
// sqrt(p*(1-p)/n), the standard error: 0.16 per cent at the most for 100,000. A run
// takes 180 bytes of memory an engine.
//
// It fails where [Study.Validate] does, and with the error of the context as soon as
// that is done. See the Example.
func (s Study) Random(ctx context.Context) (Random, error) {
	b, err := s.box()
	if err != nil {
		return Random{}, err
	}
	r := newRun(&s, &b)
	if err := r.draw(ctx); err != nil {
		return Random{}, err
	}
	return r.answer(ctx)
}

// block is how many engines are drawn from one stream of random numbers and in one
// piece by one goroutine: the streams do not depend on who draws them.
const block = 1000

// A run is a random run under way.
type run struct {
	study   *Study
	box     *box
	runs    int
	workers int
	about   [2]float64 // crank angles of admission on the drawing
	columns []piece
	blocks  []tally
}

// A piece holds what the engines of a block come to.
type piece [columns][block]float64

// A tally is what one block counts.
type tally struct {
	steam, exhaust [2]int                              // engines with ports that open and close, by end
	grades         [kernel.Codes][kernel.Stops + 1]int // engines by the gravest verdict on each code, at any end
	fails          int
}

func newRun(s *Study, b *box) *run {
	r := &run{study: s, box: b, runs: s.Runs, workers: s.Workers}
	if r.runs == 0 {
		r.runs = usualRuns
	}
	if r.workers == 0 {
		r.workers = runtime.GOMAXPROCS(0)
	}
	m, e := b.drawn.Motion(), kernel.Events{}
	m.Events(&e)
	for end, of := range [...]*kernel.EndEvents{&e.Head, &e.Crank} {
		r.about[end] = of.Admission.Crank
		if !of.Admission.Occurs {
			r.about[end] = math.NaN() // from which nothing is further than half a turn
		}
	}
	r.blocks = make([]tally, (r.runs+block-1)/block)
	r.columns = make([]piece, len(r.blocks))
	return r
}

// draw fills in the columns and the blocks.
func (r *run) draw(ctx context.Context) error {
	var done int
	var telling sync.Mutex
	return r.share(ctx, len(r.blocks), func() func(int) {
		w := newWorker(r)
		return func(i int) {
			n := w.block(i)
			if r.study.Progress == nil {
				return
			}
			telling.Lock()
			defer telling.Unlock()
			done += n
			r.study.Progress(done, r.runs)
		}
	})
}

// share has n tasks done by as many goroutines as there are workers, each with a
// function of its own, until the context is done.
func (r *run) share(ctx context.Context, n int, worker func() func(task int)) error {
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(r.workers, n) {
		all.Go(func() {
			do := worker()
			for ctx.Err() == nil {
				task := int(next.Add(1)) - 1
				if task >= n {
					return
				}
				do(task)
			}
		})
	}
	all.Wait()
	if err := ctx.Err(); err != nil {
		return fmt.Errorf("spread: the random run was stopped: %w", err)
	}
	return nil
}

// size returns how many engines a block has.
func (r *run) size(i int) int { return min(block, r.runs-i*block) }
