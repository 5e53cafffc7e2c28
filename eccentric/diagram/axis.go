package diagram

import (
	"fmt"
	"math"

	"github.com/valvechest/valvechest/internal/sheet"
)

// An axis lays a range of values along a length of the sheet.
type axis struct {
	low, high float64 // values at its ends
	from, to  float64 // and where they are on the sheet
}

// at returns where a value is on the sheet.
func (a axis) at(v float64) float64 { return a.from + (v-a.low)/(a.high-a.low)*(a.to-a.from) }

// has reports whether a value lies on the axis.
func (a axis) has(v float64) bool {
	slack := 1e-9 * (a.high - a.low)
	return v >= a.low-slack && v <= a.high+slack
}

// A chart is a rectangle of the plate with an axis along its foot and one up its side.
type chart struct {
	*plate
	x, y axis
}

func (c chart) at(x, y float64) sheet.Point { return sheet.Point{X: c.x.at(x), Y: c.y.at(y)} }

// round returns the smallest of the round steps, 1, 2 or 5 and noughts, that makes no
// more than so many of a span.
func stepFor(span float64, most int) float64 {
	step := math.Pow(10, math.Floor(math.Log10(span/float64(most))))
	for _, factor := range [...]float64{1, 2, 5, 10} {
		if span/(step*factor) <= float64(most)*(1+1e-9) {
			return step * factor
		}
	}
	return 10 * step
}

// widened returns a range that ends at whole steps.
func widened(low, high, step float64) (float64, float64) {
	const slack = 1e-9
	return step * math.Floor(low/step+slack), step * math.Ceil(high/step-slack)
}

// places returns how many decimals a round step has.
func decimals(step float64) int { return max(0, int(math.Ceil(-math.Log10(step)-1e-9))) }

// fixed writes a number to so many places, nothing without a sign.
func figure(v float64, places int) string {
	unit := math.Pow(10, float64(places))
	return fmt.Sprintf("%.*f", places, math.Round(v*unit)/unit+0)
}

// ticks returns the round values on an axis, the step between them given.
func (a axis) ticks(step float64) []float64 {
	var values []float64
	for k := math.Ceil(a.low/step - 1e-9); k*step <= a.high+1e-9*step; k++ {
		values = append(values, k*step)
	}
	return values
}

const tick = 1.2 // length of a tick, in millimetres

// foot draws the axis along the foot of the chart, or where its height y is, with figures
// below at whole steps.
func (c chart) foot(step float64, name string) {
	base := c.y.from
	c.line(sheet.Measure, sheet.Point{X: c.x.from, Y: base}, sheet.Point{X: c.x.to, Y: base})
	for _, v := range c.x.ticks(step) {
		x := c.x.at(v)
		c.line(sheet.Measure, sheet.Point{X: x, Y: base}, sheet.Point{X: x, Y: base - tick})
		value := figure(v, decimals(step))
		at := sheet.Text{
			At: sheet.Point{X: x, Y: base - tick - letters - 0.7}, Height: letters, Anchor: sheet.Middle, Value: value,
		}
		if c.free(grown(at.Box(), 0.1), byText) {
			c.write(at)
		}
	}
	c.text(sheet.Point{X: (c.x.from + c.x.to) / 2, Y: base - tick - 2*letters - 2.4}, letters, sheet.Middle, name)
}

// footUp is the height that the figures and the name of an axis at the foot need.
const footUp = tick + 2*letters + 2.4 + below*letters

// side draws the axis up the left side, with figures at whole steps, and its name over it.
func (c chart) side(step float64, name string) {
	c.line(sheet.Measure, sheet.Point{X: c.x.from, Y: c.y.from}, sheet.Point{X: c.x.from, Y: c.y.to})
	for _, v := range c.y.ticks(step) {
		y := c.y.at(v)
		c.line(sheet.Measure, sheet.Point{X: c.x.from, Y: y}, sheet.Point{X: c.x.from - tick, Y: y})
		c.text(sheet.Point{X: c.x.from - tick - 0.8, Y: y - letters/2}, letters, sheet.End, figure(v, decimals(step)))
	}
	c.text(sheet.Point{X: 1, Y: c.y.to + 2.6}, letters, sheet.Start, name)
}

// sideWide returns the width that the figures up a side need.
func sideWide(low, high, step float64) float64 {
	wide := 0.0
	for _, v := range (axis{low: low, high: high}).ticks(step) {
		wide = max(wide, sheet.TextWidth(figure(v, decimals(step)), letters))
	}
	return wide + tick + 2
}

// level draws a level line across the chart.
func (c chart) level(l sheet.Layer, y float64) {
	c.line(l, sheet.Point{X: c.x.from, Y: c.y.at(y)}, sheet.Point{X: c.x.to, Y: c.y.at(y)})
}

// said writes what a level line is, on it where there is room.
func (c chart) said(y float64, value string) {
	at := c.y.at(y)
	if !c.along(sheet.Point{X: c.x.from + 1, Y: at}, sheet.Point{X: c.x.to - 1, Y: at}, value) {
		var anchors []sheet.Point
		for x := c.x.to - 4; x > c.x.from; x -= 6 {
			anchors = append(anchors, sheet.Point{X: x, Y: at})
		}
		c.name(letters, value, anchors...)
	}
}

// A column of a list below a chart.
type column struct {
	x      float64
	anchor sheet.Anchor
}

// list writes rows of words in columns, from y downwards, and returns where the next
// row would stand.
func (p *plate) list(y float64, columns []column, rows ...[]string) float64 {
	for _, row := range rows {
		for i, word := range row {
			p.text(sheet.Point{X: columns[i].x, Y: y}, letters, columns[i].anchor, word)
		}
		y -= listUp
	}
	return y
}

// listUp is from one row of a list to the next.
const listUp = 4.2
