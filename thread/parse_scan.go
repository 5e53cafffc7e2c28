package thread

import "strings"

// A cursor is the part of a normalised text that has not been read yet. Its
// methods read what they are named after, or nothing and leave it alone.
type cursor string

// take reads the given text.
func (c *cursor) take(text string) bool {
	rest, ok := strings.CutPrefix(string(*c), text)
	*c = cursor(rest)
	return ok
}

// takeAny reads the first of the texts that comes next, blank if none does.
func (c *cursor) takeAny(texts ...string) string {
	for _, text := range texts {
		if c.take(text) {
			return text
		}
	}
	return ""
}

// takeWord is takeAny for words, which end where no letter follows but an x or the
// name of a series: "1/4inbsw", but not "1/4 instrument".
func (c *cursor) takeWord(texts ...string) string {
	before := *c
	text := c.takeAny(texts...)
	if letter := !c.end() && (*c)[0] >= 'a' && (*c)[0] <= 'z'; letter && (*c)[0] != 'x' && stand(string(*c)) == 0 {
		*c = before
		return ""
	}
	return text
}

// digits reads up to that many digits.
func (c *cursor) digits(most int) string {
	n := 0
	for n < min(len(*c), most) && (*c)[n] >= '0' && (*c)[n] <= '9' {
		n++
	}
	read := (*c)[:n]
	*c = (*c)[n:]
	return string(read)
}

// number reads up to so many digits, and a point with up to so many places
// behind it.
func (c *cursor) number(digits, places int) string {
	start := *c
	c.digits(digits)
	if before := *c; c.take(".") && c.digits(places) == "" {
		*c = before
	}
	return c.since(start)
}

// fraction reads "3/8".
func (c *cursor) fraction() string {
	start := *c
	if c.digits(2) != "" && c.take("/") && c.digits(2) != "" {
		return c.since(start)
	}
	*c = start
	return ""
}

// mixed reads "1 3/8" or "1-3/8".
func (c *cursor) mixed() string {
	start := *c
	if c.digits(2) != "" && c.takeAny(" ", "-") != "" && c.fraction() != "" {
		return c.since(start)
	}
	*c = start
	return ""
}

// size reads an inch size: "1/4", "1 1/8", "1-1/8", ".250" or "1", with or
// without the inch behind it.
func (c *cursor) size() string {
	size := c.mixed()
	if size == "" {
		size = c.fraction()
	}
	if size == "" {
		size = c.number(2, 4)
	}
	if size != "" {
		c.takeWord(" inch", "inch", " in", "in")
	}
	return size
}

func (c *cursor) since(start cursor) string { return string(start[:len(start)-len(*c)]) }

func (c *cursor) end() bool { return *c == "" }

// scanMetric reads "m3", "m3x0.5 mm", "m3-0.5", "m7.3x0.4 special", "tr 10x2", and
// behind these the name of a series that goes by it.
func scanMetric(text string) (m metricText, ok bool) {
	c := cursor(text)
	switch {
	case c.take("tr"):
		m.form = FormTrapezoidal
	case c.take("m"):
		m.form = FormISO
	default:
		return m, false
	}
	c.take(" ")
	const digits, places = 3, 9 // to the picometre
	m.diameter = c.number(digits, places)
	if c.take("x") || m.form == FormISO && c.take("-") {
		if m.pitch = c.number(digits, places); m.pitch == "" {
			return m, false
		}
	}
	if m.form == FormISO {
		c.takeWord(" mm", "mm")
	}
	m.special = c.take(" special")
	if !c.end() {
		m.series = stand(strings.TrimPrefix(string(c), " ")) & listed.series().mm
	}
	return m, m.diameter != "" && (c.end() || !m.special && m.series.form() == m.form)
}

// scanNumbered reads "2ba", "2-ba", "no 2 ba", "#2 ba", "ba 2", and so of each series
// whose sizes are numbers.
func scanNumbered(text string) (series seriesSet, number int, ok bool) {
	c := cursor(text)
	numbered := listed.series().numbered
	word := string(c[:max(0, strings.IndexAny(text, "0123456789"))])
	front := strings.TrimSuffix(strings.TrimSuffix(word, " "), "-")
	if series = stand(front) & numbered; series != 0 {
		c = c[len(word):]
	} else {
		c.takeAny("#", "no.", "no")
		c.take(" ")
	}
	digits := c.digits(2)
	if series == 0 {
		c.takeAny(" ", "-")
		series, c = stand(string(c))&numbered, ""
	}
	return series, wholeNumber(digits), digits != "" && series != 0 && c.end()
}

// scanPipe reads "g 1/8", "rc1/8-28", "1/8 bspp", "1/8-27 npt", "npt 1/8".
func scanPipe(text string) (p pipeText, ok bool) {
	c := cursor(text)
	p.system = c.takeAny("bspp", "bspt", "bsp", "npt", "rc", "rp", "r", "g")
	inFront := p.system != ""
	if inFront {
		c.take(" ")
	}
	p.size = c.size()
	mark := c.takeAny("x", "-")
	if mark != "" {
		p.tpi = c.number(2, 1)
	}
	if !inFront {
		c.take(" ")
		p.system = c.takeAny("bspp", "bspt", "bsp", "npt")
	}
	return p, p.system != "" && p.size != "" && (mark == "" || p.countFits(mark, inFront)) && c.end()
}

// countFits reports whether the system has its threads to the inch written so:
// a whole number, or of NPT a half one, with a hyphen and the name behind.
func (p pipeText) countFits(mark string, inFront bool) bool {
	digits := p.tpi
	if p.system == "npt" {
		if mark != "-" || inFront {
			return false
		}
		digits = strings.TrimSuffix(digits, ".5")
	}
	return wholeNumber(digits) >= 0
}

// scanInch reads a size with its series in front or behind, or without one:
// "1/4-20 unc", "# 4-40", "bsf 1/4", "1/4x40 tpi", "1-7 acme special".
func scanInch(text string) (in inchText, ok bool) {
	if metricWithoutM(text) {
		return in, false
	}
	c := cursor(text)
	in.series = c.seriesInFront()
	inFront := in.series != ""
	if !inFront {
		in.number = c.takeAny("# ", "#", "no. ", "no.", "no ", "no", "number ") != ""
	}
	in.size = c.size()
	in.mark = c.takeAny("x", "-")
	if in.mark != "" {
		in.tpi = c.number(3, 2)
		if c.takeWord(" tpi", "tpi"); in.tpi == "" || in.tpi[0] == '.' {
			return in, false
		}
	}
	if !inFront {
		in.series, in.special = c.seriesBehind()
	}
	return in, in.size != "" && c.end()
}

// seriesInFront reads the name of an inch series and the space behind it, where
// a digit follows.
func (c *cursor) seriesInFront() string {
	i := max(0, strings.IndexAny(string(*c), "0123456789"))
	name := strings.TrimSuffix(string((*c)[:i]), " ")
	if stand(name)&listed.series().inch == 0 {
		return ""
	}
	*c = (*c)[i:]
	return name
}

// seriesBehind reads the name of an inch series, if one comes, and the word
// special, to the end.
func (c *cursor) seriesBehind() (name string, special bool) {
	rest, special := strings.CutSuffix(string(*c), " special")
	name = strings.TrimPrefix(rest, " ")
	if stand(name)&listed.series().inch != 0 || rest == "" {
		*c = ""
	}
	return name, special
}

// metricWithoutM reports whether text is like "3x0.5", which is not 3 inches of
// half a thread.
func metricWithoutM(text string) bool {
	c := cursor(text)
	plain := func(digits int) bool { n := c.number(digits, len(text)); return n != "" && n[0] != '.' }
	if !plain(2) || !c.take("x") {
		return false
	}
	return len(c) > 0 && c[0] <= '2' && plain(1) && c.end()
}
