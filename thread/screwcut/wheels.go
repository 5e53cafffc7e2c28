package screwcut

import (
	"strconv"
	"strings"
)

const wheelsAccepted = `2 to 60 wheels of 8 to 400 teeth, such as "24, 24-100x4, 63"`

// ParseWheels reads a set of change wheels: teeth apart by commas or spaces,
// and runs with a step, "24, 24-100x4, 63, 127". A wheel of which there are
// two is given twice. There are 2 to 60 wheels of 8 to 400 teeth.
func ParseWheels(s string) ([]int, error) {
	refuse := func(part, problem string) ([]int, error) {
		return nil, fail.Unreadable("change wheels", part, problem, wheelsAccepted)
	}
	var wheels []int
	for _, part := range strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ' ' }) {
		from, rest, run := strings.Cut(part, "-")
		to, step := from, "1"
		if run {
			var stepped bool
			if to, step, stepped = strings.Cut(rest, "x"); !stepped {
				return refuse(part, "a run of wheels without its step")
			}
		}
		first, errFirst := strconv.Atoi(from)
		last, errLast := strconv.Atoi(to)
		by, errBy := strconv.Atoi(step)
		switch {
		case errFirst != nil || errLast != nil || errBy != nil:
			return refuse(part, "not a number of teeth")
		case first < leastTeeth || last > mostTeeth || last < first || by < 1:
			return refuse(part, "outside the range")
		case (last-first)%by != 0:
			return refuse(part, "the step does not reach the last wheel")
		case len(wheels)+(last-first)/by+1 > mostWheels:
			return refuse(part, "more than 60 wheels")
		}
		for teeth := first; teeth <= last; teeth += by {
			wheels = append(wheels, teeth)
		}
	}
	if len(wheels) < 2 {
		return refuse(s, "fewer than two wheels")
	}
	return wheels, nil
}
